import {
  type CurveQuantity,
  nextThing,
  type RunCurves,
  runCurveWords,
  shownQuantity,
} from '../../evaluation/index.js';
import type { UnitSystem } from '../../units/index.js';
import { detailOfCurves } from './detailOfCurves.js';

/** What the curves of a run say, for a person: plain words, then the parameters, then what to do next. */
export function curveLines(curves: RunCurves, units: UnitSystem, detail: boolean): string[] {
  const { run, heater, parts, skipped, notes } = curves;
  const setting = heater.settings.find(({ id }) => id === run.setting)?.name ?? run.setting;
  const lines = [`${run.id}: ${heater.name}, ${setting}`];
  for (const part of parts) {
    const { heading, sentences } = runCurveWords(part, units);
    lines.push('', `${heading}:`, ...sentences.map((sentence) => `  ${sentence}`));
    const best = part.fits[0];
    if (best)
      lines.push(
        '  In numbers, ± at 95 %:',
        ...tableOf([...best.parameters, ...best.quantities], units).map((line) => `  ${line}`),
      );
  }
  if (skipped.length + notes.length > 0) lines.push('');
  for (const { what, why } of skipped)
    lines.push(`Not fitted, ${what}: ${why}${/[.!]$/.test(why) ? '' : '.'}`);
  lines.push(...notes.map((note) => `Note: ${note}`));
  if (detail) lines.push('', ...detailOfCurves(curves));
  const next = nextThing(curves);
  lines.push('', next.sentence, `Next: heatledger ${next.command}`);
  return lines;
}

/** Values with their expanded uncertainty at 95 %, and what they are. */
function tableOf(quantities: readonly CurveQuantity[], units: UnitSystem): string[] {
  const known = quantities.filter(({ result }) => result !== null).map((each) => shownQuantity(each, units));
  const width = (texts: readonly string[]) => Math.max(0, ...texts.map((text) => text.length));
  const value = width(known.map((each) => each.value));
  const unit = width(known.map(withUncertainty));
  return known.map(
    (each) => `${each.value.padStart(value)} ${withUncertainty(each).padEnd(unit)}  ${each.label}`,
  );
}

const withUncertainty = ({ uncertainty, unit }: { readonly uncertainty: string; readonly unit: string }) =>
  `± ${uncertainty} ${unit}`;
