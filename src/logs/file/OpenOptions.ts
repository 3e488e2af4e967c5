import type { ReadOptions } from '../types.js';

/** How far the reading of a large file has come. */
export interface Progress {
  readonly rows: number;
  readonly bytes: number;
  readonly totalBytes: number;
}

/** What the reading of a file may be told beside what the file says. */
export interface OpenOptions extends ReadOptions {
  readonly onProgress?: (progress: Progress) => void;
  /** Files up to this size are read into memory; 8 MB where nothing else is said. */
  readonly inMemoryBytes?: number;
  /** Threads that read beside this one; as many as pay off where nothing else is said. */
  readonly helpers?: number;
}
