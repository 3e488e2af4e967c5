import { describe, expect, it } from 'vitest';
import { nextStep } from '../../src/protocols/index.js';
import { type Sitting, type good, goodAnswer, shipped, sit, typing } from './sitting.js';

/** What becomes of an answer at a step: the text of what was kept, or the reason why not. */
async function typed(step: string, text: string, others: Partial<typeof good> = {}, options: Sitting = {}) {
  const sat = await sit(typing(step, [text], others), options);
  const kept = sat.run.readings.find((each) => each.step === step);
  return { reason: sat.bench.refused[0] ?? null, si: kept?.si ?? null, kept, sat };
}

describe('a reading in any common form', () => {
  // Exact by definition: 1 lb = 0.45359237 kg, 1 oz = 1 lb/16, 0 °C = 273.15 K, °F = 1.8 °C + 32, 1 Btu as named.
  it.each<[string, string, number]>([
    ['fullWeight', '7858', 7.858],
    ['fullWeight', '7.858 kg', 7.858],
    ['fullWeight', '17 lb 5 oz', 17.3125 * 0.45359237],
    ['fullWeight', '9.3 lb', 9.3 * 0.45359237],
    ['fullWeight', '5104+2754 g', 7.858],
    ['fullWeight', '5.104 kg + 2754 g', 7.858],
    ['fullWeight', ' 7858g ', 7.858],
    ['fullWeight', '7858,0', 7.858],
    ['startTemperature', '61 °F', (61 - 32) / 1.8 + 273.15],
    ['startTemperature', '61F', (61 - 32) / 1.8 + 273.15],
    ['startTemperature', '11,9', 285.05],
    ['startTemperature', '285.05 K', 285.05],
    ['startTemperature', '0', 273.15],
    ['ambientTemperature', '-4 °C', 269.15],
    ['energyAfter', '0.412 kWh', 0.412 * 3.6e6],
    ['energyAfter', '412 Wh', 0.412 * 3.6e6],
    ['energyAfter', '1.5 MJ', 1.5e6],
  ])('%s: %s', async (step, text, si) => {
    const result = await typed(step, text);
    expect(result.reason).toBeNull();
    expect(result.si).toBeCloseTo(si, 9);
    expect(result.kept?.typed).toBe(text.trim());
  });

  it('is bound to the instrument of its kind', async () => {
    expect((await typed('fullWeight', '7858')).kept?.instrument).toBe('scale-1');
    expect((await typed('energyAfter', '0.36')).kept?.instrument).toBe('meter-1');
  });

  it('is read back in the unit of the prompt where another was typed', async () => {
    const { sat } = await typed('fullWeight', '9.3 lb');
    expect(sat.bench.keptTexts.at(-1)).toBe('kept 9.3 lb = 4218.4 g');
    expect((await typed('fullWeight', '7858')).sat.bench.keptTexts.at(-1)).toBe('kept 7858 g');
  });
});

describe('a reading that can not be', () => {
  it.each<[string, string, RegExp]>([
    ['fullWeight', '', /needed/],
    ['fullWeight', 'heavy', /no number in "heavy"/],
    ['fullWeight', '7858 kWh', /"kWh" measures energy; a mass is expected/],
    ['fullWeight', '7858 gr8', /"gr" is not a known unit for a mass; known are kg, g/],
    ['fullWeight', '40 g', /^40 g is outside the plausible range of 50 to 120000 g/],
    [
      'fullWeight',
      '7858 kg',
      /^7858 kg is outside the plausible range of 50 to 120000 g\. Check number and unit/,
    ],
    ['fullWeight', '-7858', /outside the plausible range/],
    ['fullWeight', '1e400', /too large or too small/],
    ['fullWeight', '7858 +', /./],
    ['fullWeight', 'NaN', /./],
    ['fullWeight', '0x1EB2', /./],
    ['startTemperature', '119', /^119 °C is outside the plausible range of 0 to 60 °C/],
    ['startTemperature', '-300', /below absolute zero/],
    ['startTemperature', '10+2', /adds temperatures/],
    ['startTemperature', '200 °F', /^200 °F is outside the plausible range of 0 to 60 °C/],
    ['energyAfter', '-1', /outside the plausible range of 0 to 1000000 kWh/],
    ['switchOn', '12:30', /Enter/],
    ['cautions', 'no', /Enter/],
    ['atRest', 'no', /Let it cool first/],
    ['atRest', 'perhaps', /yes or no/],
    ['lid', 'ajar', /one of: on, off/],
    ['lid', 'o', /one of: on, off/],
  ])('%s: %j is refused with the reason, and asked again', async (step, text, words) => {
    const { reason, si, sat } = await typed(step, text);
    expect(reason).toMatch(words);
    expect(si).toBeNull();
    expect(sat.waiting).toBe(step);
    expect(sat.bench.asked.filter((question) => question.step === step)).toHaveLength(2);
  });

  it.each<[string, string]>([
    ['switchOn', 'yes'],
    ['switchOn', 'ok'],
    ['cautions', ''],
    ['atRest', ''],
    ['atRest', 'Y'],
    ['lid', 'OFF'],
    ['lid', 'of'],
    ['lid', ''],
    ['energyBefore', ''],
    ['finalWeight', ''],
    ['remarks', 'the window was open'],
    ['remarks', ''],
    ['meterLog', ''],
  ])('%s: %j is taken', async (step, text) => {
    const { sat } = await typed(step, text);
    expect(sat.bench.refused).toEqual([]);
    expect(sat.waiting).not.toBe(step);
  });
});

