/**
 * One unit: symbol, numerator and denominator of its exact size in the SI unit of its kind, other spellings.
 * A spelling that stands at two units of a kind is refused as ambiguous; that is how `gal` or `cal` are asked about.
 */
export type UnitRow = readonly [
  symbol: string,
  numerator: number,
  denominator: number,
  spellings?: string,
  /** What it shows at 273.15 K; only absolute temperatures with a zero of their own have one. */
  atIcePoint?: number,
];
