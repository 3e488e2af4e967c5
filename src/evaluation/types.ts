import type { HeatledgerError } from '../errors/index.js';
import type { Log } from '../logs/index.js';
import type { Definition, Protocol } from '../protocols/index.js';
import type { Propagated, Quantity, Scope, Sensitivity } from '../uncertainty/index.js';
import type { ExclusionRecord, Heater, Instrument, InstrumentKind, RunRecord } from '../workbook/index.js';
import type { FigureTransfer, LossFree, RunLoss } from './losses/types.js';

/** One entry of a run's heat balance. The entries add up to the energy that went in. */
export interface Booking {
  readonly name:
    | 'water'
    | 'vapour'
    | 'vessel'
    | 'heater body'
    | 'room'
    | 'rest'
    | 'room and rest, not separated';
  /** In joules. */
  readonly heat: Propagated;
  /** Over the energy that went in. */
  readonly share: Propagated;
}

/** One way the energy of a run was read. */
export interface EnergyReading {
  /** In joules. */
  readonly energy: Propagated;
  readonly how: string;
}

/** The energy of a run: which reading counts, and how the others agree with it. */
export interface RunEnergy {
  /** From the counter as typed at the bench. */
  readonly typed: EnergyReading;
  /** From the integral of the logged power, or null where no log was imported. */
  readonly logged: EnergyReading | null;
  /** From the counter in the export, or null. */
  readonly counter: EnergyReading | null;
  readonly used: 'typed' | 'logged';
  /** Logged less typed with what both share cancelled; null without a log. */
  readonly difference: Propagated | null;
}

/** Under what conditions a run was made; SI. */
export interface RunConditions {
  readonly waterKg: number;
  readonly startK: number;
  readonly endK: number;
  readonly riseK: number;
  readonly ambientK: number | null;
  readonly pressurePa: number;
  readonly pressureFrom: string;
  readonly durationS: number;
  readonly meanPowerW: number;
  readonly meanVoltageV: number | null;
  readonly lid: string | null;
  readonly vapourKg: number;
  readonly weighedAfter: boolean;
  readonly start: 'rest' | 'warm';
}

/** A run with its efficiency under each definition, its heat balance, and the warnings that go with it. */
export interface RunEvaluation {
  readonly run: RunRecord;
  readonly protocol: Protocol;
  readonly heater: Heater;
  readonly instruments: Partial<Record<InstrumentKind, Instrument>>;
  /** Null where a definition needs what was not measured. */
  readonly efficiency: Readonly<Record<Definition, Propagated | null>>;
  /** The same as graphs, for pooling and comparing. */
  readonly quantities: Readonly<Record<Definition, Quantity | null>>;
  readonly balance: readonly Booking[];
  /** Null or left out where no loss coefficient is known. */
  readonly loss?: RunLoss | null;
  readonly lossFree?: LossFree;
  readonly energy: RunEnergy;
  readonly conditions: RunConditions;
  readonly powerLog: Log | null;
  readonly temperatureLog: Log | null;
  readonly warnings: readonly string[];
}

/** One line of a figure's budget, in the unit of the efficiency. */
export interface FigureBudgetRow {
  readonly id: string;
  readonly source: string;
  readonly scope: Scope | 'between runs';
  /** Null where a row stands for several sources or for the scatter that was seen. */
  readonly sensitivity: number | null;
  readonly contribution: number;
  /** Part of the variance of the mean, 0 to 1; the rows add up to 1. */
  readonly share: number;
  readonly assumed: boolean;
  readonly instrument: string | null;
}

/** A figure as it would stand had nobody excluded a run. */
export interface WithExcluded {
  readonly runs: readonly {
    readonly run: string;
    readonly value: number;
    readonly exclusion: ExclusionRecord;
  }[];
  readonly value: number;
  readonly interval: readonly [number, number];
  readonly prediction: readonly [number, number];
}

/** The efficiency of one heater at one setting from all its accepted runs under one protocol. */
export interface Figure {
  readonly heater: Heater;
  readonly setting: string;
  readonly protocol: Protocol;
  readonly definition: Definition;
  readonly efficiency: {
    readonly value: number;
    readonly standardUncertainty: number;
    readonly coverage: number;
    readonly coverageFactor: number;
    /** Infinity where k is that of the normal distribution. */
    readonly degreesOfFreedom: number;
    /** How the degrees of freedom were found. */
    readonly degreesOfFreedomBasis: string;
    readonly interval: readonly [number, number];
  };
  /** Of the true efficiency of one future heating. */
  readonly prediction: { readonly interval: readonly [number, number] };
  readonly spread: {
    /** Standard deviation between runs, in the unit of the efficiency. */
    readonly standardDeviation: number;
    readonly basis: 'seen' | 'assumed';
    readonly words: string;
  };
  readonly budget: readonly FigureBudgetRow[];
  /** What the mean rests on, for comparing: sources that other figures may share, and what is its own. */
  readonly parts: {
    readonly shared: readonly Sensitivity[];
    readonly own: { readonly u: number; readonly degreesOfFreedom: number };
  };
  readonly runs: readonly RunEvaluation[];
  /** The same runs under the other definitions: value and expanded uncertainty, or null where not measured. */
  readonly definitions: Readonly<
    Record<Definition, { value: number; interval: readonly [number, number] } | null>
  >;
  /** UA to the room that the runs' balances rest on; null or left out where none is known. */
  readonly losses?: { readonly uaWPerK: Propagated; readonly from: string } | null;
  /** Null or left out where nothing carries the figure to another heating. */
  readonly transfer?: FigureTransfer | null;
  /** Mean of the runs without their loss to the room; null or left out unless every run has it. */
  readonly lossFree?: { readonly value: number; readonly interval: readonly [number, number] } | null;
  /** Runs of this setting that a person took out, and what the figure would be with them; null where there are none. */
  readonly withExcluded: WithExcluded | null;
  /** "one run", "two runs" where there are too few to sign. */
  readonly mark: string | null;
  readonly warnings: readonly string[];
}

/** A run that doesn't count, and why. */
export interface RefusedRun {
  readonly run: string;
  readonly heater: string | null;
  readonly setting: string | null;
  readonly kind: 'refused' | 'unfinished' | 'excluded';
  readonly reason: string;
  /** Null for a run that is merely unfinished or that a person excluded. */
  readonly error: HeatledgerError | null;
}
