import { availableParallelism } from 'node:os';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { type BeltDraws, simulatedPart } from '../what-if/simulated-part.ts';
import { gathered, type Simulation } from '../what-if/simulation.ts';
import { dealtOut, simulationAsked, type SimulationTask } from '../what-if/simulation-task.ts';
import { Workbook } from '../workbook/workbook.ts';
import { isPartData, type PartData } from './simulation-part-data.ts';

/** A simulation dealt out to threads. Its numbers are the same for a seed, however many there are. */

/** Threads beyond which none is started: a book takes memory in each. */
const mostThreads = 4;

type Answer = { readonly done: number } | { readonly draws: readonly BeltDraws[] };

/** Works out a part, telling now and then which share of it is done. */
function worked(book: Workbook, task: Omit<SimulationTask, 'state'>, told: (share: number) => void): BeltDraws[] {
  const run = simulatedPart(book, simulationAsked(book, task));
  for (;;) {
    const step = run.next();
    if (step.done === true) return step.value;
    told(step.value);
  }
}

/** Does the part that this thread was started for. */
export function answerPart(): void {
  const data: unknown = workerData;
  if (!isPartData(data) || parentPort === null) return;
  const { state, ...task } = data.simulationPart;
  const draws = worked(new Workbook(state), task, () => undefined);
  parentPort.postMessage(
    { draws } satisfies Answer,
    draws.flatMap(({ fails, figures }) => [fails, ...figures].map((values) => values.buffer as ArrayBuffer)),
  );
}

function besides(task: SimulationTask): Promise<readonly BeltDraws[]> {
  return new Promise((done, fail) => {
    // The program that runs is the one that its threads run.
    const worker = new Worker(process.argv[1] ?? '', { workerData: { simulationPart: task } satisfies PartData });
    worker.on('message', (answer: Answer) => {
      if ('draws' in answer) done(answer.draws);
    });
    worker.on('error', fail);
    worker.on('exit', () => fail(new Error('a thread of the simulation ended before it had answered')));
  });
}

/** All draws of a task over the book that it was made from; `told` hears which share of them is done. */
export async function simulatedInThreads(
  book: Workbook,
  task: SimulationTask,
  told: (share: number) => void,
): Promise<Simulation> {
  const asked = simulationAsked(book, task);
  const [own = [], ...others] = dealtOut(task, Math.min(mostThreads, availableParallelism()));
  const beside = Promise.all(others.map((records) => besides({ ...task, records })));
  // A thread may fail while this one is at its own part; it is told when it is waited for.
  beside.catch(() => undefined);
  const here = worked(book, { ...task, records: own }, told);
  return gathered(book, asked, [...here, ...(await beside).flat()]);
}
