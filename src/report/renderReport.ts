import type { WorkbookEvaluation } from '../evaluation/index.js';
import type { UnitSystem } from '../units/index.js';
import { clockText } from './clockText.js';
import { fills } from './fills.js';
import { type Html, html, trusted } from './html.js';
import { inOrderOfSettings, type Page } from './Page.js';
import { balance } from './sections/balance.js';
import { budgets } from './sections/budgets.js';
import { cautions } from './sections/cautions.js';
import { closing } from './sections/closing.js';
import { conditions } from './sections/conditions.js';
import { contents } from './sections/contents.js';
import { courses } from './sections/courses.js';
import { curves } from './sections/curves.js';
import { digests } from './sections/digests.js';
import { headline } from './sections/headline.js';
import { instruments } from './sections/instruments.js';
import { method } from './sections/method.js';
import { readings } from './sections/readings.js';
import { refused } from './sections/refused.js';
import { repeatability } from './sections/repeatability.js';
import { summary } from './sections/summary.js';
import { warnings } from './sections/warnings.js';
import { styles } from './styles.js';
import { texts } from './texts.js';

export interface ReportOptions {
  /** Units of what is shown; readings are shown as typed and in SI whichever it is. */
  readonly units: UnitSystem;
  readonly generatedAt: Date;
  /** Of the program. */
  readonly version: string;
}

/** Nothing may be loaded, run or sent, whatever a name in a workbook holds. */
const policy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/**
 * Writes an evaluated workbook as one self-contained HTML page without scripts: the answer in words first, then tables,
 * charts as SVG, budgets, instruments, readings, cautions, method. The same evaluation, options and version of the
 * libraries give the same bytes. Loads the chart library when a chart is drawn, not before.
 *
 * Rejects with `uncertainty-unknown` or `value-not-finite` where a result has no uncertainty or is no number.
 *
 * @example
 * const settings = { schema: 1, name: 'Bench', zone: 'UTC', hands: [{ id: 'a', name: 'A' }], units: 'si' };
 * const workbook = { dir: '.', settings, instruments: new Map(), heaters: new Map() };
 * const nothing = { workbook, day: new Date(0), figures: [], methods: [], runs: [], refused: [], warnings: [] };
 * const page = await renderReport(nothing, { units: 'si', generatedAt: new Date(0), version: '0' });
 * page.includes('<h1>Bench</h1>') // => true
 */
export async function renderReport(evaluation: WorkbookEvaluation, options: ReportOptions): Promise<string> {
  const page: Page = { evaluation: inOrderOfSettings(evaluation), ...options };
  const body: Html[] = [
    await summary(page),
    await balance(page),
    await courses(page),
    await curves(page),
    await budgets(page),
    await repeatability(page),
    instruments(page),
    readings(page),
    conditions(page),
    refused(page),
    warnings(page),
    cautions(page),
    method(),
    digests(page),
    closing(page),
  ];
  const { name, zone } = evaluation.workbook.settings;
  return html`<!doctype html>
<html lang="${texts.language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="heatledger">
<meta name="referrer" content="no-referrer">
<title>${texts.pageTitle(name)}</title>
<style>${trusted(styles)}</style>
</head>
<body>
${trusted(fills)}
<header><p class="over">${texts.over}</p><h1>${name}</h1><p class="quiet">${texts.written(clockText(options.generatedAt, zone), zone)}</p></header>
<main>
${headline(page)}${contents(body)}${body}</main>
</body>
</html>
`.text;
}
