/** Colours are variables of the page's style sheet, so that one chart serves light, dark and paper. */
export const paint = {
  ink: 'var(--ink)',
  quiet: 'var(--quiet)',
  rule: 'var(--rule)',
  paper: 'var(--paper)',
  main: 'var(--petrol)',
  second: 'var(--ochre)',
  band: 'var(--band)',
  water: 'var(--petrol)',
  onWater: 'var(--on-petrol)',
  vapour: 'url(#fill-vapour)',
  vessel: 'var(--ochre-pale)',
  onVessel: 'var(--on-ochre-pale)',
  room: 'url(#fill-room)',
  body: 'url(#fill-body)',
  air: 'url(#fill-air)',
  assumed: 'url(#fill-assumed)',
} as const;

/** One look for all charts: hairlines, no frames, no legends (charts are labelled in place). */
export const chartTheme = {
  aria: false,
  background: 'transparent',
  font: 'sans-serif',
  view: { stroke: null },
  text: { fontSize: 11, fill: paint.ink, baseline: 'middle' },
  line: { strokeWidth: 1.25, stroke: paint.main, strokeJoin: 'round' },
  rule: { stroke: paint.ink, strokeWidth: 1 },
  axis: {
    labelFontSize: 11,
    titleFontSize: 11,
    titleFontWeight: 'normal',
    labelColor: paint.quiet,
    titleColor: paint.quiet,
    gridColor: paint.rule,
    gridWidth: 0.75,
    domain: false,
    ticks: false,
    labelPadding: 5,
  },
} as const;

/** Size and margins of a chart of a given outer width; vega's own estimate of text widths is not trusted. */
export function frame(
  outerWidth: number,
  height: number,
  margin: { left: number; right: number; top: number; bottom: number },
) {
  return {
    width: outerWidth - margin.left - margin.right,
    height,
    padding: margin,
    autosize: { type: 'none' as const },
  };
}
