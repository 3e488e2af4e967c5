/**
 * Intervals of the confidence mixture over the between-run variance and, with finite degrees of freedom, over the shared
 * uncertainty, by another way than the program's: Gauss–Legendre quadrature of 300 nodes a piece in both directions, pieces
 * parted where the between-run variance becomes zero, roots by Brent's method; NumPy 2.4.6, SciPy 1.17.1.
 */
export const mixtures = [
  {
    values: [0.6, 0.63, 0.61, 0.66, 0.62],
    uncertainties: [0.01, 0.012, 0.01, 0.02, 0.015],
    u: 0.02,
    degreesOfFreedom: 5.5,
    coverage: 0.95,
    interval: [0.5638093797556318, 0.6781943188599312],
    prediction: [0.5419991122768538, 0.7017399667754567],
  },
  {
    values: [0.6, 0.63, 0.61, 0.66, 0.62],
    uncertainties: [0.01, 0.012, 0.01, 0.02, 0.015],
    u: 0.02,
    degreesOfFreedom: Infinity,
    coverage: 0.95,
    interval: [0.5733756948437686, 0.668799010881168],
    prediction: [0.5494848215027083, 0.6948921833885079],
  },
  {
    values: [0.55, 0.58, 0.61],
    uncertainties: [0.01, 0.01, 0.01],
    u: 0.015,
    degreesOfFreedom: 2.3,
    coverage: 0.95,
    interval: [0.480894874739718, 0.6791051252602818],
    prediction: [0.4168607837315081, 0.743139216268491],
  },
  {
    values: [0.55, 0.58, 0.61],
    uncertainties: [0.01, 0.01, 0.01],
    u: 0.015,
    degreesOfFreedom: 2.3,
    coverage: 0.99,
    interval: [0.3692660055251717, 0.7907339944748253],
    prediction: [0.21681490551706692, 0.9431850944829212],
  },
  {
    values: [0.6, 0.601, 0.5995, 0.6002],
    uncertainties: [0.01, 0.01, 0.01, 0.01],
    u: 0.01,
    degreesOfFreedom: 8,
    coverage: 0.95,
    interval: [0.57709201612366, 0.62325798387634],
    prediction: [0.577088691029211, 0.6232613089707889],
  },
  {
    values: [0.55, 0.58, 0.61],
    uncertainties: [0.002, 0.01, 0.03],
    u: 0.005,
    degreesOfFreedom: 1,
    coverage: 0.95,
    interval: [0.4603824829977213, 0.692794319048039],
    prediction: [0.39214312254845746, 0.7629908493107479],
  },
] as const;
