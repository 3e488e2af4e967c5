/** What a thread beside the calling one does: it takes blocks of whatever job it is sent. */
import { parentPort } from 'node:worker_threads';
import { type Job, work } from './work.js';

parentPort?.on('message', (job: Job) => work(job));
