import { workerData } from 'node:worker_threads';
import type { SimulationTask } from '../what-if/simulation-task.ts';

/** What a thread is started with that does a part of a simulation; known without loading what does it. */
export interface PartData {
  readonly simulationPart: SimulationTask;
}

export const isPartData = (data: unknown): data is PartData =>
  typeof data === 'object' && data !== null && 'simulationPart' in data;

/** Whether this thread was started for a part of a simulation. */
export const isSimulationPart = isPartData(workerData as unknown);
