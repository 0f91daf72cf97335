import { parentPort } from 'node:worker_threads';
import type { ListData } from './part-model.ts';
import { answerTasks } from './part-workers.ts';

/** Works on parts of a list for as long as this thread lives. */
export function answerParts(data: ListData): void {
  if (parentPort !== null) answerTasks(data, parentPort);
}
