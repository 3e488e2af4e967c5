import type { RunEvaluation } from '../../evaluation/index.js';
import { formatDuration } from '../../units/index.js';
import { plainQuantity } from '../format.js';
import { type Html, type HtmlValue, html } from '../html.js';
import type { Page } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.conditions;

/** Under what conditions each run was made. */
export function conditions(page: Page): Html {
  const { runs } = page.evaluation;
  if (runs.length === 0) return html``;
  const labels = words.rows;
  const first = [
    labels.water,
    labels.from,
    labels.to,
    labels.rise,
    labels.room,
    labels.pressure,
    labels.pressureFrom,
  ];
  const second = [
    labels.start,
    labels.duration,
    labels.power,
    labels.voltage,
    labels.lid,
    labels.vapour,
    labels.protocol,
  ];
  return section(
    'conditions',
    words.heading,
    html`${table({ caption: `${words.heading}: ${labels.water}`, head: [words.run, ...first], rows: runs.map((run) => waterRow(run, page)), quietCaption: true })}
${table({ caption: `${words.heading}: ${labels.start}`, head: [words.run, ...second], rows: runs.map((run) => heatingRow(run, page)), quietCaption: true })}`,
  );
}

function waterRow({ run, conditions: found }: RunEvaluation, { units }: Page): HtmlValue[] {
  const temperature = (kelvin: number | null) =>
    kelvin === null ? texts.notMeasured : plainQuantity(kelvin, 'temperature', units, 1);
  return [
    unbroken(run.id),
    plainQuantity(found.waterKg, 'mass', units, 3),
    temperature(found.startK),
    temperature(found.endK),
    plainQuantity(found.riseK, 'temperatureDifference', units, 1),
    temperature(found.ambientK),
    plainQuantity(found.pressurePa, 'pressure', units, units === 'si' ? 0 : 2),
    found.pressureFrom,
  ];
}

function heatingRow({ run, protocol, conditions: found }: RunEvaluation, { units }: Page): HtmlValue[] {
  const vapour = plainQuantity(found.vapourKg, 'mass', units, 4);
  return [
    unbroken(run.id),
    words.starts[found.start],
    formatDuration(found.durationS),
    plainQuantity(found.meanPowerW, 'power', units, 0),
    found.meanVoltageV === null ? texts.notMeasured : plainQuantity(found.meanVoltageV, 'voltage', units, 1),
    found.lid ?? texts.notStated,
    `${vapour}, ${found.weighedAfter ? words.weighed : words.allowed}`,
    words.protocol(protocol.title, protocol.version),
  ];
}
