import type { Propagated, Quantity } from '../../uncertainty/index.js';

/** Loss of the vessel to the room as known before a run is evaluated, and where it is known from. */
export interface KnownLoss {
  /** UA without the heat of vapour, W/K. */
  readonly uaWPerK: Quantity;
  /** In words that end a sentence, such as "the cool-down of run vat-warmer-full-04". */
  readonly from: string;
  /** Ids of the runs it was measured in. */
  readonly fromRuns?: readonly string[];
  /** Vapour left while it was measured and was not taken apart: such a UA would book vapour twice and is not used. */
  readonly holdsVapour?: boolean;
}

/** Heat capacity of the heater body, J/K, where two fills gave it. */
export interface KnownBody {
  readonly heatCapacityJPerK: Quantity;
  readonly from: string;
}

/** The loss to the room of one run. */
export interface RunLoss {
  readonly uaWPerK: Propagated;
  readonly from: string;
  /** UA was measured in this very run: that its balance closes proves nothing then. */
  readonly fromThisRun: boolean;
  /** Where the course of the temperature is known from; null where the room could not be separated. */
  readonly course: 'log' | 'readings' | 'ends' | null;
  /** Why room and rest were not separated, in a sentence; null where they were. */
  readonly why: string | null;
  /** As graphs: UA, and where they were separated κ and heat capacities by this balance. */
  readonly quantity: Quantity;
  readonly heater: BalanceHeater | null;
}

/** A heater as one heat balance shows it; vapour counts as lost. */
export interface BalanceHeater {
  /** Heat of water, vessel, heater body where that is known, and room, over the energy that went in. */
  readonly kappa: Quantity;
  readonly loadHeatCapacityJPerK: Quantity;
  readonly vesselHeatCapacityJPerK: Quantity;
  /** Null where nobody knows it. */
  readonly bodyHeatCapacityJPerK: Quantity | null;
  /** Rise over the energy that went in, K/J: so much κ grows with each J/K of a heater body that was left out. */
  readonly kappaByBody: Quantity;
}

/** The efficiency as it would be without loss to the room, under the definition of the headline; else why not. */
export interface LossFree {
  readonly efficiency: Propagated | null;
  readonly quantity: Quantity | null;
  /** In a sentence; null where it could be had. */
  readonly why: string | null;
}

/** Between which conditions something was measured; SI. */
export interface TestedRange {
  readonly waterKg: readonly [number, number];
  readonly startK: readonly [number, number];
  readonly endK: readonly [number, number];
  readonly powerW: readonly [number, number];
  readonly ambientK: readonly [number, number] | null;
}

/** What carries a heater's figure to another mass, temperature or power: κ, UA and heat capacities. */
export interface KnownTransfer {
  /** Part of the metered energy that reaches body, vessel and load. */
  readonly kappa: Quantity;
  /** Null from one fill. */
  readonly bodyHeatCapacityJPerK: Quantity | null;
  readonly vesselHeatCapacityJPerK: Quantity;
  /** UA in W/K with the water it was measured with; between two fills it goes in a straight line. */
  readonly ua: readonly { readonly waterKg: number; readonly uaWPerK: Quantity }[];
  /** From one fill: heat capacity of load and vessel for which κ and UA were made. */
  readonly fittedHeatCapacityJPerK?: Quantity;
  /** From heat balances, where UA doesn't hang on the heat capacity: what κ grows by with each J/K of the heater body. */
  readonly kappaByBody?: Quantity;
  readonly range: TestedRange;
  readonly from: string;
}

/** The same with its numbers, as a figure carries it. */
export interface FigureTransfer {
  readonly kappa: Propagated;
  readonly bodyHeatCapacityJPerK: Propagated | null;
  readonly ua: readonly { readonly waterKg: number; readonly uaWPerK: Propagated }[];
  /** Of κ, each UA in order, and the body's heat capacity where it is known. */
  readonly covariance: readonly (readonly number[])[];
  readonly range: TestedRange;
  readonly from: string;
  readonly known: KnownTransfer;
}

/** A heating that is planned; SI, temperatures in kelvin. */
export interface HeatingRequest {
  readonly massKg: number;
  readonly startK: number;
  /** Stirred end temperature. */
  readonly endK: number;
  readonly powerW: number;
  /** Null: as in the tests, else 20 °C give or take 5 K. */
  readonly ambientK: number | null;
  /** Most that the heater body can hold, J/K: one fill is then carried to another mass, with that as a doubt. */
  readonly mostBodyJPerK?: number;
}

/** What a planned heating will take. */
export interface HeatingPrediction {
  readonly timeS: Propagated;
  readonly energyJ: Propagated;
  /** Heat in the water over the energy. */
  readonly efficiency: Propagated;
  /** As graphs, over the same sources as the figure. */
  readonly quantities: {
    readonly timeS: Quantity;
    readonly energyJ: Quantity;
    readonly efficiency: Quantity;
  };
  /** What was taken for granted, in words. */
  readonly assumptions: readonly string[];
  /** Sentences on what lies outside of what was tested. */
  readonly warnings: readonly string[];
}