describe('a number that can be read two ways', () => {
  it('is asked about and kept as chosen, with what was typed', async () => {
    const sat = await sit(typing('fullWeight', ['1,484', '1'], { emptyWeight: '1 g' }));
    expect(sat.run.readings.at(-1)).toMatchObject({ typed: '1,484', value: 1484, si: 1.484 });
  });

  it('is judged again under the meaning that was chosen', async () => {
    const sat = await sit(typing('fullWeight', ['1,484', '2'], { emptyWeight: '1 g' }));
    expect(sat.bench.refused).toEqual([expect.stringMatching(/^1\.484 g is outside the plausible range/)]);
    expect(sat.waiting).toBe('fullWeight');
  });

  it('is asked about even where only one reading is plausible', async () => {
    const sat = await sit(typing('fullWeight', ['7,858', '1']));
    const question = sat.bench.asked.find((each) => each.step === 'fullWeight:which');
    expect(question?.text).toBe('7,858 can be read as 1) 7858 g or 2) 7.858 g. Which one');
    expect(question?.options).toEqual(['1', '2']);
    expect(sat.run.readings.at(-1)).toMatchObject({ typed: '7,858', value: 7858, unit: 'g' });
  });

  it('is typed again after another answer than a number of the list', async () => {
    const sat = await sit(typing('fullWeight', ['7,858', '7858', '7858']));
    expect(sat.bench.refused).toEqual(['Then type it again so that it can be read in one way only.']);
    expect(sat.run.readings.at(-1)?.value).toBe(7858);
  });

  it('leaves back and pause what they are', async () => {
    const paused = await sit(typing('fullWeight', ['7,858', 'pause']));
    expect([paused.outcome, paused.waiting, paused.run.paused]).toEqual(['paused', 'fullWeight', true]);
    const back = await sit(typing('fullWeight', ['7,858', 'back', '7858']));
    expect(back.bench.refused).toEqual([]);
    expect(back.run.readings.at(-1)?.value).toBe(7858);
  });
});

describe('what contradicts an earlier reading is refused and shows that reading', () => {
  it.each<[string, string, string, Partial<typeof good>, RegExp]>([
    [
      'full lighter than empty',
      'fullWeight',
      '1500',
      {},
      /more than the empty one, which was kept as 1871 g\. Type back/,
    ],
    ['full as heavy as empty', 'fullWeight', '1871', {}, /more than the empty one/],
    ['warmer before than after', 'endTemperature', '11.9', {}, /warmer than the start.*11\.9.*Type back/],
    ['colder at the end', 'endTemperature', '10', {}, /warmer than the start/],
    [
      'heavier after the heating',
      'finalWeight',
      '7950',
      {},
      /can't weigh more than before, which was kept as .*7858 g/,
    ],
    ['no water left', 'finalWeight', '1870', {}, /No water would be left/],
    ['half of it steam', 'finalWeight', '4000', {}, /More than half of the water/],
    [
      'a counter that stood still',
      'energyAfter',
      '5.866',
      { energyBefore: '5.866 kWh' },
      /gone up from 5\.866 kWh/,
    ],
    ['a counter that fell', 'energyAfter', '0.36', { energyBefore: '5.866 kWh' }, /gone up.*zeroed.*back/],
    [
      'a point slipped down',
      'energyAfter',
      '0.036',
      {},
      /water took about 0\.280 kWh.*0\.036 kWh.*decimal point and the unit/,
    ],
    ['Wh for kWh', 'energyAfter', '0.36 Wh', {}, /Check the decimal point and the unit/],
    ['kWh for Wh', 'energyAfter', '360', {}, /Check the decimal point and the unit/],
  ])('%s', async (_what, step, text, others, words) => {
    const { reason, si } = await typed(step, text, others);
    expect(reason).toMatch(words);
    expect(si).toBeNull();
  });

  it('a little more on the scale at the end is forgiven: its last digit wanders', async () => {
    expect((await typed('finalWeight', '7860')).reason).toBeNull();
  });
});

