import { HeatledgerError, problem } from '../errors/index.js';
import {
  type ColumnRole,
  type ReadOptions,
  type TimeForm,
  columnRoles,
  quantityRoles,
  timeForms,
} from '../logs/index.js';
import { readQuantity } from '../units/index.js';

export interface ReadArgs {
  readonly zone?: string | undefined;
  readonly timeForm?: string | undefined;
  readonly delimiter?: string | undefined;
  readonly decimal?: string | undefined;
  readonly interval?: string | undefined;
  readonly column?: readonly string[] | undefined;
  readonly unit?: readonly string[] | undefined;
}

const decimals = new Map<string, '.' | ','>([
  ['.', '.'],
  [',', ','],
  ['point', '.'],
  ['comma', ','],
]);

const unitRoles: readonly ColumnRole[] = ['time', ...quantityRoles];

/**
 * Options of the command line about an export in the form the reader takes. Checked here as far as they can be: an
 * export that has no need of one would never look at it.
 */
export function readOptionsOf(args: ReadArgs): ReadOptions {
  const { zone, timeForm, delimiter, decimal, interval, column, unit } = args;
  return {
    ...(zone === undefined ? {} : { zone: checkedZone(zone) }),
    ...(timeForm === undefined ? {} : { timeForm: checkedForm(timeForm) }),
    ...(delimiter === undefined ? {} : { delimiter: delimiter === '\\t' ? 'tab' : delimiter }),
    ...(decimal === undefined ? {} : { decimal: checkedDecimal(decimal) }),
    ...(interval === undefined ? {} : { intervalS: checkedInterval(interval) }),
    ...(column === undefined ? {} : { columns: pairsOf(column, '--column', columnRoles, 'power=3') }),
    ...(unit === undefined ? {} : { units: pairsOf(unit, '--unit', unitRoles, 'power=kW') }),
  };
}

function bad(got: string, expected: string, key: string) {
  return problem('log-option-bad', { got, expected }, { key });
}

function pairsOf(
  list: readonly string[],
  key: string,
  roles: readonly ColumnRole[],
  example: string,
): Partial<Record<ColumnRole, string>> {
  const pairs: Partial<Record<ColumnRole, string>> = {};
  for (const text of list) {
    const at = text.indexOf('=');
    const value = text.slice(at + 1).trim();
    if (at < 1 || value === '') {
      const message = `${key} is written as role=value, such as ${example}; this was "${text}".`;
      throw problem('option-bad', { message }, { key });
    }
    const name = text.slice(0, at).trim();
    const role = roles.find((each) => each.toLowerCase() === name.toLowerCase());
    if (role === undefined) throw bad(name, `one of the roles ${roles.join(', ')}`, key);
    if (pairs[role] !== undefined && pairs[role] !== value)
      throw bad(text, `${role} only once (it was ${pairs[role]} before)`, key);
    pairs[role] = value;
  }
  return pairs;
}

function checkedForm(text: string): TimeForm {
  const form = timeForms.find((each) => each === text.toLowerCase());
  if (form === undefined) throw bad(text, `one of ${timeForms.join(', ')}`, '--time-form');
  return form;
}

function checkedDecimal(text: string): '.' | ',' {
  const sign = decimals.get(text.toLowerCase());
  if (sign === undefined) throw bad(text, 'a point (.) or a comma (,)', '--decimal');
  return sign;
}

function checkedInterval(text: string): number {
  const expected = 'a time from row to row above zero, such as 10s or 1 min,';
  try {
    const { si } = readQuantity(text, { kind: 'time', unit: 's' }, { key: '--interval' });
    if (si > 0) return si;
  } catch (error) {
    // A text of two meanings is shown with both.
    if (!(error instanceof HeatledgerError) || error.code === 'number-ambiguous') throw error;
  }
  throw bad(text, expected, '--interval');
}

function checkedZone(zone: string): string {
  if (/^([+-]([01]\d|2[0-3])(:?[0-5]\d)?|z)$/i.test(zone)) return zone;
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return zone;
  } catch {
    throw problem('log-zone-unknown', { got: zone }, { key: '--zone' });
  }
}
