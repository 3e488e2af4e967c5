import type { RunEvaluation } from '../../evaluation/index.js';
import type { QuantityKind } from '../../units/index.js';
import { clockText } from '../clockText.js';
import { exactQuantity } from '../format.js';
import { type Html, type HtmlValue, html } from '../html.js';
import { type Page, settingName } from '../Page.js';
import { section, table, unbroken } from '../table.js';
import { texts } from '../texts.js';

const words = texts.readings;
const siUnits: Partial<Record<QuantityKind, string>> = {
  mass: 'kg',
  temperature: 'K',
  energy: 'J',
  pressure: 'Pa',
  power: 'W',
  time: 's',
};

/** Every reading as it was typed and as it was understood, with marks, choices and notes, in order. */
export function readings(page: Page): Html {
  const { runs } = page.evaluation;
  if (runs.length === 0) return html``;
  return section(
    'readings',
    words.heading,
    runs.map((run) => oneRun(run, page)),
  );
}

function oneRun(run: RunEvaluation, page: Page): Html {
  const caption = words.run(run.run.id, settingName(run.heater, run.run.setting), run.run.zone);
  return html`<details open><summary>${caption}</summary>${table({
    caption,
    head: words.columns,
    rows: rowsOf(run, page),
    quietCaption: true,
  })}</details>`;
}

interface Line {
  readonly at: string;
  readonly cells: readonly HtmlValue[];
}

function rowsOf(run: RunEvaluation, page: Page): (readonly HtmlValue[])[] {
  const { run: record } = run;
  const hands = new Map(page.evaluation.workbook.settings.hands.map(({ id, name }) => [id, name]));
  const hand = (id: string) => hands.get(id) ?? id;
  const time = (at: string) => unbroken(clockText(at, record.zone));
  const ask = (id: string) => run.protocol.steps.find((step) => step.id === id)?.ask ?? id;
  const handOf = (step: string) => {
    const entry = record.entries.findLast((each) => 'step' in each && each.step === step);
    return hand(entry?.hand ?? record.hand);
  };
  const lines: Line[] = [
    ...record.readings.map((each) => ({
      at: each.at,
      cells: [
        ask(each.step),
        unbroken(typedText(each)),
        siText(run, each),
        time(each.at),
        hand(each.hand),
        each.instrument,
      ],
    })),
    ...run.protocol.steps.flatMap((step) => {
      const at = step.kind === 'mark' ? record.marks[step.id] : undefined;
      return at === undefined
        ? []
        : [{ at, cells: [step.ask, words.mark, '', time(at), handOf(step.id), ''] }];
    }),
    ...record.notes.map((note) => ({
      at: note.at,
      cells: [words.note, note.text, '', time(note.at), handOf(note.step), ''],
    })),
  ];
  const chosen = Object.entries(record.choices).map(([step, value]) => [
    ask(step),
    value,
    '',
    '',
    handOf(step),
    '',
  ]);
  // A step that is asked again until left empty was not skipped when it has readings.
  const left = record.skipped.filter((step) => record.readings.every((each) => each.step !== step));
  const skipped = left.map((step) => [ask(step), words.skipped, '', '', handOf(step), '']);
  const inOrder = lines.sort((a, b) => Date.parse(a.at) - Date.parse(b.at)).map((line) => line.cells);
  return [...chosen, ...inOrder, ...skipped];
}

/** What was typed; the unit that was taken for it where none was typed. */
function typedText({ typed, unit }: { readonly typed: string; readonly unit: string }): string {
  return /^[-+\d.,\s]+$/.test(typed) ? `${typed} [${unit}]` : typed;
}

function siText(
  { protocol }: RunEvaluation,
  { step, si }: { readonly step: string; readonly si: number },
): string {
  const found = protocol.steps.find((each) => each.id === step);
  const kind = found?.kind === 'reading' ? found.quantity : undefined;
  const unit = kind ? siUnits[kind] : undefined;
  return kind && unit ? exactQuantity(si, kind, unit) : String(si);
}
