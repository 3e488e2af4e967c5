import ts from 'typescript';
import { mismatch } from './mismatch.js';

/** The code of one `@example` block and where it stands. */
export interface Example {
  readonly path: string;
  /** Line of the file on which the code begins, counted from 1. */
  readonly line: number;
  readonly code: string;
}

const lineOf = (text: string, offset: number) => text.slice(0, offset).split('\n').length;

/** The text of a docblock without its frame; as many lines as before. */
function unframed(comment: string): string[] {
  return comment
    .replace(/^\/\*\*|\*\/$/g, '')
    .split('\n')
    .map((line, index) => (index === 0 ? line : line.replace(/^\s*\* ?/, '')).trimEnd());
}

/** Every `@example` of the docblocks of a file. A fence of backquotes around the code is left out. */
export function examplesOf(path: string, text: string): Example[] {
  const examples: Example[] = [];
  for (const match of text.matchAll(/^[ \t]*\/\*\*[\s\S]*?\*\//gm)) {
    const lines = unframed(match[0].trimStart());
    const first = lineOf(text, match.index);
    lines.forEach((line, index) => {
      if (!/^\s*@example\b/.test(line)) return;
      let end = index + 1;
      while (end < lines.length && !/^\s*@\w/.test(lines[end]!)) end += 1;
      const body = lines.slice(index + 1, end).map((each) => (/^\s*```/.test(each) ? '' : each));
      const code = [line.replace(/^\s*@example\s*/, ''), ...body].join('\n').trimEnd();
      examples.push({ path, line: first + index, code });
    });
  }
  return examples;
}

/** A public function of a folder: exported by its index and callable. */
export interface PublicFunction {
  readonly folder: string;
  readonly name: string;
  readonly path: string;
  readonly documented: boolean;
  readonly withExample: boolean;
}

/** Every function and class that the index files export, with what their docblocks hold; classes need no example. */
export function publicFunctions(tree: ReadonlyMap<string, string>): PublicFunction[] {
  const program = programOf(tree);
  const checker = program.getTypeChecker();
  const found: PublicFunction[] = [];
  for (const path of tree.keys()) {
    const folder = /^src\/(\w+)\/index\.ts$/.exec(path)?.[1];
    const source = folder ? program.getSourceFile(`/${path}`) : undefined;
    const module = source && checker.getSymbolAtLocation(source);
    for (const exported of module ? checker.getExportsOfModule(module) : []) {
      const alias = exported.flags & ts.SymbolFlags.Alias;
      const symbol = alias ? checker.getAliasedSymbol(exported) : exported;
      const declaration = symbol.valueDeclaration;
      if (!declaration) continue;
      const type = checker.getTypeOfSymbolAtLocation(symbol, declaration);
      const isClass = ts.isClassDeclaration(declaration);
      if (!isClass && type.getCallSignatures().length === 0) continue;
      const blocks = (symbol.declarations ?? []).flatMap((each) => ts.getJSDocCommentsAndTags(each));
      const texts = blocks.map((block) => block.getFullText());
      found.push({
        folder: folder ?? '',
        name: exported.name,
        path: declaration.getSourceFile().fileName.slice(1),
        documented: texts.some((text) => /\w/.test(text)),
        withExample: isClass || texts.some((text) => /^[\s*/]*@example\b/m.test(text)),
      });
    }
  }
  return found;
}

/** The sources alone, without libraries: enough to see what is exported, and quick. */
function programOf(tree: ReadonlyMap<string, string>): ts.Program {
  const options: ts.CompilerOptions = {
    noLib: true,
    types: [],
    module: ts.ModuleKind.NodeNext,
    target: ts.ScriptTarget.ES2022,
  };
  const read = (file: string) => tree.get(file.replace(/^\//, ''));
  const host: ts.CompilerHost = {
    fileExists: (file) => read(file) !== undefined,
    readFile: read,
    directoryExists: (folder) => !folder.includes('node_modules'),
    getDirectories: () => [],
    getSourceFile: (file, target) => {
      const text = read(file);
      return text === undefined ? undefined : ts.createSourceFile(file, text, target, true);
    },
    getDefaultLibFileName: () => '/lib.d.ts',
    writeFile: () => {},
    getCurrentDirectory: () => '/',
    getCanonicalFileName: (file) => file,
    useCaseSensitiveFileNames: () => true,
    getNewLine: () => '\n',
  };
  const roots = [...tree.keys()].filter((path) => path.endsWith('.ts')).map((path) => `/${path}`);
  return ts.createProgram(roots, options, host);
}

interface Claim {
  readonly line: number;
  readonly statement: ts.Statement;
  readonly kind: 'value' | 'throws';
  readonly expected: string;
}

/** The `// => value` and `// throws 'code'` of an example, each with the statement it is about. */
function claimsOf(example: Example, file: ts.SourceFile): Claim[] {
  const claims: Claim[] = [];
  const lineAt = (offset: number) => file.getLineAndCharacterOfPosition(offset).line;
  example.code.split('\n').forEach((line, index) => {
    const match = /\/\/\s*(=>|throws\b)\s*(.*)$/.exec(line);
    if (!match) return;
    const at = example.line + index;
    const statement = file.statements.filter((each) => lineAt(each.getEnd()) <= index).at(-1);
    // A comment on a line of its own speaks of the statement before it.
    const close = statement && (lineAt(statement.getEnd()) === index || /^\s*\/\//.test(line));
    if (!statement || !close) throw new Error(`line ${at}: no statement ends here: ${line.trim()}`);
    claims.push({
      line: at,
      statement,
      kind: match[1] === '=>' ? 'value' : 'throws',
      expected: match[2]!.trim(),
    });
  });
  return claims;
}

/** The example as the body of a function that hands every claimed value to `check`. */
function bodyOf(example: Example): string {
  const file = ts.createSourceFile('example.ts', example.code, ts.ScriptTarget.ES2022, true);
  const claims = claimsOf(example, file);
  let body = '';
  for (const statement of file.statements) {
    const code = statement.getText();
    const own = claims.filter((claim) => claim.statement === statement);
    const [claim] = own;
    if (!claim) body += `${code}\n`;
    else if (own.length > 1) throw new Error(`line ${own[1]!.line}: two values for one statement`);
    else body += checked(claim, statement, code);
  }
  return body;
}

function checked(claim: Claim, statement: ts.Statement, code: string): string {
  const args = `${claim.line}, ${JSON.stringify(claim.expected)}`;
  if (claim.kind === 'throws') return `await throws(${args}, async () => { ${code}\n});\n`;
  if (ts.isExpressionStatement(statement))
    return `check(${args}, await (${statement.expression.getText()}));\n`;
  const name = ts.isVariableStatement(statement)
    ? statement.declarationList.declarations.at(-1)?.name
    : undefined;
  if (!name || !ts.isIdentifier(name)) throw new Error(`line ${claim.line}: this statement has no value`);
  return `${code}\ncheck(${args}, await ${name.text});\n`;
}

/**
 * Runs an example with the given names in scope. Throws one error that names every line whose value is another
 * than it says, or that throws something else.
 */
export async function runExample(example: Example, scope: Readonly<Record<string, unknown>>): Promise<void> {
  const wrong: string[] = [];
  const check = (line: number, expected: string, got: unknown) => {
    const difference = mismatch(expected, got);
    if (difference) wrong.push(`${example.path}, line ${line}: ${difference}`);
  };
  const throws = async (line: number, expected: string, run: () => Promise<void>) => {
    const code = /^['"`]([^'"`]+)['"`]/.exec(expected)?.[1];
    let got = 'nothing was thrown';
    try {
      await run();
    } catch (error) {
      got = String((error as { code?: unknown }).code ?? error);
    }
    if (got !== code) wrong.push(`${example.path}, line ${line}: expected the error ${expected}, got ${got}`);
  };
  const names = Object.keys(scope);
  const wrapped = `async function example() {\n${bodyOf(example)}}`;
  const { outputText } = ts.transpileModule(wrapped, { compilerOptions: { target: ts.ScriptTarget.ES2022 } });
  const make = new Function('check', 'throws', ...names, `'use strict';\n${outputText}\nreturn example;`);
  const run = make(check, throws, ...names.map((name) => scope[name])) as () => Promise<void>;
  await run();
  if (wrong.length > 0) throw new Error(wrong.join('\n'));
}
