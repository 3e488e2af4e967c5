import { problem } from '../../errors/index.js';
import { type Source, type SourceGroup, memberId } from '../Source.js';
import { type Atom, type LinearForm, atomForm, exactly } from './LinearForm.js';
import type { Affine, Step } from './Program.js';

/** What is left of a form when at most one atom may stay: that atom with its factor, or none. */
const CONSTANT = -1;

/** Collects the steps of a program; registers are still one for each atom. */
export class Emitter {
  readonly steps: Step[] = [];
  private atoms = 0;
  private readonly bySource = new Map<string, { source: Source; form: LinearForm }>();
  private readonly byGroup = new Map<string, { group: SourceGroup; outs: readonly Atom[] }>();
  private readonly reduced = new Map<LinearForm, Atom>();

  atom(): Atom {
    return this.atoms++;
  }

  get count(): number {
    return this.atoms;
  }

  /** The error of a source, drawn where it is first needed. */
  draw(source: Source): LinearForm {
    const known = this.bySource.get(source.id);
    if (known) {
      if (known.source !== source) throw problem('source-clash', { id: source.id });
      return known.form;
    }
    const form = source.member ? atomForm(this.member(source)) : this.lone(source);
    this.bySource.set(source.id, { source, form });
    return form;
  }

  private lone(source: Source): LinearForm {
    if (source.standardUncertainty === 0) return exactly(0);
    const out = this.atom();
    const limited = source.distribution === 't' && Number.isFinite(source.degreesOfFreedom);
    this.steps.push({
      op: 'draw',
      out,
      source: source.id,
      shape: source.distribution === 't' && !limited ? 'normal' : source.distribution,
      degreesOfFreedom: source.degreesOfFreedom,
      topToBase: source.topToBase ?? 0.5,
    });
    return atomForm(out, source.standardUncertainty);
  }

  private member(source: Source): Atom {
    const { group, index } = source.member as NonNullable<Source['member']>;
    const known = this.byGroup.get(group.id);
    if (known && known.group !== group) throw problem('source-clash', { id: group.id });
    if (known) return known.outs[index] as Atom;
    const outs = group.factor.map(() => this.atom());
    this.byGroup.set(group.id, { group, outs });
    const { factor, degreesOfFreedom } = group;
    const sources = group.names.map((name) => memberId(group.id, name));
    this.steps.push({ op: 'drawGroup', outs, sources, factor, degreesOfFreedom });
    return outs[index] as Atom;
  }

  /** The form as offset + factor · atom; more than one atom are first summed to a new one. */
  affine(form: LinearForm): Affine {
    const [first] = form.terms;
    if (!first) return { register: CONSTANT, offset: form.constant, factor: 0 };
    if (form.terms.size === 1) return { register: first[0], offset: form.constant, factor: first[1] };
    return { register: this.sum(form), offset: 0, factor: 1 };
  }

  /** The form as one atom of its own. */
  sum(form: LinearForm): Atom {
    const [first] = form.terms;
    if (form.terms.size === 1 && form.constant === 0 && first && first[1] === 1) return first[0];
    const known = this.reduced.get(form);
    if (known !== undefined) return known;
    const out = this.atom();
    this.reduced.set(form, out);
    const registers = [...form.terms.keys()];
    const factors = Float64Array.of(form.constant, ...form.terms.values());
    this.steps.push({ op: 'linear', out, registers, factors });
    return out;
  }
}
