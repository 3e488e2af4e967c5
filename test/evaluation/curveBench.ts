import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type MethodFigure, type MethodValue, evaluateWorkbook } from '../../src/evaluation/index.js';
import { openWorkbook } from '../../src/workbook/index.js';
import { emptyFolder, top } from '../support/folders.js';
import { runLine } from '../support/inProcess.js';
import type { Ended } from '../support/program.js';

const samples = join(top, 'samples');
export const curves = join(samples, 'curves');
export const truth = JSON.parse(readFileSync(join(curves, 'truth.json'), 'utf8')).runs as Record<
  string,
  Record<string, number>
>;

/** A workbook of the dairy without a run, and the folder it lies in. */
export function freshBench(): { dir: string; folder: string } {
  const folder = emptyFolder();
  const dir = join(folder, 'workbook');
  cpSync(join(samples, 'records'), dir, { recursive: true });
  return { dir, folder };
}

/** Walks a file of answers through `test --answers`. */
export const walkFile = (dir: string, file: string): Promise<Ended> =>
  runLine(['test', '--workbook', dir, '--answers', file, '--json']);

/** Walks one run of the curves, its answers changed on the way. */
export function walkChanged(
  { dir, folder }: { dir: string; folder: string },
  run: string,
  change: (answers: string) => string,
): Promise<Ended> {
  const before = readFileSync(join(curves, 'answers', `${run}.yaml`), 'utf8');
  const exports = `${join(curves, 'exports')}/`;
  const text = change(before).replaceAll('../exports/', exports);
  const file = join(folder, 'answers', `${run}.yaml`);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  return walkFile(dir, file);
}

/** The answers with what was typed at one step replaced. */
export const typed = (step: string, value: string) => (answers: string) =>
  answers.replace(new RegExp(`(step: ${step}, value: )"[^"]*"`), `$1${JSON.stringify(value)}`);

/** The answers with the moment of one step moved by seconds. */
export const moved = (step: string, seconds: number) => (answers: string) =>
  answers.replace(
    new RegExp(`(step: ${step}, value: "[^"]*", at: )"([^"]*)"`),
    (_all, head: string, at: string) => {
      const there = new Date(Date.parse(at) + seconds * 1000).toISOString();
      return `${head}"${there}"`;
    },
  );

export const evaluationOf = (dir: string) =>
  evaluateWorkbook(openWorkbook(dir), { day: new Date('2026-10-20T08:00:00Z') });

export const figureOf = (dir: string, method: string, lid?: string): MethodFigure => {
  const found = evaluationOf(dir).methods.find(
    (each) => each.method === method && (lid === undefined || each.lid === lid),
  );
  if (!found) throw new Error(`no figure by ${method}`);
  return found;
};

export const valueNamed = (figure: MethodFigure, name: string): MethodValue => {
  const found = figure.values.find((each) => each.name === name);
  if (!found) throw new Error(`no value ${name}`);
  return found;
};
