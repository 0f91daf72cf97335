import { workerData } from 'node:worker_threads';
import type { ListData } from './part-model.ts';

/** What a thread is started with that works on parts of a list; known without loading what does it. */
export interface ListThreadData {
  readonly listThread: ListData;
}

const isListThreadData = (data: unknown): data is ListThreadData =>
  typeof data === 'object' && data !== null && 'listThread' in data;

const given: unknown = workerData;

/** What this thread was started with for parts of a list; undefined in any other. */
export const listThread: ListData | undefined = isListThreadData(given) ? given.listThread : undefined;
