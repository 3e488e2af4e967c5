/** Correlations from covariances; null beside a quantity without doubt, whose correlation has no meaning. */
export function correlationMatrix(covariance: readonly (readonly number[])[]): (number | null)[][] {
  const deviations = covariance.map((row, i) => Math.sqrt(row[i] as number));
  return covariance.map((row, i) =>
    row.map((entry, j) => {
      const scale = (deviations[i] as number) * (deviations[j] as number);
      if (!(scale > 0)) return null;
      // Rounding may lift a perfect correlation above one.
      return i === j ? 1 : Math.max(-1, Math.min(1, entry / scale));
    }),
  );
}
