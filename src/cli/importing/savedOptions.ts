import type { ColumnRole, ReadOptions } from '../../logs/index.js';
import type { Mapping } from '../../workbook/index.js';

/**
 * What a saved mapping and the command line state together; what the command line states wins. `settled` adds what the
 * first export showed: it settles what the next one leaves open.
 */
export interface SavedOptions {
  readonly stated: ReadOptions;
  readonly settled: ReadOptions;
}

export function savedOptions(mapping: Mapping, typed: ReadOptions): SavedOptions {
  const kept = withoutOverruled(mapping, typed);
  const { interval, ...statedForm } = kept.stated;
  const columns = Object.fromEntries(
    Object.entries(kept.columns).map(([role, column]) => [role, column.number?.toString() ?? column.header]),
  );
  const stated = merged(
    { ...statedForm, columns, ...(interval === undefined ? {} : { intervalS: interval }) } as ReadOptions,
    typed,
  );
  return { stated, settled: merged(kept.found as ReadOptions, stated) };
}

/** The second wins, role by role where there are roles. */
function merged(first: ReadOptions, second: ReadOptions): ReadOptions {
  return {
    ...first,
    ...second,
    columns: { ...first.columns, ...second.columns },
    units: { ...first.units, ...second.units },
  };
}

/** The mapping less what belongs to something that is typed anew: the unit of another column is another unit. */
function withoutOverruled(mapping: Mapping, typed: ReadOptions) {
  const anew = new Set<string>(Object.keys(typed.columns ?? {}));
  const otherTimes = anew.has('time') || anew.has('date') || typed.intervalS !== undefined;
  const counts = typed.intervalS !== undefined;
  const columns = Object.entries(mapping.columns).filter(
    ([role]) => !anew.has(role) && !(counts && (role === 'time' || role === 'date')),
  ) as [ColumnRole, { header: string; number?: number }][];
  const formOf = <T extends Mapping['found']>(form: T) => {
    const { timeForm, units, ...rest } = form;
    const left = Object.entries(units ?? {}).filter(([role]) => !anew.has(role));
    return {
      ...rest,
      ...(timeForm === undefined || otherTimes ? {} : { timeForm }),
      units: Object.fromEntries(left),
    };
  };
  const { interval, ...stated } = mapping.stated;
  const counted =
    interval !== undefined && !anew.has('time') && (typed.timeForm ?? 'row-count') === 'row-count';
  return {
    columns: Object.fromEntries(columns),
    found: formOf(mapping.found),
    stated: { ...formOf(stated), ...(counted ? { interval } : {}) } as Mapping['stated'],
  };
}
