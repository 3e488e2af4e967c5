/** What a thread beside the calling one does: it reads the chunks that it is told to. */
import { parentPort } from 'node:worker_threads';
import { type ChunkJob, type ChunkOrder, ChunkReader } from './chunkWork.js';

let reader: ChunkReader | null = null;
parentPort?.on('message', (message: ChunkJob | ChunkOrder) => {
  // The job comes first, then the chunks.
  if ('path' in message) reader = new ChunkReader(message);
  else if (reader) parentPort?.postMessage(reader.read(message));
});
