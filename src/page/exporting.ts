import { Background } from './background.ts';
import type { Desk } from './desk.ts';
import { bookType, download, fileName } from './downloading.ts';
import type { WriteAnswer, WriteOrder } from './workers/write-worker.ts';

/** The book as a file for other programs. */

const writtenText = (name: string, { length }: WriteAnswer['otherwise']): string =>
  length === 0
    ? `${name} was written.`
    : `${name} was written. ${length === 1 ? 'One item was' : `${length} items were`} exported differently: see its ` +
      `sheet About.`;

export function exportBook(desk: Desk): void {
  if (desk.exporting) return;
  const name = fileName(desk.book.state.title, '.xlsx');
  let written = '';
  const writing = new Background<'book', WriteAnswer>(
    (_, { bytes, otherwise }) => {
      download(bytes, bookType, name);
      written = writtenText(name, otherwise);
    },
    () => {
      if (writing.has('book')) return;
      desk.exporting = false;
      const why = writing.problems.get('book');
      if (why === undefined) desk.say(written);
      else desk.say(`${name} could not be written: ${why}`, 'problem');
    },
  );
  desk.exporting = true;
  desk.say(`Writing ${name} …`);
  writing.start('book', new Worker(new URL('./workers/write-worker.ts', import.meta.url), { type: 'module' }), {
    state: desk.book.state,
    ...(desk.findings.complete ? { findings: desk.findings.list } : {}),
  } satisfies WriteOrder);
}
