/** The invented campaigns of samples/ on the public road: answers walked through the protocol, exports read, runs evaluated. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import type { simulateCampaign } from '../../samples/lib/campaign.mjs';
import { evaluateRun, type RunEvaluation } from '../../src/evaluation/index.js';
import type { Log } from '../../src/logs/index.js';
import { AnswersBench, beginEntry, findProtocol, MemoryKeeper, walk } from '../../src/protocols/index.js';
import type { SourceBook } from '../../src/uncertainty/index.js';
import { openWorkbook, type Workbook } from '../../src/workbook/index.js';

export type Campaign = ReturnType<typeof simulateCampaign>;
type SimulatedRun = Campaign['runs'][number];

const { protocol, text } = findProtocol('water-heating', null);

/** A folder of its own with the campaign's records as a workbook in it. */
export class TemporaryBench {
  readonly dir = mkdtempSync(join(tmpdir(), 'heatledger-evaluation-'));
  readonly workbook: Workbook;

  constructor(campaign: Campaign) {
    for (const [name, content] of Object.entries(campaign.records))
      this.write(join('workbook', name), content);
    mkdirSync(join(this.dir, 'answers'));
    this.workbook = openWorkbook(join(this.dir, 'workbook'));
  }

  write(name: string, content: string): void {
    const file = join(this.dir, name);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, content);
  }

  remove(): void {
    rmSync(this.dir, { recursive: true, force: true });
  }

  /** Walks the answers of a run through the protocol, as a file of answers would be, its exports lying beside it. */
  async evaluated(simulated: SimulatedRun, book: SourceBook): Promise<RunEvaluation> {
    this.write(`exports/${simulated.id}-power.csv`, simulated.powerCsv);
    this.write(`exports/${simulated.id}-temperature.csv`, simulated.temperatureCsv);
    const base = join(this.dir, 'answers');
    const { heater, setting, answers } = simulated;
    const file = `${simulated.id}.yaml`;
    const bench = new AnswersBench(
      { schema: 1, heater, setting, answers, file, base, lineOf: () => undefined },
      () => {},
    );
    const keeper = new MemoryKeeper(
      beginEntry(this.workbook, {
        run: simulated.id,
        heater,
        setting,
        protocol,
        protocolText: text,
        instruments: { scale: 'scale-1', thermometer: 'logger-1', wattmeter: 'meter-1' },
        hand: 'mr',
        at: bench.now(),
      }),
    );
    const logs: { powerLog: Log | null; temperatureLog: Log | null } = {
      powerLog: null,
      temperatureLog: null,
    };
    const ended = await walk({
      protocol,
      keeper,
      bench,
      hand: 'mr',
      zone: this.workbook.settings.zone,
      units: 'si',
      base,
      aboutLog: (role, log) => {
        logs[role] = log;
        return [];
      },
    });
    if (ended !== 'ended' || !logs.powerLog || !logs.temperatureLog)
      throw new Error(`run ${simulated.id} did not end, or lacks a log`);
    return evaluateRun({ book, workbook: this.workbook, run: keeper.run, protocol, ...logs });
  }
}
