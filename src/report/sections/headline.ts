import type { Figure } from '../../evaluation/index.js';
import { halfWidth, percentIntervalInWords, percentResult, percentShare, plainQuantity } from '../format.js';
import { type Html, html } from '../html.js';
import { figureName, type Page } from '../Page.js';
import { section } from '../table.js';
import { texts } from '../texts.js';

/** The answer in words, a paragraph a setting. */
export function headline(page: Page): Html {
  const { figures } = page.evaluation;
  const words = texts.headline;
  if (figures.length === 0)
    return section('result', words.heading, html`<p class="lead">${words.nothing}</p>`);
  const coverages = [...new Set(figures.map((figure) => percentShare(figure.efficiency.coverage)))];
  return section(
    'result',
    words.heading,
    html`${figures.map((figure) => oneSetting(figure, page))}<p class="quiet">${words.coverage(coverages.join(', '))}</p>`,
  );
}

function oneSetting(figure: Figure, page: Page): Html {
  const words = texts.headline;
  const { value, interval } = figure.efficiency;
  const sentence = words.sentence(figureName(figure, page.evaluation.figures), figure.definition);
  return html`<div class="answer"><p class="lead">${sentence.before}<strong>${percentResult(value, halfWidth(interval))}</strong>${sentence.after}.
<span class="future">${words.future}<strong>${percentIntervalInWords(figure.prediction.interval)}</strong>.</span></p>
<p class="quiet">${conditionsOf(figure, page)}${figure.mark !== null && html` <em>${words.spreadAssumed(figure.mark)}.</em>`}</p></div>`;
}

function conditionsOf(figure: Figure, { units }: Page): string {
  const mean = (of: (each: Figure['runs'][number]['conditions']) => number) =>
    figure.runs.reduce((sum, run) => sum + of(run.conditions), 0) / Math.max(1, figure.runs.length);
  return texts.headline.conditions(
    plainQuantity(
      mean((each) => each.startK),
      'temperature',
      units,
      0,
    ),
    plainQuantity(
      mean((each) => each.endK),
      'temperature',
      units,
      0,
    ),
    plainQuantity(
      mean((each) => each.waterKg),
      'mass',
      units,
      1,
    ),
    texts.headline.runs(figure.runs.length),
  );
}
