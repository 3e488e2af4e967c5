import { createModel } from './model.mjs';

const LONGEST_RUN_S = 6 * 3600;

/**
 * The clock of a run, in whole seconds from switch-on.
 * @typedef {object} RunTimes
 * @property {number} insertS pot put into the heater, negative
 * @property {number} readS T1 read, negative
 * @property {number} afterS how long to go on after the turning point
 */

/**
 * One heating: the pot stands in the rested heater, T1 is read, heat until the target, then on past the turning
 * point, where T2 is read. `course` has one entry for each step.
 * @param {import('./conditions.mjs').Conditions} conditions
 * @param {number} powerW at nominal voltage
 * @param {RunTimes} times
 * @param {number} stepS whole seconds
 */
export function heat(conditions, powerW, times, stepS) {
  const walk = startWalk(createModel(conditions, powerW), times.insertS);
  const first = walk.now();
  walk.until(times.readS, stepS);
  const start = walk.now();
  walk.until(0, stepS);
  while (!walk.heated(stepS, conditions.targetC)) {
    if (walk.now().timeS > LONGEST_RUN_S) {
      throw new RangeError(`the water did not reach ${conditions.targetC} °C within ${LONGEST_RUN_S} s`);
    }
  }
  const off = walk.now();
  let end = off;
  for (let next = off; next.loadC >= end.loadC; ) {
    end = next;
    walk.until(end.timeS + stepS, stepS);
    next = walk.now();
  }
  walk.until(end.timeS + times.afterS, stepS);
  return { course: walk.course, first, start, off, end, last: walk.now(), powerAt: walk.powerAt };
}

/** @typedef {ReturnType<typeof heat>} Heating */

/** The model with a clock and a record of its course. */
function startWalk(model, startS) {
  let timeS = startS;
  const now = () => ({ timeS, ...model.snapshot() });
  const first = now();
  const course = { timeS: [timeS], loadC: [first.loadC], inputJ: [first.inputJ], waterKg: [first.waterKg] };
  const record = () => {
    const { loadC, inputJ, waterKg } = model.snapshot();
    course.timeS.push(timeS);
    course.loadC.push(loadC);
    course.inputJ.push(inputJ);
    course.waterKg.push(waterKg);
  };
  const advance = (dt, on) => {
    model.step(timeS, dt, on);
    timeS += dt;
  };
  /** Switched off until the given time. */
  const until = (endS, stepS) => {
    while (timeS < endS) {
      advance(Math.min(stepS, endS - timeS), false);
      record();
    }
  };
  /** One step switched on; true once the target is reached, then cut back to the whole second after it. */
  const heated = (stepS, targetC) => {
    const before = now();
    const back = model.remember();
    advance(stepS, true);
    const after = now();
    const reached = after.loadC >= targetC;
    if (reached) {
      const share = (targetC - before.loadC) / (after.loadC - before.loadC);
      back();
      timeS = before.timeS;
      advance(Math.min(stepS, Math.max(1, Math.ceil(share * stepS))), true);
    }
    record();
    return reached;
  };
  return { now, until, heated, course, powerAt: model.powerAt };
}
