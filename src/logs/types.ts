/** What a column of an export holds; `ignored` columns are shown but never read. */
export type ColumnRole =
  | 'time'
  | 'date'
  | 'power'
  | 'energy'
  | 'voltage'
  | 'current'
  | 'temperature'
  | 'powerFactor'
  | 'ignored';

/** The roles that hold a measured quantity. */
export type QuantityRole = Exclude<ColumnRole, 'time' | 'date' | 'ignored'>;

/** How the times of an export are written. */
export type TimeForm =
  | 'elapsed-s'
  | 'elapsed-ms'
  | 'elapsed-min'
  | 'elapsed-h'
  | 'elapsed-hms'
  | 'elapsed-mmss'
  | 'iso'
  | 'day-first'
  | 'month-first'
  | 'year-first'
  | 'epoch-s'
  | 'epoch-ms'
  | 'serial-days'
  | 'row-count';

/** One column, what it was taken for, and why. */
export interface ColumnReading {
  /** Counted from 0. */
  readonly index: number;
  /** The text of the header line, empty where there is none. */
  readonly header: string;
  readonly role: ColumnRole;
  /** The unit as the export writes it; `null` where there is none. */
  readonly unit: string | null;
  /** In words, such as `header says "Leistung (W)"`. */
  readonly evidence: string;
}

/** How an export was read: enough to read its next sibling the same way. Lines are counted from 1. */
export interface ExportMapping {
  readonly delimiter: string;
  readonly decimal: '.' | ',';
  /** Why the decimal sign was read as it was. */
  readonly decimalEvidence: string;
  readonly encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'latin1';
  readonly headerLine: number | null;
  readonly firstDataLine: number;
  readonly timeForm: TimeForm;
  /** Why the times were read in that form. */
  readonly timeEvidence: string;
  /** The zone of the clock, from the option or the file; `null` for elapsed time. */
  readonly zone: string | null;
  readonly columns: readonly ColumnReading[];
}

/** What the user states about an export; everything else is found out from the file. */
export interface ReadOptions {
  /** IANA name (`Europe/Vienna`), `UTC`, or a fixed offset (`+02:00`). */
  readonly zone?: string;
  readonly timeForm?: TimeForm;
  readonly delimiter?: string;
  readonly decimal?: '.' | ',';
  /** Header text, or the number of the column counted from 1. */
  readonly columns?: Partial<Record<ColumnRole, string>>;
  readonly units?: Partial<Record<ColumnRole, string>>;
  /** Seconds from row to row, where the export has no times: then the rows are counted. */
  readonly intervalS?: number;
  /** The name that error messages show. */
  readonly fileName?: string;
}

/**
 * An export as read: SI arrays of equal length, times ascending without repeats. A cell that was empty or said
 * `OL` is NaN in its array: it is unknown, not zero.
 */
export interface Log {
  readonly mapping: ExportMapping;
  readonly rows: number;
  /** Epoch milliseconds of the first sample, where the clock is known. */
  readonly startUtcMs: number | null;
  /** Seconds from the first sample. */
  readonly timesS: Float64Array;
  readonly powerW: Float64Array | null;
  /** The counter of the meter, as it stands at each sample. */
  readonly energyJ: Float64Array | null;
  readonly voltageV: Float64Array | null;
  readonly currentA: Float64Array | null;
  readonly powerFactor: Float64Array | null;
  readonly temperatureK: Float64Array | null;
  readonly warnings: readonly string[];
  /** The smallest step the export can show. */
  readonly resolution: {
    readonly powerW: number | null;
    readonly energyJ: number | null;
    readonly temperatureK: number | null;
  };
}

/** One line of the export, cut into cells. */
export interface CsvRecord {
  readonly cells: readonly string[];
  readonly line: number;
}

/** The heating interval of a log, with the brackets within which the switching happened. */
export interface HeatingEdges {
  /** Seconds after the first sample; the middle of the bracket. */
  readonly onS: number;
  readonly offS: number;
  /** Power from which the heater counts as on. */
  readonly thresholdW: number;
  /** Median power below the threshold; `null` where the log shows none. */
  readonly standbyW: number | null;
  /** Median power while on. */
  readonly onW: number;
  readonly onBracketS: readonly [number, number];
  readonly offBracketS: readonly [number, number];
  /** The log begins while the heater is on already: the switch-on isn't in it. */
  readonly startsOn: boolean;
  readonly endsOn: boolean;
}

/** A stretch without readings, in seconds after the first sample. */
export interface Gap {
  readonly fromS: number;
  readonly toS: number;
}
