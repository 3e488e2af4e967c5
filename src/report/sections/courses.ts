import type { RunEvaluation } from '../../evaluation/index.js';
import { displayUnit } from '../../units/index.js';
import { courseChart, type CoursePoint } from '../charts/courseChart.js';
import { courseOf, type RunCourse } from '../courseOf.js';
import { type Html, html } from '../html.js';
import { type Page, picture, runLabel, settingName } from '../Page.js';
import { section, tableBehind } from '../table.js';
import { texts } from '../texts.js';

const words = texts.courses;
/** More points than a curve has pixels would only make the page heavy. */
const MOST_POINTS = 400;
const TABLE_ROWS = 12;

/** Power and temperature of every run, small pictures on one time scale each. */
export async function courses(page: Page): Promise<Html> {
  const { runs } = page.evaluation;
  if (runs.length === 0) return html``;
  const pictures: Html[] = [];
  // One after the other: vega counts its ids in one place for all.
  for (const [i, run] of runs.entries()) pictures.push(await oneRun(run, `run-${i + 1}`, page));
  return section(
    'courses',
    words.heading,
    html`<p class="quiet">${words.caption}</p><div class="grid">${pictures}</div>`,
  );
}

async function oneRun(run: RunEvaluation, id: string, page: Page): Promise<Html> {
  const course = courseOf(run, page.units, MOST_POINTS);
  const name = runLabel(run);
  const unit = displayUnit('temperature', page.units);
  const all = [...course.power, ...course.temperature, ...course.bench].map(({ minutes }) => minutes);
  const ends = [Math.min(0, ...all), Math.max(1, course.off ?? 0, ...all)] as const;
  const room = 0.02 * (ends[1] - ends[0]);
  const domain = [ends[0] - room, ends[1] + room] as const;
  const marks = course.fromSwitchOn
    ? [
        { minutes: 0, words: words.on },
        ...(course.off === null ? [] : [{ minutes: course.off, words: words.off }]),
      ]
    : [];
  const common = { marks, domain, xTitle: course.fromSwitchOn ? words.time : words.timeFromLog };
  const seen = [...course.temperature, ...course.bench];
  const power =
    course.power.length > 0 &&
    (await picture(
      courseChart(
        {
          ...common,
          line: course.power,
          points: [],
          xTitle: seen.length > 0 ? '' : common.xTitle,
          yTitle: words.power('W'),
          fromZero: true,
          colour: 'second',
        },
        340,
        70,
      ),
      { id: `${id}-power`, title: words.powerTitle(name), description: describe(course.power, 'W', 0) },
    ));
  const temperature =
    seen.length > 0 &&
    (await picture(
      courseChart(
        {
          ...common,
          line: course.temperature,
          points: course.bench,
          yTitle: words.temperature(unit),
          fromZero: false,
          colour: 'main',
        },
        340,
        100,
      ),
      { id: `${id}-temperature`, title: words.temperatureTitle(name), description: describe(seen, unit, 1) },
    ));
  return html`<figure class="card"><figcaption><strong>${name}</strong>, ${settingName(run.heater, run.run.setting)}</figcaption>
${power || html`<p class="quiet">${words.noPower}</p>`}${temperature || html`<p class="quiet">${words.noTemperature}</p>`}
${seen.length + course.power.length > 0 && behind(course, name, unit)}</figure>`;
}

function describe(points: readonly CoursePoint[], unit: string, decimals: number): string {
  const known = points.flatMap(({ value }) => (value === null ? [] : [value]));
  if (known.length === 0) return words.noLog;
  const text = (value: number) => `${value.toFixed(decimals)} ${unit}`;
  return words.describe(text(Math.min(...known)), text(Math.max(...known)));
}

function behind(course: RunCourse, name: string, unit: string): Html {
  const at = timesOf(course);
  const rows = at.map((minutes) => [
    minutes.toFixed(1),
    textAt(course.power, minutes, 'W', 0),
    textAt(course.temperature, minutes, unit, 1),
    course.bench
      .filter((point) => point.minutes === minutes)
      .map(({ value }) => `${value?.toFixed(1)} ${unit}`),
  ]);
  return tableBehind(texts.tableBehind, {
    caption: `${texts.tableBehind}: ${name}`,
    head: words.columns,
    rows,
    figures: true,
  });
}

/** A dozen times along the logs, and those of all bench readings. */
function timesOf({ power, temperature, bench }: RunCourse): number[] {
  const logged = [...power, ...temperature].map(({ minutes }) => minutes);
  const low = Math.min(...logged);
  const high = Math.max(...logged);
  const even =
    logged.length === 0
      ? []
      : Array.from({ length: TABLE_ROWS }, (_, i) => low + ((high - low) * i) / (TABLE_ROWS - 1));
  return [...new Set([...even, ...bench.map(({ minutes }) => minutes)])].sort((a, b) => a - b);
}

/** The drawn sample nearest to a time, if one is near. */
function textAt(line: readonly CoursePoint[], minutes: number, unit: string, decimals: number): string {
  let nearest: CoursePoint | null = null;
  for (const point of line) {
    if (nearest === null || Math.abs(point.minutes - minutes) < Math.abs(nearest.minutes - minutes))
      nearest = point;
  }
  if (nearest === null || nearest.value === null || Math.abs(nearest.minutes - minutes) > 0.5) return '';
  return `${nearest.value.toFixed(decimals)} ${unit}`;
}
