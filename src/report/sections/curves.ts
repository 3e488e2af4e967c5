import {
  type CurveFit,
  type CurvePart,
  type RunCurves,
  runCurveWords,
  shownQuantity,
} from '../../evaluation/index.js';
import { displayUnit, toUnit } from '../../units/index.js';
import { curveChart, type CurvePoint } from '../charts/curveChart.js';
import { curvesOfPage } from '../curvesOfPage.js';
import { type Html, html } from '../html.js';
import { type Page, picture, settingName } from '../Page.js';
import { section, table, tableBehind } from '../table.js';
import { texts } from '../texts.js';

const words = texts.curves;
const TABLE_ROWS = 12;

/** Of every run with a logged temperature: fitted curves, their bands and residuals, and what they say. */
export async function curves(page: Page): Promise<Html> {
  const all = curvesOfPage(page);
  if (all.length === 0) return html``;
  const pictures: Html[] = [];
  const remarks: Html[] = [];
  // One after the other: vega counts its ids in one place for all.
  for (const [i, { run, curves: found }] of all.entries()) {
    const name = run.excluded === null ? run.id : texts.refused.label(run.id);
    if ('why' in found) {
      remarks.push(html`<li>${words.noCurve(name, found.why)}</li>`);
      continue;
    }
    for (const [k, part] of found.parts.entries())
      pictures.push(await onePart(found, part, name, `curve-${i + 1}-${k + 1}`, page));
    for (const { what, why } of found.skipped)
      remarks.push(html`<li>${words.notFitted(name, what, /[.!]$/.test(why) ? why : `${why}.`)}</li>`);
    for (const note of found.notes) remarks.push(html`<li>${name}: ${note}</li>`);
  }
  const list = remarks.length > 0 && html`<ul class="quiet">${remarks}</ul>`;
  return section('curves', words.heading, html`<p class="quiet">${words.intro}</p>${pictures}${list}`);
}

async function onePart(run: RunCurves, part: CurvePart, name: string, id: string, page: Page): Promise<Html> {
  const best = part.fits[0] as CurveFit;
  const { model, fit } = best;
  const title = words.parts[part.name];
  const unit = displayUnit('temperature', page.units);
  const difference = displayUnit('temperatureDifference', page.units);
  const points = pointsOf(best, page);
  const { heading, sentences } = runCurveWords(part, page.units);
  const chart = await picture(
    curveChart(
      points,
      {
        xTitle: words.time[run.zero],
        yTitle: words.temperature(unit),
        residualTitle: words.residuals(difference),
      },
      340,
    ),
    { id, title: words.chartTitle(title, name), description: [fit.verdict.sentence, sentences[0]].join(' ') },
  );
  const known = [...best.parameters, ...best.quantities].filter(({ result }) => result !== null);
  return html`<figure class="curve"><figcaption><strong>${name}</strong>, ${settingName(run.heater, run.run.setting)}. ${heading}. ${words.fitted(words.models[model], fit.blocks.count, fit.blocks.lengthS)}</figcaption>
<div class="beside"><div>${chart}${tableBehind(texts.tableBehind, {
    caption: words.dataCaption(title, name),
    head: words.dataHead(unit, difference),
    rows: dataRows(points),
    figures: true,
  })}</div><div><p>${sentences.join(' ')}</p>${table({
    caption: words.tableCaption(title, name),
    head: words.tableHead,
    rows: known.map((each) => {
      const { label, value, uncertainty, unit: shown } = shownQuantity(each, page.units);
      return [label, `${value.replace('-', '−')} ± ${uncertainty}\u00a0${shown}`];
    }),
    figures: true,
    quietCaption: true,
  })}</div></div></figure>
`;
}

function pointsOf({ fit, startS }: CurveFit, page: Page): CurvePoint[] {
  const degrees = (kelvin: number) => toUnit(kelvin, 'temperature', displayUnit('temperature', page.units));
  const difference = (kelvin: number | undefined) =>
    kelvin === undefined
      ? null
      : toUnit(kelvin, 'temperatureDifference', displayUnit('temperatureDifference', page.units));
  const { timesS, observedK, fittedK, residualsK, confidenceK, predictionK } = fit.curve;
  return timesS.map((timeS, k) => ({
    minutes: (timeS + startS) / 60,
    observed: degrees(observedK[k] as number),
    fitted: degrees(fittedK[k] as number),
    residual: difference(residualsK[k]) as number,
    confidence: difference(confidenceK?.[k]),
    prediction: difference(predictionK?.[k]),
  }));
}

/** About a dozen blocks along the curve. */
function dataRows(points: readonly CurvePoint[]): string[][] {
  const step = Math.max(1, Math.ceil(points.length / TABLE_ROWS));
  const text = (value: number | null) => (value === null ? '' : value.toFixed(3).replace('-', '−'));
  return points
    .filter((_, k) => k % step === 0 || k === points.length - 1)
    .map((point) => [
      point.minutes.toFixed(1),
      point.observed.toFixed(2),
      point.fitted.toFixed(2),
      text(point.residual),
      text(point.confidence),
      text(point.prediction),
    ]);
}