describe('US units', () => {
  it('stand at the prompt, in the range and in the reason', async () => {
    const { reason, sat } = await typed(
      'startTemperature',
      '300',
      { fullWeight: '17 lb', emptyWeight: '4 lb' },
      { units: 'us' },
    );
    const question = sat.bench.asked.find((each) => each.step === 'startTemperature');
    expect([question?.unit, question?.range]).toEqual(['°F', '32 to 140 °F']);
    expect(reason).toMatch(/^300 °F is outside the plausible range of 32 to 140 °F/);
  });

  it('are what a bare number is in', async () => {
    const others = { fullWeight: '17', emptyWeight: '4' };
    const { si, sat } = await typed(
      'startTemperature',
      '53.4',
      { ...others, ambientTemperature: '62' },
      { units: 'us' },
    );
    expect(si).toBeCloseTo((53.4 - 32) / 1.8 + 273.15, 9);
    expect(sat.run.readings.find((each) => each.step === 'fullWeight')?.si).toBeCloseTo(17 * 0.45359237, 9);
  });
});

describe('the step that comes next', () => {
  it('is asked in the order of the protocol, the barometer only where there is one', async () => {
    const { bench, outcome, run } = await sit((question) => goodAnswer(question));
    const steps = shipped('water-heating').steps.map((step) => step.id);
    const asked = [...new Set(bench.asked.map((question) => question.step))];
    expect(asked).toEqual(steps.filter((step) => step !== 'pressure'));
    expect([outcome, run.ended]).toEqual(['ended', true]);
    expect(nextStep(shipped('water-heating'), run)).toBeNull();
  });

  it('comes with help, timer, range and default where it has them', async () => {
    const { bench } = await sit(typing('switchOff', ['?']));
    const of = (step: string) => bench.asked.find((each) => each.step === step);
    expect(of('energyBefore')).toMatchObject({
      default: '0 kWh',
      unit: 'kWh',
      range: '0 to 1000000 kWh',
      optional: false,
    });
    expect(of('lid')).toMatchObject({ options: ['on', 'off'], default: 'on' });
    expect(of('switchOff')?.timerFrom).toMatch(/^2026-10-05T07:/);
    expect(of('switchOn')).toMatchObject({ kind: 'time' });
    expect(of('atRest')).toMatchObject({ kind: 'yes-no' });
    expect(bench.said.at(-1)).toMatch(/back: one step back\. pause: stop here/);
  });

  it('shows the cautions before they are acknowledged', async () => {
    const { bench } = await sit(typing('cautions', []));
    expect(bench.said.join('\n')).toMatch(/scald[\s\S]*residual-current/);
  });

  it('is the one before after back, and the same answer can be given anew', async () => {
    const sat = await sit(typing('startTemperature', ['back'], {}));
    expect(sat.waiting).toBe('startLog');
    let backs = 0;
    const far = await sit((question) => {
      if (backs === 3) return 'pause';
      if (question.step !== 'startTemperature' && backs === 0) return goodAnswer(question);
      backs += 1;
      return 'back';
    });
    expect(far.waiting).toBe('fullWeight');
    expect(far.run.entries.filter((entry) => entry.event === 'reading')).toHaveLength(4);
  });

  it('back at the first step stays there; back over a repeated step undoes its last reading', async () => {
    const first = await sit(typing('cautions', ['back']));
    expect(first.bench.said).toContain('This is the first step.');
    expect(first.waiting).toBe('cautions');
    const way = await sit(typing('interimTemperature', ['22', '32', 'back', '33', '']));
    expect(
      way.run.readings.filter((each) => each.step === 'interimTemperature').map((each) => each.value),
    ).toEqual([22, 33]);
  });

  it('a step may be called constructor', async () => {
    const protocol = shipped('water-heating');
    const steps = protocol.steps.map((step) =>
      step.id === 'startLog' ? { ...step, id: 'constructor' } : step,
    );
    const { bench } = await sit(typing('startTemperature', [], { constructor: '' } as never), {
      protocol: { ...protocol, steps },
    });
    expect(bench.asked.map((each) => each.step)).toContain('constructor');
  });
});
