import { type Source, type SourceSpec, source } from './Source.js';

/**
 * The sources of one evaluation, each made once and then shared by all that ask for its id. This is how the
 * calibration error of one thermometer becomes the same error in T1 and T2, in every run and every setting.
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
    if (known) return known;
    const made = source(spec);
    this.byId.set(spec.id, made);
    return made;
  }
}
