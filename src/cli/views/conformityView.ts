import { type Figure, type FigureConformity, conformityOfFigure } from '../../evaluation/index.js';
import { problem } from '../../errors/index.js';
import { readQuantity } from '../../units/index.js';

interface Rule {
  readonly atLeast?: string;
  readonly risk?: string;
}

/** The rule of an option, else the claim in the heater's record; null where neither is there. */
export function conformityFor(figure: Figure, rule: Rule): FigureConformity | null {
  const claim = figure.heater.settings.find((each) => each.id === figure.setting)?.claim;
  if (rule.atLeast === undefined) {
    return claim === undefined ? null : conformityOfFigure(figure, claim.atLeast, claim.risk, claim.declared);
  }
  const atLeast = ratio(rule.atLeast, '--at-least', 1);
  const risk = rule.risk === undefined ? 0.05 : ratio(rule.risk, '--risk', 0.5);
  // The same rule as in the record was settled when the record says.
  const same = claim !== undefined && claim.atLeast === atLeast && claim.risk === risk;
  return conformityOfFigure(figure, atLeast, risk, same ? claim.declared : null);
}

function ratio(text: string, key: string, most: number): number {
  const value = readQuantity(text, { kind: 'ratio', unit: '1' }, { key }).si;
  if (value > 0 && value <= most) return value;
  throw problem(
    'option-bad',
    {
      message: `${key} takes a share above 0 and at most ${most}, such as ${most === 1 ? '0.80' : '0.05'}; this was "${text}".`,
    },
    { key },
  );
}

/** The verdict in plain words. */
export function conformityLines(judged: FigureConformity): string[] {
  const wanted = `${Number((judged.atLeast * 100).toPrecision(6))} %`;
  const chance = judged.probabilityConforming;
  const shown =
    chance > 0.999 ? 'over 99.9 %' : chance < 0.001 ? 'under 0.1 %' : `${(chance * 100).toFixed(1)} %`;
  const verdict = {
    met: `At least ${wanted}: yes`,
    'not met': `At least ${wanted}: no`,
    undecided: `At least ${wanted}: can't be told`,
  }[judged.verdict];
  const when =
    judged.declared === 'later'
      ? 'the rule was declared later than the first run'
      : 'the rule was declared before the first run';
  return [
    `${verdict} (chance that it is reached ${shown}, risk allowed ${Number((judged.risk * 100).toPrecision(4))} %; ${when}).`,
  ];
}
