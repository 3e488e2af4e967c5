import type { TopLevelSpec } from 'vega-lite';
import { chartTheme } from './chartTheme.js';

/** A chart as vega-lite takes it. */
export type ChartSpec = TopLevelSpec;

/**
 * Draws a chart to SVG as vega writes it. The libraries are loaded here and only now: they take a third of a second, which
 * no other command should wait for.
 */
export async function drawChart(spec: ChartSpec): Promise<string> {
  const [vega, { compile }] = await Promise.all([import('vega'), import('vega-lite')]);
  const compiled = compile(spec, { config: chartTheme }).spec;
  // Otherwise ids of clip paths count on from chart to chart, and the same report would not be the same bytes.
  vega.resetSVGDefIds();
  const view = new vega.View(vega.parse(compiled), { renderer: 'none', logLevel: vega.Error });
  try {
    return await view.toSVG();
  } finally {
    view.finalize();
  }
}
