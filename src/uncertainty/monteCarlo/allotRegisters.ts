import type { Program, Step } from './Program.js';

const isRegister = (register: number) => register >= 0;

function readsOf(step: Step): readonly number[] {
  switch (step.op) {
    case 'draw':
    case 'drawGroup':
      return [];
    case 'linear':
      return step.registers;
    case 'multiply':
    case 'divide':
      return [step.a.register, step.b.register].filter(isRegister);
    case 'call':
      return step.inputs.map((input) => input.register).filter(isRegister);
    default:
      return [step.a.register].filter(isRegister);
  }
}

const writesOf = (step: Step): readonly number[] => (step.op === 'drawGroup' ? step.outs : [step.out]);

/** The same step with every register renamed. */
function renamed(step: Step, to: (register: number) => number): Step {
  const affine = <A extends { register: number }>(a: A): A => ({
    ...a,
    register: isRegister(a.register) ? to(a.register) : a.register,
  });
  switch (step.op) {
    case 'draw':
      return { ...step, out: to(step.out) };
    case 'drawGroup':
      return { ...step, outs: step.outs.map(to) };
    case 'linear':
      return { ...step, out: to(step.out), registers: step.registers.map(to) };
    case 'multiply':
    case 'divide':
      return { ...step, out: to(step.out), a: affine(step.a), b: affine(step.b) };
    case 'call':
      return { ...step, out: to(step.out), inputs: step.inputs.map(affine) };
    default:
      return { ...step, out: to(step.out), a: affine(step.a) };
  }
}

/**
 * Gives each atom a register from the step that makes it to the last that reads it, and the same register to others
 * after that: the fewer blocks are in use, the more of them stay in the cache.
 */
export function allotRegisters(steps: readonly Step[], atoms: number, results: readonly number[]): Program {
  const lastUse = new Array<number>(atoms).fill(-1);
  steps.forEach((step, at) => {
    for (const atom of readsOf(step)) lastUse[atom] = at;
  });
  for (const atom of results) lastUse[atom] = steps.length;
  const registerOf = new Array<number>(atoms).fill(-1);
  const free: number[] = [];
  let registers = 0;
  let fewest = Number.POSITIVE_INFINITY;
  const allotted = steps.map((step, at) => {
    for (const atom of writesOf(step)) registerOf[atom] = free.pop() ?? registers++;
    const done = renamed(step, (atom) => registerOf[atom] as number);
    for (const atom of new Set([...readsOf(step), ...writesOf(step)]))
      if ((lastUse[atom] as number) <= at) free.push(registerOf[atom] as number);
    if (step.op === 'drawGroup' || (step.op === 'draw' && step.shape === 't'))
      fewest = Math.min(fewest, step.degreesOfFreedom);
    return done;
  });
  return {
    steps: allotted,
    registers,
    outputs: results.map((atom) => registerOf[atom] as number),
    portable: !steps.some((step) => step.op === 'call'),
    fewestDegreesOfFreedom: fewest,
  };
}
