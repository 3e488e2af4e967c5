import {
  type Bench,
  type Keeper,
  MemoryKeeper,
  type Protocol,
  type Question,
  findProtocol,
  nextStep,
  walk,
} from '../../src/protocols/index.js';
import type { NewEntry, RunRecord } from '../../src/workbook/index.js';

export const shipped = (name: string): Protocol => findProtocol(name, null).protocol;

/** The first entry of an invented run. */
export function beginningOf(protocol: Protocol, instruments: RunRecord['instruments'] = kit): NewEntry {
  return {
    event: 'begin',
    schema: 1,
    at: '2026-10-05T07:10:00.000Z',
    zone: 'Europe/Vienna',
    hand: 'mr',
    run: 'vat-warmer-full-01',
    heater: 'vat-warmer',
    setting: 'full',
    protocol: { name: protocol.name, version: protocol.version, sha256: '0'.repeat(64) },
    instruments: instruments as Record<string, string>,
  };
}

const kit = { scale: 'scale-1', thermometer: 'logger-1', wattmeter: 'meter-1' } as const;

/** What a person would answer; a repeated step gets its readings one after the other. */
export const good: Readonly<Record<string, string | readonly string[]>> = {
  cautions: '',
  atRest: 'yes',
  draughtFree: 'y',
  settled: 'yes',
  lid: '',
  ambientTemperature: '17 °C',
  bodyTemperature: '30 °C',
  pressure: '880 hPa',
  emptyWeight: '1871',
  fullWeight: '7858 g',
  energyBefore: '',
  startLog: '',
  startTemperature: '11.9',
  switchOn: '',
  interimTemperature: ['22.3', '32.8', ''],
  switchOff: '',
  endTemperature: '52.1',
  finalWeight: '7852',
  energyAfter: '0.36',
  meterLog: '',
  temperatureLog: '',
  remarks: '',
};

/** A bench that takes its answers from a function and remembers all that went over it; its clock goes on by 20 s an answer. */
export class ScriptedBench implements Bench {
  readonly asked: Question[] = [];
  readonly refused: string[] = [];
  readonly said: string[] = [];
  readonly keptTexts: string[] = [];
  private ms = Date.UTC(2026, 9, 5, 7, 10);

  constructor(private readonly answer: (question: Question) => string) {}

  say(text: string): void {
    this.said.push(text);
  }
  ask(question: Question): Promise<string> {
    this.asked.push(question);
    this.ms += 20_000;
    return Promise.resolve(this.answer(question));
  }
  refuse(_question: Question, _typed: string, reason: string): void {
    this.refused.push(reason);
  }
  kept(text: string): void {
    this.keptTexts.push(text);
  }
  now(): Date {
    return new Date(this.ms);
  }
}

export interface Sat {
  readonly outcome: 'ended' | 'paused';
  readonly bench: ScriptedBench;
  readonly run: RunRecord;
  readonly waiting: string | null;
}

export interface Sitting {
  readonly protocol?: Protocol;
  readonly keeper?: Keeper;
  readonly units?: 'si' | 'us';
  readonly base?: string;
}

/** Walks a protocol with the answers of a function to its end or its pause. */
export async function sit(answer: (question: Question) => string, options: Sitting = {}): Promise<Sat> {
  const protocol = options.protocol ?? shipped('water-heating');
  const keeper = options.keeper ?? new MemoryKeeper(beginningOf(protocol));
  const bench = new ScriptedBench(answer);
  const outcome = await walk({
    protocol,
    keeper,
    bench,
    hand: 'mr',
    zone: 'Europe/Vienna',
    units: options.units ?? 'si',
    base: options.base ?? '/',
  });
  return { outcome, bench, run: keeper.run, waiting: nextStep(protocol, keeper.run)?.id ?? null };
}

/** Answers as a person would, but types these at one step; after the last of them the run is paused. */
export function typing(step: string, typed: readonly string[], others: Partial<typeof good> = {}) {
  const left = [...typed];
  return (question: Question): string => {
    const id = question.step.split(':')[0];
    if (id === step) return left.shift() ?? 'pause';
    return left.length < typed.length ? 'pause' : goodAnswer(question, { ...good, ...others });
  };
}

export function goodAnswer(question: Question, from: Partial<typeof good> = good): string {
  const answers = from[question.step];
  if (answers === undefined) throw new Error(`no answer for ${question.step}`);
  return typeof answers === 'string' ? answers : (answers[question.answered] ?? '');
}
