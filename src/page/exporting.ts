import { Background } from './background.ts';
import type { Desk } from './desk.ts';
import { bookType, download, fileName } from './downloading.ts';
import { findingsTable } from './findings-table.ts';
import type { WriteAnswer, WriteOrder } from './workers/write-worker.ts';

/** The book as a file for other programs. */

const writtenText = (name: string, { length }: WriteAnswer['otherwise']): string =>
  length === 0
    ? `${name} was written.`
    : `${name} was written. ${length === 1 ? 'One item was' : `${length} items were`} exported differently: see its ` +
      `sheet About.`;

function write(desk: Desk, name: string, order: Omit<WriteOrder, 'state'>): void {
  if (desk.exporting) return;
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
    ...order,
  } satisfies WriteOrder);
}

export const exportBook = (desk: Desk): void =>
  write(desk, fileName(desk.book.state.title, '.xlsx'), desk.findings.complete ? { findings: desk.findings.list } : {});

/** The findings that are listed, as a file of their own. */
export const exportFindings = (desk: Desk): void =>
  write(desk, fileName(`${desk.book.state.title} findings`, '.xlsx'), { table: findingsTable(desk) });

/** A blank list of belts, for a site that has only a spreadsheet program. */
export const exportBlankList = (desk: Desk): void => write(desk, fileName('List of belts', '.xlsx'), { form: 'blank' });

/** What the book holds of its belts, to be corrected on the spot and imported again. */
export const exportRoundSheet = (desk: Desk): void =>
  write(desk, fileName(`${desk.book.state.title} inspection round`, '.xlsx'), { form: 'round' });
