import { problem } from '../errors/index.js';
import { idField } from './schemas/fields.js';

/**
 * Checks an id before it becomes part of a path: no separators, no double dots, no name that some system reserves,
 * lower case only, so that two ids never meet on a file system that ignores case.
 *
 * @example
 * checkId('vat-warmer', 'heater') // => 'vat-warmer'
 * checkId('../etc', 'heater') // throws 'id-bad'
 */
export function checkId(id: string, what: string): string {
  const checked = idField.safeParse(id);
  if (!checked.success) {
    throw problem('id-bad', { what, got: id, reason: checked.error.issues[0]?.message ?? 'not an id' });
  }
  return id;
}

/**
 * Makes an id of a name a person typed: "Vat warmer, 900 W" becomes `vat-warmer-900-w`.
 *
 * @example
 * idFrom('Vat warmer, 900 W') // => 'vat-warmer-900-w'
 */
export function idFrom(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48)
    .replace(/-+$/, '');
  // A name in another script, or one that some system reserves, still gets a usable id.
  if (plain === '' || !idField.safeParse(plain).success) return `item-${plain}`.replace(/-$/, '');
  return plain;
}
