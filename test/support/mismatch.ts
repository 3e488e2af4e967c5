import ts from 'typescript';

/**
 * What is different between a value and the text that says what it should be, or undefined when nothing is.
 * Numbers need agree only to the digits shown: by half a unit of the last one. A whole number below ten is
 * taken as exact, since half a unit would let 0.4 pass for 0.
 */
export function mismatch(expected: string, got: unknown): string | undefined {
  const file = ts.createSourceFile('expected.ts', `(${expected}\n)`, ts.ScriptTarget.ES2022, true);
  const [statement] = file.statements;
  const complaint = (file as unknown as { parseDiagnostics: unknown[] }).parseDiagnostics.length > 0;
  if (complaint || file.statements.length !== 1 || !statement || !ts.isExpressionStatement(statement))
    return `not a value: ${expected}`;
  const where = differing(statement.expression, got, '');
  return where === undefined
    ? undefined
    : `expected ${expected}, got ${show(got)}${where && ` (at ${where})`}`;
}

function show(value: unknown): string {
  if (typeof value === 'number' || typeof value === 'bigint') return String(value);
  if (ArrayBuffer.isView(value)) return show([...(value as unknown as Iterable<unknown>)]);
  return JSON.stringify(value) ?? String(value);
}

/** Path of the first part that differs, '' for the value itself, undefined when all is the same. */
function differing(node: ts.Expression, got: unknown, path: string): string | undefined {
  if (ts.isParenthesizedExpression(node)) return differing(node.expression, got, path);
  if (ts.isArrayLiteralExpression(node)) {
    const values = Array.isArray(got)
      ? got
      : ArrayBuffer.isView(got)
        ? [...(got as Float64Array)]
        : undefined;
    if (values?.length !== node.elements.length) return path;
    return firstOf(node.elements.map((each, i) => () => differing(each, values[i], `${path}[${i}]`)));
  }
  if (ts.isObjectLiteralExpression(node)) return differingObject(node, got, path);
  const same = ts.isStringLiteralLike(node) ? got === node.text : sameNumberOrWord(node.getText(), got);
  return same ? undefined : path;
}

function firstOf(tests: readonly (() => string | undefined)[]): string | undefined {
  for (const test of tests) {
    const result = test();
    if (result !== undefined) return result;
  }
  return undefined;
}

function differingObject(node: ts.ObjectLiteralExpression, got: unknown, path: string): string | undefined {
  if (typeof got !== 'object' || got === null || Array.isArray(got)) return path;
  const values = got as Record<string, unknown>;
  const wanted = new Map<string, ts.Expression>();
  for (const each of node.properties) {
    if (!ts.isPropertyAssignment(each) || ts.isComputedPropertyName(each.name)) return path;
    wanted.set(each.name.text, each.initializer);
  }
  const extra = Object.keys(values).find((key) => values[key] !== undefined && !wanted.has(key));
  if (extra !== undefined) return `${path}.${extra}`;
  return firstOf(
    [...wanted].map(([key, each]) => () => {
      const inside = `${path}.${key}`;
      // A key that is missing is not the same as one whose value is anything.
      return key in values ? differing(each, values[key], inside) : inside;
    }),
  );
}

const words: Readonly<Record<string, unknown>> = {
  true: true,
  false: false,
  null: null,
  undefined: undefined,
  NaN: Number.NaN,
  Infinity: Number.POSITIVE_INFINITY,
  '-Infinity': Number.NEGATIVE_INFINITY,
};

function sameNumberOrWord(text: string, got: unknown): boolean {
  if (text in words) return Object.is(words[text], got);
  if (/^-?\d+n$/.test(text)) return got === BigInt(text.slice(0, -1));
  const plain = text.replaceAll('_', '').replace(/^-\s+/, '-');
  const match = /^-?(\d*)(?:\.(\d*))?(?:e([+-]?\d+))?$/i.exec(plain);
  if (!match || typeof got !== 'number') return false;
  const [, whole = '', decimals, exponent] = match;
  const exact = decimals === undefined && exponent === undefined && whole.length === 1;
  const halfUnit = exact ? 1e-9 : 0.5 * 10 ** (Number(exponent ?? 0) - (decimals ?? '').length);
  // The small factor forgives the rounding of the subtraction itself.
  return Math.abs(got - Number(plain)) <= halfUnit * (1 + 1e-9);
}
