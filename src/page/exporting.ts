import type { Desk } from './desk.ts';
import { download, plainName } from './downloading.ts';
import type { WriteAnswer, WriteOrder } from './workers/write-worker.ts';

/** The book as a file for other programs. */

let running: Worker | undefined;

const bookType = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export const fileName = (title: string): string => `${plainName(title) || 'Skewbook'}.xlsx`;

export const exporting = (): boolean => running !== undefined;

export function exportBook(desk: Desk): void {
  if (running !== undefined) return;
  const name = fileName(desk.book.state.title);
  const finish = (say: string, tone: 'note' | 'problem'): void => {
    running?.terminate();
    running = undefined;
    desk.say(say, tone);
  };
  running = new Worker(new URL('./workers/write-worker.ts', import.meta.url), { type: 'module' });
  running.addEventListener('message', (event: MessageEvent<WriteAnswer>) => {
    const answer = event.data;
    if (!answer.done) {
      finish(`${name} could not be written: ${answer.why}`, 'problem');
      return;
    }
    download(answer.bytes, bookType, name);
    const { length } = answer.otherwise;
    finish(
      length === 0
        ? `${name} was written.`
        : `${name} was written. ${length === 1 ? 'One thing stands' : `${length} things stand`} in it otherwise than ` +
            `here: its sheet About lists what.`,
      'note',
    );
  });
  running.addEventListener('error', (event) => finish(`${name} could not be written: ${event.message}`, 'problem'));
  desk.say(`Writing ${name} …`);
  running.postMessage({
    state: desk.book.state,
    ...(desk.findings.complete ? { findings: desk.findings.list } : {}),
  } satisfies WriteOrder);
}
