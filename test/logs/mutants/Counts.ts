import type { Evidence } from './Evidence.js';
import { type Judgement, verdicts } from './judge.js';

/** How many mutants of each kind came to which verdict. */
export class Counts {
  private readonly counts = new Map<string, Map<string, number>>();

  /** How many of the mutants with a changed energy had which evidence. */
  readonly evidence = new Map<Evidence, number>();

  add(kind: string, { verdict, evidence }: Judgement): void {
    for (const each of evidence) this.evidence.set(each, (this.evidence.get(each) ?? 0) + 1);
    const row = this.counts.get(kind) ?? new Map<string, number>();
    this.counts.set(kind, row);
    row.set(verdict, (row.get(verdict) ?? 0) + 1);
  }

  total(verdict: Judgement['verdict']): number {
    return [...this.counts.keys()].reduce((sum, kind) => sum + this.of(kind, verdict), 0);
  }

  /** A table, and what the last column but one means. */
  toText(): string {
    const width = Math.max(...[...this.counts.keys()].map(({ length }) => length));
    const line = (name: string, cells: readonly (string | number)[]) =>
      `${name.padEnd(width)} ${cells.map((cell) => String(cell).padStart(13)).join('')}`;
    const mutants = verdicts.reduce((sum, verdict) => sum + this.total(verdict), 0);
    return [
      line('', verdicts),
      ...[...this.counts.keys()].map((kind) =>
        line(
          kind,
          verdicts.map((verdict) => this.of(kind, verdict)),
        ),
      ),
      line(
        'all',
        verdicts.map((verdict) => this.total(verdict)),
      ),
      `evidence in those changed: ${[...this.evidence].map(([each, count]) => `${each} ${count}`).join(', ')}`,
      `${this.total('undetectable')} of ${mutants} mutants changed an energy beyond its stated uncertainty with nothing in the file to tell: such as a power in tenths throughout, a heater that might as well have been switched off, a clock that jumps in a log of two rows.`,
    ].join('\n');
  }

  private of(kind: string, verdict: string): number {
    return this.counts.get(kind)?.get(verdict) ?? 0;
  }
}
