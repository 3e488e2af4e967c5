/** A logged temperature; times in seconds on one clock with the other series, strictly rising. */
export interface TemperatureSeries {
  readonly timesS: ArrayLike<number>;
  readonly temperaturesK: ArrayLike<number>;
}

/** A logged power. */
export interface PowerSeries {
  readonly timesS: ArrayLike<number>;
  readonly powerW: ArrayLike<number>;
  /** Between two readings: a straight line (where left out), or the earlier reading until the next. */
  readonly between?: 'line' | 'step';
}

/** What a model of a heated load is fitted to. */
export interface ThermalData {
  readonly temperature: TemperatureSeries;
  /** Temperature of the room in kelvin: one value, or logged. */
  readonly ambient?: number | TemperatureSeries;
  readonly power?: PowerSeries;
}

/** A stretch in seconds after the first reading of the temperature. */
export interface Stretch {
  readonly fromS: number;
  readonly toS: number;
}

/** What a person may state about a fit. */
export interface ThermalFitOptions {
  /** Length of the blocks over which readings and model are averaged; 60 s where left out. */
  readonly blockS?: number;
  /** Readings of the temperature in these stretches are left out; the model is still stepped through them. */
  readonly leaveOut?: readonly Stretch[];
  /** Heat capacity of load and vessel, J/K: κ and UA are then given too, conditional on it. */
  readonly heatCapacityJPerK?: number;
  /** A temperature for which the time to reach it is wanted, K. */
  readonly targetK?: number;
}

export type ThermalModelName = 'approach' | 'coolDown' | 'oneNode' | 'twoNode';

/** A parameter of a model, or a quantity that follows from it. */
export interface FittedQuantity {
  readonly name: string;
  /** What it is, in words and formula. */
  readonly meaning: string;
  readonly unit: string;
  /** null where the data don't give it. */
  readonly value: number | null;
  /** From the scatter of the log only; null where it is unknown. */
  readonly standardUncertainty: number | null;
  /** Why something is null; null where nothing is. */
  readonly reason: string | null;
  /** What the value takes for granted, in words; null where nothing. */
  readonly conditionalOn: string | null;
}

/** One test for structure that the model left in the residuals. */
export interface ResidualTest {
  readonly name: 'runs' | 'Durbin-Watson' | 'Ljung-Box' | 'largest';
  readonly statistic: number;
  /** Chance of a statistic at least as extreme if only noise were left; null where it can't be told. */
  readonly probability: number | null;
}

/** Whether a curve fits, as one would say it at the bench. */
export interface FitVerdict {
  readonly fits: boolean;
  readonly sentence: string;
  /** The stretch that doesn't fit; null where it fits. */
  readonly where: Stretch | null;
  /** A stretch that, left out, makes the curve fit; null where none was found or needed. */
  readonly leaveOut: Stretch | null;
}

/** Derivatives of the fitted parameters by instrument errors, in the order of the parameters. */
export interface FitSensitivities {
  /** Added to every reading of the load's temperature, per K. */
  readonly thermometerOffset: readonly number[];
  /** Each reading of the load's temperature grows by this part of its Celsius temperature. */
  readonly thermometerGain: readonly number[];
  /** Added to every temperature of the room, per K; null where the model has none. */
  readonly ambientOffset: readonly number[] | null;
  /** Each reading of the power grows by this part of itself; null where the model has none. */
  readonly meterGain: readonly number[] | null;
  /** The vapour's heat over the heat capacity grows by this part of itself; null where the model has none. */
  readonly vapourRate: readonly number[] | null;
}

/** Block means with curve and bands, one entry a block. */
export interface FitCurve {
  readonly timesS: readonly number[];
  readonly observedK: readonly number[];
  readonly fittedK: readonly number[];
  readonly residualsK: readonly number[];
  /** Residuals free of their autocorrelation, in units of their standard deviation. */
  readonly whitened: readonly number[];
  /** Half-widths at 95 %, from the scatter only: of the curve, and of one more block mean. null without a covariance. */
  readonly confidenceK: readonly number[] | null;
  readonly predictionK: readonly number[] | null;
}

/** Which data a fit used. */
export interface FitUse {
  /** Readings of the temperature. */
  readonly readings: number;
  readonly leftOut: number;
  /** Seconds after the first reading of the temperature. */
  readonly fromS: number;
  readonly toS: number;
  readonly notes: readonly string[];
}

/** A model fitted to a logged temperature: one plain object. */
export interface ThermalFit {
  readonly model: ThermalModelName;
  readonly parameters: readonly FittedQuantity[];
  /** Of the parameters, by rows, from the scatter only; null where there is none. */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly covarianceReason: string | null;
  /** Of the covariance: take Student's t with them. */
  readonly degreesOfFreedom: number;
  /** What follows from the parameters: time constants, κ, UA, time to a target. */
  readonly quantities: readonly FittedQuantity[];
  readonly blocks: {
    readonly lengthS: number;
    readonly count: number;
    /** Autocorrelation from block to block that the fit assumes. */
    readonly autocorrelation: number;
    /** How many independent block means they are worth. */
    readonly effective: number;
  };
  /** Of the block means about the curve, K, their autocorrelation left in. */
  readonly residualStandardDeviationK: number;
  /** Of one reading about its neighbours, K, from second differences: quick noise without slow wandering. */
  readonly readingScatterK: number;
  readonly curve: FitCurve;
  readonly tests: readonly ResidualTest[];
  readonly verdict: FitVerdict;
  /** Akaike's criterion with the correction for few data; only differences between fits to the same blocks mean something. */
  readonly aicc: number;
  readonly sensitivities: FitSensitivities | null;
  readonly used: FitUse;
  readonly converged: boolean;
  readonly stopReason: string;
  /** How often the model was evaluated over all readings. */
  readonly evaluations: number;
  readonly restarts: number;
}
