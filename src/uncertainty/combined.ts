import { problem } from '../errors/index.js';
import type { UncertaintyComponent } from '../statistics/index.js';
import type { Quantity } from './Quantity.js';
import type { Source, SourceGroup } from './Source.js';
import { type Sensitivity, sensitivities } from './sensitivities.js';

/** A row of the budget before its share is known. */
interface Row {
  readonly source: Source;
  readonly sensitivity: number;
  readonly contribution: number;
  /** What it adds to the combined variance; negative where correlation takes away. */
  readonly variance: number;
  readonly correlationOf?: readonly string[];
}

/** The independent parts of a quantity's variance and the rows of its budget. */
export function combined(quantity: Quantity): { components: UncertaintyComponent[]; rows: Row[] } {
  const parts = sensitivities(quantity);
  const rows: Row[] = parts.map(({ source, sensitivity }) => {
    const contribution = Math.abs(sensitivity) * source.standardUncertainty;
    return { source, sensitivity, contribution, variance: contribution ** 2 };
  });
  const components = rows
    .filter(({ source }) => !source.member)
    .map(({ source, contribution }) => ({
      u: contribution,
      degreesOfFreedom: source.degreesOfFreedom,
    }));
  for (const [group, sensitivity] of groupsOf(parts)) {
    const u = Math.sqrt(groupCovariance(group, sensitivity, sensitivity));
    components.push({ u, degreesOfFreedom: group.degreesOfFreedom });
    const alone = group.covariance.reduce((sum, row, i) => sum + sensitivity[i]! ** 2 * row[i]!, 0);
    const members = rows.filter(({ source }) => source.member?.group === group);
    if (members.length > 1) rows.push(correlationRow(group, members, u ** 2 - alone));
  }
  return { components, rows };
}

/** What the correlation within a group adds to the variance, as if it were an error of its own. */
function correlationRow(group: SourceGroup, members: readonly Row[], variance: number): Row {
  const names = members.map(({ source }) => source.name);
  const contribution = Math.sqrt(Math.abs(variance));
  const [first] = members as [Row];
  const { member: _, ...shared } = first.source;
  const source: Source = {
    ...shared,
    id: `${group.id}:correlation`,
    name: `correlation of ${names.slice(0, -1).join(', ')} and ${names.at(-1)}`,
    standardUncertainty: contribution,
    degreesOfFreedom: group.degreesOfFreedom,
  };
  return { source, sensitivity: 1, contribution, variance, correlationOf: names };
}

/** The sensitivity to each member of each group that takes part; 0 for a member that does not. */
function groupsOf(parts: readonly Sensitivity[]): Map<SourceGroup, number[]> {
  const groups = new Map<SourceGroup, number[]>();
  for (const { source, sensitivity } of parts) {
    if (!source.member) continue;
    const { group, index } = source.member;
    const twin = [...groups.keys()].find((other) => other.id === group.id && other !== group);
    if (twin) throw problem('source-clash', { id: group.id });
    const vector = groups.get(group) ?? new Array<number>(group.names.length).fill(0);
    vector[index] = sensitivity;
    groups.set(group, vector);
  }
  return groups;
}

/** aᵀΣb as (Lᵀa)·(Lᵀb), which is never below zero for a = b. */
function groupCovariance(group: SourceGroup, a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < a.length; j++) {
    let left = 0;
    let right = 0;
    for (let i = j; i < a.length; i++) {
      const entry = group.factor[i]![j]!;
      left += entry * a[i]!;
      right += entry * b[i]!;
    }
    sum += left * right;
  }
  return sum;
}

/** First-order covariance of two quantities by what they rest on: Σ c_i d_i u_i² and aᵀΣb of the groups. */
export function covarianceOf(first: readonly Sensitivity[], second: readonly Sensitivity[]): number {
  const bySource = new Map(second.map((part) => [part.source, part.sensitivity]));
  let sum = 0;
  for (const { source, sensitivity } of first) {
    if (source.member) continue;
    sum += sensitivity * (bySource.get(source) ?? 0) * source.standardUncertainty ** 2;
  }
  const groups = groupsOf(second);
  for (const [group, a] of groupsOf(first)) {
    const b = groups.get(group);
    if (b) sum += groupCovariance(group, a, b);
  }
  return sum;
}
