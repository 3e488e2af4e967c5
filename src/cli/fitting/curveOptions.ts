import { problem } from '../../errors/index.js';
import type { CurveOptions } from '../../evaluation/index.js';
import type { Stretch, ThermalModelName } from '../../fitting/index.js';
import { readQuantity, type UnitSystem } from '../../units/index.js';
import type { FitArgs, ModelWord } from './FitArgs.js';

const models: Readonly<Record<ModelWord, ThermalModelName>> = {
  approach: 'approach',
  'cool-down': 'coolDown',
  'one-node': 'oneNode',
  'two-nodes': 'twoNode',
};

/** Options of the command line as the fit takes them; a bare number is in seconds. */
export function curveOptions(args: FitArgs, units: UnitSystem): CurveOptions {
  const { model, from, to, block, target, 'leave-out': leaveOut } = args;
  const options = {
    ...(model === undefined ? {} : { model: models[model] }),
    ...(from === undefined ? {} : { fromS: seconds(from, '--from') }),
    ...(to === undefined ? {} : { toS: seconds(to, '--to') }),
    ...(leaveOut === undefined ? {} : { leaveOut: leaveOut.map(stretchOf) }),
    ...(block === undefined ? {} : { blockS: blockOf(block) }),
    ...(target === undefined ? {} : { targetK: targetOf(target, units) }),
  };
  if (options.fromS !== undefined && options.toS !== undefined && options.toS <= options.fromS)
    throw problem(
      'option-bad',
      { message: `--to (${to}) must be later than --from (${from}).` },
      { key: '--to' },
    );
  return options;
}

function seconds(text: string, key: string): number {
  return readQuantity(text, { kind: 'time', unit: 's' }, { key }).si;
}

function blockOf(text: string): number {
  const blockS = seconds(text, '--block');
  if (blockS > 0) return blockS;
  throw problem(
    'option-bad',
    { message: `--block takes a time above zero, such as 60s; this was "${text}".` },
    { key: '--block' },
  );
}

/** "0s..6min". */
function stretchOf(text: string): Stretch {
  const ends = text.split('..');
  const bad = () =>
    problem(
      'option-bad',
      { message: `--leave-out takes two times, the later one last, such as 0s..6min; this was "${text}".` },
      { key: '--leave-out' },
    );
  if (ends.length !== 2 || ends.some((each) => each.trim() === '')) throw bad();
  const [fromS, toS] = ends.map((each) => seconds(each.trim(), '--leave-out')) as [number, number];
  if (toS <= fromS) throw bad();
  return { fromS, toS };
}

function targetOf(text: string, units: UnitSystem): number {
  const unit = units === 'si' ? '°C' : '°F';
  return readQuantity(text, { kind: 'temperature', unit }, { key: '--target' }).si;
}
