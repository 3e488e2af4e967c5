import type { z } from 'zod';

type Issue = z.core.$ZodIssue;

/** What is expected, in words, by the name that the schema library gives it. */
const expectedWords: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a group of keys with their values',
  record: 'a group of keys with their values',
};

/**
 * What a schema has to say about a value, in words that need no programmer. Sentences of our own schemas pass as they
 * are; the library's are said anew.
 *
 * @example
 * plainIssue({ code: 'invalid_type', expected: 'int', path: ['digits'], message: 'Invalid input' }, 1.5)
 * // => 'a whole number is expected'
 * plainIssue({ code: 'unrecognized_keys', keys: ['colour'], path: [], message: 'Unrecognized key' }, {})
 * // => 'no key "colour" is known here; check its spelling or take it out'
 */
export function plainIssue(issue: Issue, value: unknown): string {
  const expected = expectation(issue);
  if (expected === null) return issue.message.replace(/\.$/, '');
  return value === undefined ? `this key is missing; ${expected}` : expected;
}

function expectation(issue: Issue): string | null {
  switch (issue.code) {
    case 'invalid_type':
      return `${expectedWords[issue.expected] ?? issue.expected} is expected`;
    case 'invalid_value':
      return `${oneOf(issue.values)} is expected`;
    case 'invalid_union':
      return unionExpectation(issue);
    case 'unrecognized_keys':
      return `no key "${issue.keys[0]}" is known here; check its spelling or take it out`;
    case 'too_small':
      return sizeExpectation(
        issue.origin,
        issue.minimum,
        issue.inclusive === false ? 'more than' : 'at least',
      );
    case 'too_big':
      return sizeExpectation(
        issue.origin,
        issue.maximum,
        issue.inclusive === false ? 'less than' : 'at most',
      );
    case 'invalid_format':
      return issue.format === 'datetime'
        ? 'a time with its offset is expected, such as 2026-03-02T09:30:00+01:00 or 2026-03-02T08:30:00Z'
        : null;
    default:
      return null;
  }
}

function unionExpectation(issue: Extract<Issue, { code: 'invalid_union' }>): string | null {
  if ('options' in issue && issue.options) return `${oneOf(issue.options)} is expected`;
  const wanted = issue.errors.map((each) => each[0]);
  const words = wanted.map((each) =>
    each?.code === 'invalid_type' ? expectedWords[each.expected] : undefined,
  );
  return words.every((each) => each !== undefined) ? `${oneOfWords(words)} is expected` : null;
}

function sizeExpectation(origin: string, bound: number | bigint, relation: string): string {
  const things = Number(bound) === 1 ? 'entry' : 'entries';
  const letters = Number(bound) === 1 ? 'letter' : 'letters';
  if (origin === 'string') return `a text of ${relation} ${bound} ${letters} is expected`;
  if (origin === 'array') return `a list of ${relation} ${bound} ${things} is expected`;
  return `a number of ${relation} ${bound} is expected`;
}

function oneOf(values: readonly unknown[]): string {
  const words = values.map((value) => (typeof value === 'string' ? value : JSON.stringify(value)));
  return words.length === 1 ? `${words[0]}` : `one of ${oneOfWords(words)}`;
}

/** "wattmeter, scale or barometer". */
function oneOfWords(words: readonly (string | undefined)[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
