/**
 * report: an evaluated workbook as one self-contained HTML page without scripts, with charts drawn as SVG when the
 * page is written. The one door to vega and vega-lite is here, in drawChart.ts; it is opened only when a chart is drawn.
 */
export { type ReportOptions, renderReport } from './renderReport.js';
export { thinSeries } from './thinSeries.js';
