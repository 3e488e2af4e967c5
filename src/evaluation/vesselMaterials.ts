/** Specific heats of vessel materials near room temperature, J/(kg K), with the half-width of their doubt. */
export const vesselMaterials: Readonly<
  Record<string, { readonly specificHeat: number; readonly halfWidth: number; readonly source: string }>
> = {
  // 500 J/(kg K), 0 to 100 °C: ASM data for AISI 304 and 316, from memory; carbon steel is 486.
  'stainless steel': { specificHeat: 500, halfWidth: 20, source: 'ASM, AISI 304, 0 to 100 °C, from memory' },
  steel: { specificHeat: 486, halfWidth: 20, source: 'carbon steel, from memory' },
  enamel: { specificHeat: 520, halfWidth: 40, source: 'carbon steel with a glass coat, from memory' },
  aluminium: { specificHeat: 897, halfWidth: 20, source: "Mechanical Engineer's Data Handbook, 25 °C" },
  copper: { specificHeat: 384, halfWidth: 8, source: "Mechanical Engineer's Data Handbook" },
  'cast iron': {
    specificHeat: 440,
    halfWidth: 40,
    source: "Mechanical Engineer's Data Handbook (420), from memory (460)",
  },
  // Published values of borosilicate glass differ by 13 %.
  glass: {
    specificHeat: 800,
    halfWidth: 60,
    source: 'Callister, Fundamentals of Materials Science and Engineering 3e, Table B.8',
  },
  ceramic: { specificHeat: 850, halfWidth: 100, source: 'from memory' },
  plastic: {
    specificHeat: 1700,
    halfWidth: 300,
    source: 'Callister (nylon 6,6: 1670); from memory for others',
  },
};

/** Part by which a specific heat that the user states may be off; common practice, no source. */
export const STATED_SPECIFIC_HEAT_HALF_WIDTH = 0.05;
