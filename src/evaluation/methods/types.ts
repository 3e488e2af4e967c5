import type { ThermalFit } from '../../fitting/index.js';
import type { Log } from '../../logs/index.js';
import type { Protocol } from '../../protocols/index.js';
import type { Quantity } from '../../uncertainty/index.js';
import type { Heater, RunRecord } from '../../workbook/index.js';
import type { FigureBudgetRow, RunEvaluation } from '../types.js';

/** Procedures that tell something else of a heater than its efficiency at one fill. */
export type Method = 'cool-down' | 'hold' | 'boil-off' | 'two-fills';

/** A finished run as it lies in the workbook, its exports read. */
export interface StoredRun {
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly powerLog: Log | null;
  readonly temperatureLog: Log | null;
}

/** What one run tells, as graphs over shared sources. */
export interface MethodRun {
  readonly run: RunRecord;
  readonly protocol: Protocol;
  /** By the names of the values: UA in W/K, times in s, shares as ratios. */
  readonly quantities: Readonly<Record<string, Quantity>>;
  /** Conditions, in SI; null where not known. */
  readonly facts: Readonly<Record<string, number | string | null>>;
  /** The curve, where one was fitted. */
  readonly fit: ThermalFit | null;
  /** Of a run at one of several fills: its efficiency, never pooled over fills. */
  readonly efficiency: RunEvaluation | null;
  readonly warnings: readonly string[];
}

/** One value with its uncertainty and budget. */
export interface MethodValue {
  readonly name: string;
  /** What it is, in words. */
  readonly meaning: string;
  readonly unit: string;
  readonly value: number;
  readonly standardUncertainty: number;
  readonly coverage: number;
  readonly coverageFactor: number;
  readonly degreesOfFreedom: number;
  readonly interval: readonly [number, number];
  readonly budget: readonly FigureBudgetRow[];
  /** What the value takes for granted, in words; null where nothing. */
  readonly conditionalOn: string | null;
  /** For going on with, what it shares with other results kept. */
  readonly quantity: Quantity;
}

/** Whether two methods say the same of a heater. */
export interface Agreement {
  readonly agree: boolean;
  readonly first: MethodValue;
  readonly second: MethodValue;
  /** First less second, what both share cancelled. */
  readonly difference: number;
  readonly standardUncertainty: number;
  readonly interval: readonly [number, number];
  readonly probabilityOfMore: number;
  readonly sentence: string;
}

/** The runs of one heater by one method together. */
export interface MethodFigure {
  readonly method: Method;
  readonly heater: Heater;
  /** Null where the heater was off. */
  readonly setting: string | null;
  /** Null where the procedure has none. */
  readonly lid: string | null;
  readonly protocol: Protocol;
  readonly runs: readonly MethodRun[];
  readonly values: readonly MethodValue[];
  /** Of the values in order, where they come from one fit; null where each stands by itself. */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly agreement: Agreement | null;
  /** The results in words, a line each. */
  readonly lines: readonly string[];
  /** What would make it whole, in a sentence; null where nothing is lacking. */
  readonly lacks: string | null;
  readonly warnings: readonly string[];
}
