/** What a thread beside the calling one does: it reads the chunks that it is told to. */
import { parentPort, workerData } from 'node:worker_threads';
import { type ChunkJob, type ChunkOrder, ChunkReader } from './chunkWork.js';

const reader = new ChunkReader(workerData as ChunkJob);
parentPort?.on('message', (order: ChunkOrder) => parentPort?.postMessage(reader.read(order)));
