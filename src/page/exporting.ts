import type { Desk } from './desk.ts';
import type { WriteAnswer, WriteOrder } from './workers/write-worker.ts';

/** The book as a file for other programs. */

let running: Worker | undefined;

/** A name that every file system takes. */
export const fileName = (title: string): string => `${title.replaceAll(/[^\p{L}\p{N} ._-]+/gu, ' ').trim().replaceAll(/\s+/g, ' ') || 'Skewbook'}.xlsx`;

function download(bytes: Uint8Array, name: string): void {
  const link = document.createElement('a');
  const url = URL.createObjectURL(new Blob([bytes.slice()], { type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' }));
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

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
    download(answer.bytes, name);
    const { length } = answer.otherwise;
    finish(length === 0 ? `${name} was written.` : `${name} was written. ${length === 1 ? 'One thing stands' : `${length} things stand`} in it otherwise than here: its sheet About lists what.`, 'note');
  });
  running.addEventListener('error', (event) => finish(`${name} could not be written: ${event.message}`, 'problem'));
  desk.say(`Writing ${name} …`);
  running.postMessage({ state: desk.book.state, ...(desk.findings.complete ? { findings: desk.findings.list } : {}) } satisfies WriteOrder);
}
