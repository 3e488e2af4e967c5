import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { RowBuffer } from '../scan/RowBuffer.js';
import { StepTracker } from '../StepTracker.js';
import { type ChunkJob, type ChunkOrder, ChunkReader, type ChunkResult, slotArrays } from './chunkWork.js';
import type { FileScan } from './FileScan.js';

const chunkBytes = 1 << 20;
const slotsEach = 2;
// This thread reads too; more of them would want more memory than they save time.
const mostHelpers = 2;
const mostCapacity = 1 << 17;
/** Below this a helper takes longer to start than it saves. */
const leastBytes = 16 << 20;

interface Helper {
  readonly worker: Worker;
  readonly buffers: readonly RowBuffer[];
}

/** A chunk that was read; `helper` is who read it, `null` for this thread. */
interface Ready {
  readonly result: ChunkResult;
  readonly buffer: RowBuffer;
  readonly helper: Helper | null;
}

/**
 * Starts threads for a file of a size, before anything is known of it, so that they are there when they are needed. Run
 * from the TypeScript sources there is no compiled file for them, and there are none.
 */
export function startThreads(size: number, helpers: number | undefined): Worker[] {
  if (import.meta.url.endsWith('.ts')) return [];
  const count = helpers ?? (size < leastBytes ? 0 : Math.min(mostHelpers, availableParallelism() - 1));
  return Array.from({ length: count }, () => {
    const worker = new Worker(new URL('./chunkThread.js', import.meta.url), {
      execArgv: [],
      // Small heaps: what a thread reads goes into shared memory.
      resourceLimits: { maxYoungGenerationSizeMb: 4, maxOldGenerationSizeMb: 64 },
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
  const columns = spec.factors.length;
  const helpers = workers.map((worker) => helperOf(worker, job, columns));
  const own = ownReader(job, columns);
  const waiting = new Map<number, Ready>();
  let assigned = 0;
  let next = 0;
  const order = (slot: number): ChunkOrder => {
    const start = from + assigned * chunkBytes;
    return { chunk: assigned++, slot, from: start, to: Math.min(how.size, start + chunkBytes) };
  };
  const assign = (helper: Helper, slot: number) => {
    if (assigned < chunks) helper.worker.postMessage(order(slot));
  };
  /** Takes what is there in order; `false` where the next chunk isn't. */
  const takeNext = (): boolean => {
    const ready = waiting.get(next);
    if (!ready) return false;
    waiting.delete(next++);
    takeChunk(scan, ready.result, ready.buffer);
    if (ready.helper) assign(ready.helper, ready.result.slot);
    else own.isFree = true;
    return true;
  };
  try {
    await new Promise<void>((resolve, reject) => {
      let isOver = false;
      const end = (settle: () => void) => {
        isOver = true;
        settle();
      };
      const pump = (): void => {
        if (isOver) return;
        try {
          while (takeNext());
          if (next === chunks) end(resolve);
          else if (own.isFree && assigned < chunks) {
            // Nothing to take: this thread reads a chunk too, and looks again.
            own.isFree = false;
            const result = own.reader.read(order(0));
            waiting.set(result.chunk, { result, buffer: own.buffer, helper: null });
            setImmediate(pump);
          }
        } catch (error) {
          end(() => reject(error));
        }
      };
      for (const helper of helpers) {
        helper.worker.on('message', (result: ChunkResult) => {
          waiting.set(result.chunk, { result, buffer: helper.buffers[result.slot]!, helper });
          pump();
        });
        // A thread that can't start or dies leaves the rest of the file to this one.
        helper.worker.on('exit', () => end(resolve));
        for (let slot = 0; slot < slotsEach; slot++) assign(helper, slot);
      }
      pump();
    });
  } finally {
    own.reader.close();
  }
}

/** A reader of chunks in this thread, with room for one. */
function ownReader(job: Omit<ChunkJob, 'slots'>, columns: number) {
  const slot = new SharedArrayBuffer(8 * job.capacity * (columns + 1));
  return {
    reader: new ChunkReader({ ...job, slots: [slot] }),
    buffer: new RowBuffer(columns, job.capacity, slotArrays(slot, job.capacity, columns)),
    isFree: true,
  };
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
