/**
 * protocols: test procedures as data, the machine that walks them step by step, and the two benches it can ask:
 * a terminal (given by the command line) or a file of answers.
 */
export { type Answers, AnswersBench, readAnswers, strayAnswers } from './answers.js';
export { type FreeQuestion, askQuantity, askUntil } from './askUntil.js';
export {
  type LogRole,
  type MarkRole,
  type ReadyExport,
  attachEntry,
  markMs,
  readBytes,
  readyExport,
} from './attach.js';
export type { Bench, Question } from './Bench.js';
export { type RunPlan, beginEntry, checkHeater, instrumentsOfKind } from './beginRun.js';
export { readingOf, readingsWith } from './contradiction.js';
export { type DueFill, dueFill } from './dueFill.js';
export { type FirstSitting, firstSitting, oneMoreHeater } from './firstSitting.js';
export { exportPath, readProblem } from './exportPath.js';
export { type FoundProtocol, findProtocol, listProtocols } from './library.js';
export { MemoryKeeper } from './MemoryKeeper.js';
export { nextStep } from './machine.js';
export {
  type Allowance,
  type Definition,
  type Evaluates,
  type Protocol,
  type ReadingRole,
  type Step,
  definitions,
  parseProtocol,
  protocolJsonSchema,
  protocolSchema,
} from './schema.js';
export { type Keeper, type ReadLog, type WalkOptions, promptUnit } from './WalkOptions.js';
export { walk } from './walk.js';
