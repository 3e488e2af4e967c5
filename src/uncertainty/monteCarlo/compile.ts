import { inOrder } from '../inOrder.js';
import type { Quantity } from '../Quantity.js';
import { allotRegisters } from './allotRegisters.js';
import { chebyshevSeries } from './chebyshevSeries.js';
import { powerOf } from './elementary.js';
import { Emitter } from './Emitter.js';
import { type LinearForm, atomForm, combine, exactly, isExact } from './LinearForm.js';
import type { Program } from './Program.js';

/**
 * Turns a graph into a program for blocks of trials. Sums, differences and exact factors are gathered into linear forms over
 * drawn errors and non-linear results, so that one pass over a block does what many nodes say; a source that
 * cancels in them is not even drawn for them.
 */
export function compile(outputs: readonly Quantity[]): Program {
  const emitter = new Emitter();
  const order = inOrder(outputs);
  const uses = new Map<Quantity, number>();
  for (const node of order) for (const input of node.inputs) uses.set(input, (uses.get(input) ?? 0) + 1);
  const forms = new Map<Quantity, LinearForm>();
  for (const node of order) {
    const form = formOf(
      emitter,
      node,
      node.inputs.map((input) => forms.get(input) as LinearForm),
    );
    // A sum that several others need is made once.
    const shared = (uses.get(node) ?? 0) > 1 && form.terms.size > 1;
    forms.set(node, shared ? atomForm(emitter.sum(form)) : form);
  }
  const results = outputs.map((output) => emitter.sum(forms.get(output) as LinearForm));
  return allotRegisters(emitter.steps, emitter.count, results);
}

function formOf(emitter: Emitter, node: Quantity, inputs: readonly LinearForm[]): LinearForm {
  if (node.source) return emitter.draw(node.source);
  const [a, b] = inputs as [LinearForm, LinearForm];
  if (inputs.every(isExact)) {
    const own = node.operation === 'power';
    return exactly(own ? powerOf(a.constant, node.exponent as number) : node.value);
  }
  switch (node.operation) {
    case 'add':
      return combine(
        inputs,
        inputs.map(() => 1),
      );
    case 'subtract':
      return combine([a, b], [1, -1]);
    case 'multiply': {
      if (isExact(a)) return combine([b], [a.constant]);
      if (isExact(b)) return combine([a], [b.constant]);
      const [left, right] = [emitter.affine(a), emitter.affine(b)];
      const out = emitter.atom();
      emitter.steps.push({ op: 'multiply', out, a: left, b: right });
      return atomForm(out);
    }
    case 'divide': {
      if (isExact(b)) return combine([a], [1 / b.constant]);
      const [left, right] = [emitter.affine(a), emitter.affine(b)];
      const out = emitter.atom();
      emitter.steps.push({ op: 'divide', out, a: left, b: right });
      return atomForm(out);
    }
    case 'power': {
      const base = emitter.affine(a);
      const out = emitter.atom();
      emitter.steps.push({ op: 'power', out, a: base, exponent: node.exponent as number });
      return atomForm(out);
    }
    default:
      return functionForm(emitter, node, inputs);
  }
}

function functionForm(emitter: Emitter, node: Quantity, inputs: readonly LinearForm[]): LinearForm {
  const out = () => emitter.atom();
  const [first] = inputs as [LinearForm];
  if (node.elementary) {
    const step = { op: 'elementary', a: emitter.affine(first), out: out(), name: node.elementary } as const;
    emitter.steps.push(step);
    return atomForm(step.out);
  }
  const series = node.smooth ? chebyshevSeries(node) : null;
  if (series) {
    const step = { op: 'series', a: emitter.affine(first), out: out(), series } as const;
    emitter.steps.push(step);
    const others = inputs.slice(1);
    const slopes = node.partials.slice(1);
    const atEstimate = others.reduce((sum, _, j) => sum + slopes[j]! * node.inputs[j + 1]!.value, 0);
    return combine([atomForm(step.out), ...others], [1, ...slopes], -atEstimate);
  }
  const arguments_ = inputs.map((form) => emitter.affine(form));
  const step = { op: 'call', inputs: arguments_, out: out(), evaluate: node.evaluate! } as const;
  emitter.steps.push(step);
  return atomForm(step.out);
}
