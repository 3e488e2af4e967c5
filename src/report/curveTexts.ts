/** Words of the section on warm-up and cool-down. */
export const curveTexts = {
  heading: 'Warm-up and cool-down',
  intro:
    'A model of the heated load, fitted to the logged temperature. Points are means over the blocks named beside them, the line is the fitted curve, pale the band in which one more block mean would lie, dashed the band of the curve itself, both at 95 % and from the scatter of the log alone. Below are the residuals, means less curve, on the same time axis. The tables state values with all doubts, those of the instruments too.',
  parts: { 'warm-up': 'Warm-up', 'cool-down': 'Cool-down' },
  models: { approach: 'approach', coolDown: 'cool-down', oneNode: 'one node', twoNode: 'two nodes' },
  fitted: (model: string, blocks: number, lengthS: number) =>
    `Model: ${model}; ${blocks} blocks of ${Number(lengthS.toPrecision(3))} s.`,
  time: { 'switch-on': 'minutes from switch-on', 'first reading': 'minutes from the first reading' },
  temperature: (unit: string) => `Temperature, ${unit}`,
  residuals: (unit: string) => `Residuals, ${unit}`,
  chartTitle: (part: string, run: string) => `${part} of ${run}: temperature, fitted curve and residuals`,
  tableCaption: (part: string, run: string) => `${part} of ${run}: what the curve says`,
  tableHead: ['Quantity', 'Value, ± at 95 %'],
  dataCaption: (part: string, run: string) => `${part} of ${run}: block means and curve`,
  dataHead: (unit: string, difference: string) => [
    'Minutes',
    `Observed, ${unit}`,
    `Curve, ${unit}`,
    `Residual, ${difference}`,
    `± of the curve, ${difference}`,
    `± of one block, ${difference}`,
  ],
  notFitted: (run: string, what: string, why: string) => `${run}, ${what}: not fitted. ${why}`,
  noCurve: (run: string, why: string) => `${run}: no curve. ${why}`,
} as const;
