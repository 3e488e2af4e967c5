import type { ModelComparison, Stretch, ThermalFit, ThermalModelName } from '../../fitting/index.js';
import type { Log, Phases } from '../../logs/index.js';
import type { Protocol } from '../../protocols/index.js';
import type { Propagated, SourceBook } from '../../uncertainty/index.js';
import type { Heater, RunRecord, Workbook } from '../../workbook/index.js';

/** A run with its logs. */
export interface CurveInputs {
  readonly book: SourceBook;
  readonly workbook: Workbook;
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly powerLog: Log | null;
  readonly temperatureLog: Log | null;
}

/** What a person may state. Times in seconds after the zero of `RunCurves`. */
export interface CurveOptions {
  /** Only this model; all that the phases allow where left out. */
  readonly model?: ThermalModelName;
  readonly fromS?: number;
  readonly toS?: number;
  readonly leaveOut?: readonly Stretch[];
  readonly blockS?: number;
  readonly targetK?: number;
}

/** Heating and the time in which the heater body gives off its heat, or the fall after it. */
export type PartName = 'warm-up' | 'cool-down';

/** A parameter, or what follows from it, with the doubts of log and instruments. */
export interface CurveQuantity {
  readonly name: string;
  /** In words and formula. */
  readonly meaning: string;
  /** Of the result: SI. */
  readonly unit: string;
  /** Null where the data don't give it. */
  readonly result: Propagated | null;
  readonly reason: string | null;
  /** What the value takes for granted, in words; null where nothing. */
  readonly conditionalOn: string | null;
}

/** One model fitted to one part of a run. */
export interface CurveFit {
  readonly model: ThermalModelName;
  readonly fit: ThermalFit;
  /** Seconds from the zero of the run to that of the fit. */
  readonly startS: number;
  /** In the order of the fit's parameters. */
  readonly parameters: readonly CurveQuantity[];
  readonly quantities: readonly CurveQuantity[];
}

/** A part of a run and the models that were fitted to it, the best first. */
export interface CurvePart {
  readonly name: PartName;
  /** Seconds after the zero of the run. */
  readonly stretch: Stretch;
  /** What is the first, and why it ends, in words. */
  readonly evidence: string;
  readonly fits: readonly CurveFit[];
  /** Null with one model. */
  readonly comparison: ModelComparison | null;
  /** The part of the stretch after the heating, s; null for a cool-down. */
  readonly afterHeatingS: number | null;
  /** Of what the rates stand over; null where it wasn't weighed. */
  readonly heatCapacity: { readonly joulesPerKelvin: Propagated; readonly words: string } | null;
}

/** How the clocks of two logs stand to each other. */
export interface CurveClocks {
  readonly how: 'one log' | 'clock' | 'mark' | 'switchings' | 'no power';
  /** Ends a sentence. */
  readonly words: string;
  readonly standardUncertaintyS: number;
}

/** What could not be fitted. */
export interface SkippedFit {
  readonly what: string;
  readonly why: string;
}

/** What the logged temperature of a run tells. */
export interface RunCurves {
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly heater: Heater;
  /** From what moment the times count. */
  readonly zero: 'switch-on' | 'first reading';
  /** Length of the temperature log, and its first reading from the zero, s. */
  readonly log: { readonly fromS: number; readonly toS: number; readonly readings: number };
  readonly clocks: CurveClocks;
  /** Times from the zero. */
  readonly phases: Phases;
  /** Null where nobody knows it. */
  readonly ambient: { readonly kelvin: number; readonly words: string } | null;
  readonly parts: readonly CurvePart[];
  /** What could not be fitted, and why. */
  readonly skipped: readonly SkippedFit[];
  readonly notes: readonly string[];
}
