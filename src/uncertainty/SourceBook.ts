import { problem } from '../errors/index.js';
import { type Source, type SourceSpec, source } from './Source.js';

/**
 * The sources of one evaluation, each made once and then shared by all that ask for its id. This is how the
 * calibration error of one thermometer becomes the same error in T1 and T2, in every run and every setting.
 *
 * `get` throws `source-clash` where an id is asked for again with another size or shape, and what `source` throws.
 *
 * @example
 * const book = new SourceBook();
 * const a = book.get({ id: 'meter:gain', name: "the meter's gain", halfWidth: 0.02 });
 * a === book.get({ id: 'meter:gain', name: "the meter's gain", halfWidth: 0.02 }) // => true
 */
export class SourceBook {
  private readonly byId = new Map<string, Source>();

  get(spec: SourceSpec): Source {
    const known = this.byId.get(spec.id);
    const made = source(spec);
    if (known) {
      if (!alike(known, made)) throw problem('source-clash', { id: spec.id });
      return known;
    }
    this.byId.set(spec.id, made);
    return made;
  }
}

/** Whether two sources are the same error as far as numbers go. */
function alike(a: Source, b: Source): boolean {
  return (
    a.standardUncertainty === b.standardUncertainty &&
    a.degreesOfFreedom === b.degreesOfFreedom &&
    a.distribution === b.distribution &&
    a.topToBase === b.topToBase &&
    a.scope === b.scope
  );
}
