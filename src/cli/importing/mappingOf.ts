import { type ExportMapping, type ReadOptions, quantityRoles, showsDecimal } from '../../logs/index.js';
import type { RawRecord } from '../../workbook/index.js';

type Columns = ExportMapping['columns'];

/**
 * A mapping to be saved: what a person stated, and what was found out beside it. The zone of the workbook is stated
 * too; one that the export itself names is found again in the next one.
 */
export function mappingOf(
  id: string,
  mapping: ExportMapping,
  stated: ReadOptions,
  labZone: string | undefined,
): RawRecord {
  const { intervalS, delimiter, decimal, timeForm, units } = stated;
  const zone = stated.zone ?? labZone;
  const zoneHolds = mapping.zone === zone || (mapping.zone === null && stated.zone !== undefined);
  const foundUnits = Object.fromEntries(
    mapping.columns.flatMap(({ role, unit }) =>
      unit !== null &&
      (quantityRoles as readonly string[]).includes(role) &&
      !Object.hasOwn(units ?? {}, role)
        ? [[role, unit]]
        : [],
    ),
  );
  const found = {
    ...(delimiter !== undefined || mapping.columns.length < 2 ? {} : { delimiter: mapping.delimiter }),
    ...(decimal === undefined && showsDecimal(mapping) ? { decimal: mapping.decimal } : {}),
    ...(timeForm === undefined ? { timeForm: mapping.timeForm } : {}),
    ...withSome('units', foundUnits),
  };
  const said = {
    ...(delimiter === undefined ? {} : { delimiter: mapping.delimiter }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(timeForm === undefined ? {} : { timeForm }),
    ...withSome('units', { ...units }),
    ...(zone !== undefined && zoneHolds ? { zone } : {}),
    ...(intervalS === undefined ? {} : { interval: `${intervalS} s` }),
  };
  return {
    schema: 1,
    id,
    columns: columnsOf(mapping.columns, stated),
    ...withSome('found', found),
    ...withSome('stated', said),
  };
}

function withSome(key: string, group: Record<string, unknown>): Record<string, unknown> {
  return Object.keys(group).length > 0 ? { [key]: group } : {};
}

/** Every column in use, and one that was stated to be left out. */
function columnsOf(columns: Columns, stated: ReadOptions): Record<string, unknown> {
  const used = columns
    .filter(({ role }) => role !== 'ignored')
    .map((column) => [column.role, nameOf(column, columns)]);
  const ignored = stated.columns?.ignored;
  const out = columns.find((column) => ignored !== undefined && isNamed(column, ignored));
  return Object.fromEntries([...used, ...(out ? [['ignored', nameOf(out, columns)]] : [])]);
}

const plain = (text: string) => text.trim();

function isNamed({ header, index }: Columns[number], name: string): boolean {
  const like = plain(header).toLowerCase() === plain(name).toLowerCase();
  return like || (/^\d+$/.test(plain(name)) && Number(name) === index + 1);
}

/** By its name; with its number where the name stands twice, is none, or would be taken for another column's number. */
function nameOf({ header, index }: Columns[number], columns: Columns): Record<string, unknown> {
  const same = columns.filter((column) => plain(column.header) === plain(header));
  const alone = same.length === 1 && plain(header) !== '';
  return alone ? { header: plain(header) } : { header: plain(header), number: index + 1 };
}
