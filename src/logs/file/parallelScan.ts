import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { RowBuffer } from '../scan/RowBuffer.js';
import { StepTracker } from '../StepTracker.js';
import { type ChunkJob, type ChunkOrder, type ChunkResult, slotArrays } from './chunkWork.js';
import type { FileScan } from './FileScan.js';

const chunkBytes = 1 << 19;
const slotsEach = 3;
const mostHelpers = 4;
const mostCapacity = 1 << 17;
/** Below this a helper takes longer to start than it saves. */
const leastBytes = 16 << 20;

interface Helper {
  readonly worker: Worker;
  readonly buffers: readonly RowBuffer[];
}

/**
 * Starts threads for a file of a size, before anything is known of it, so that they are there when they are needed. Run
 * from the TypeScript sources there is no compiled file for them, and there are none.
 */
export function startThreads(size: number, helpers: number | undefined): Worker[] {
  if (import.meta.url.endsWith('.ts')) return [];
  const count = helpers ?? (size < leastBytes ? 0 : Math.min(mostHelpers, availableParallelism()));
  return Array.from({ length: count }, () => {
    const worker = new Worker(new URL('./chunkThread.js', import.meta.url), {
      execArgv: [],
      resourceLimits: { maxYoungGenerationSizeMb: 8 },
    });
    worker.unref();
    // One that can't start leaves the work to the calling thread; see below.
    worker.on('error', () => {});
    return worker;
  });
}

/**
 * Reads the rest of a file with threads beside this one. They read chunks by the fast road; this one takes their rows in
 * order, reads by itself whatever is unusual, and sums up. The result is the same for any number of threads.
 */
export async function parallelScan(
  scan: FileScan,
  workers: readonly Worker[],
  how: { readonly path: string; readonly size: number; readonly rowBytes: number },
): Promise<void> {
  const spec = scan.reader.fastSpec;
  if (workers.length === 0 || !spec || scan.isDone) return;
  const from = scan.position;
  const chunks = Math.ceil((how.size - from) / chunkBytes);
  const capacity = Math.min(mostCapacity, Math.ceil((1.3 * chunkBytes) / how.rowBytes) + 1024);
  const job = { path: how.path, spec, chunkBytes, capacity };
  const helpers = workers.map((worker) => helperOf(worker, job, spec.factors.length));
  const orderOf = (chunk: number, slot: number): ChunkOrder => ({
    chunk,
    slot,
    from: from + chunk * chunkBytes,
    to: Math.min(how.size, from + (chunk + 1) * chunkBytes),
  });
  await new Promise<void>((resolve, reject) => {
    const waiting = new Map<number, ChunkResult>();
    let next = 0;
    const take = (result: ChunkResult) => {
      waiting.set(result.chunk, result);
      for (let ready = waiting.get(next); ready; ready = waiting.get(next)) {
        waiting.delete(next);
        const helper = helpers[next % helpers.length]!;
        takeChunk(scan, ready, helper.buffers[ready.slot]!);
        const coming = next + slotsEach * helpers.length;
        if (coming < chunks) helper.worker.postMessage(orderOf(coming, ready.slot));
        next++;
        if (next === chunks) resolve();
      }
    };
    for (const [at, { worker }] of helpers.entries()) {
      worker.on('message', (result: ChunkResult) => {
        try {
          take(result);
        } catch (error) {
          reject(error);
        }
      });
      // A thread that can't start or dies leaves the rest of the file to this one.
      worker.on('exit', () => resolve());
      for (let slot = 0; slot < slotsEach; slot++) {
        const chunk = at + slot * helpers.length;
        if (chunk < chunks) worker.postMessage(orderOf(chunk, slot));
      }
    }
  });
}

function helperOf(worker: Worker, job: Omit<ChunkJob, 'slots'>, columns: number): Helper {
  const bytes = 8 * job.capacity * (columns + 1);
  const slots = Array.from({ length: slotsEach }, () => new SharedArrayBuffer(bytes));
  // Waited for from here on.
  worker.ref();
  worker.postMessage({ ...job, slots } satisfies ChunkJob);
  const buffers = slots.map(
    (slot) => new RowBuffer(columns, job.capacity, slotArrays(slot, job.capacity, columns)),
  );
  return { worker, buffers };
}

/** Takes the rows of a chunk where they follow on what was read, and reads the rest of it in this thread. */
function takeChunk(scan: FileScan, result: ChunkResult, buffer: RowBuffer): void {
  if (scan.position === result.start && result.rows > 0) {
    buffer.rows = result.rows;
    buffer.keyChanges = [...result.keyChanges];
    for (const [slot, column] of buffer.columns.entries()) {
      const { steps, ...said } = result.columns[slot]!;
      Object.assign(column, said, { steps: StepTracker.from(steps) });
    }
    scan.adopt(buffer, result.stop);
  }
  while (scan.position < result.end && !scan.isDone) {
    const before = scan.position;
    scan.advance(result.end);
    // A quote that is still open runs on into the next chunk.
    if (scan.position === before) return;
  }
}
