/** Identifies what a step gives before registers are allotted. */
export type Atom = number;

/** constant + Σ factor · atom. */
export interface LinearForm {
  readonly constant: number;
  readonly terms: ReadonlyMap<Atom, number>;
}

const none: ReadonlyMap<Atom, number> = new Map();

export const exactly = (constant: number): LinearForm => ({ constant, terms: none });

export const atomForm = (atom: Atom, factor = 1): LinearForm => ({
  constant: 0,
  terms: new Map([[atom, factor]]),
});

export const isExact = (form: LinearForm): boolean => form.terms.size === 0;

/** Σ weight · form + constant; a term that cancels to zero is dropped. */
export function combine(forms: readonly LinearForm[], weights: readonly number[], constant = 0): LinearForm {
  let total = constant;
  const terms = new Map<Atom, number>();
  forms.forEach((form, index) => {
    const weight = weights[index] as number;
    total += weight * form.constant;
    for (const [atom, factor] of form.terms) {
      const sum = (terms.get(atom) ?? 0) + weight * factor;
      if (sum === 0) terms.delete(atom);
      else terms.set(atom, sum);
    }
  });
  return { constant: total, terms };
}
