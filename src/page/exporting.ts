import { Background } from './background.ts';
import type { Desk } from './desk.ts';
import { bookType, download, fileName } from './downloading.ts';
import { rememberForm } from './form-memory.ts';
import { findingsTable } from './findings-table.ts';
import type { WriteAnswer, WriteOrder, WrittenAnswer } from './workers/write-worker.ts';

/** The book as a file for other programs. */

const writtenText = (name: string, { length }: WrittenAnswer['otherwise']): string =>
  length === 0
    ? `${name} was written.`
    : `${name} was written. ${length === 1 ? 'One item was' : `${length} items were`} exported differently: see its ` +
      `sheet About.`;

/** Puts the file where it belongs; its digest is what it is known again by. */
type Deliver = (file: Blob, digest: string) => Promise<void>;

function write(desk: Desk, name: string, order: WriteOrder, deliver: Deliver): void {
  if (desk.exporting !== undefined) return;
  let delivered: Promise<string> | undefined;
  const end = (text: string, tone: 'note' | 'problem'): void => {
    desk.exporting = undefined;
    desk.say(text, tone);
  };
  const failed = (why: string): void => end(`${name} could not be written: ${why}`, 'problem');
  const writing = new Background<'book', WriteAnswer>(
    (_, answer) => {
      if (answer.done === 'share') underWay(answer.share);
      else delivered = deliver(answer.file, answer.digest).then(() => writtenText(name, answer.otherwise));
    },
    () => {
      if (writing.has('book')) return;
      const why = writing.problems.get('book');
      if (why !== undefined) failed(why);
      else if (delivered === undefined) end(`${name} was not written: you stopped it.`, 'note');
      else
        void delivered.then(
          (text) => end(text, 'note'),
          (error: unknown) => failed(error instanceof Error ? error.message : String(error)),
        );
    },
  );
  const underWay = (share: number): void => {
    desk.exporting = { name, share, stop: () => writing.stop('book') };
    desk.changed();
  };
  underWay(0);
  writing.start('book', new Worker(new URL('./workers/write-worker.ts', import.meta.url), { type: 'module' }), order);
}

/** Writes the book as a file and remembers what it holds, for when the file comes back. */
export function writeBook(desk: Desk, name: string, deliver: Deliver): void {
  const { state } = desk.book;
  const mark = crypto.randomUUID();
  const findings = desk.findings.complete ? { findings: desk.findings.groups.all() } : {};
  write(desk, name, { state, mark, ...findings }, async (file, fileDigest) => {
    await deliver(file, fileDigest);
    const memory = { file: name, how: 'written' as const, fileDigest, mark, whole: true, headers: '' };
    await desk.library?.past.remember(memory, { state });
  });
}

const downloaded =
  (name: string): Deliver =>
  (file) => {
    download(file, bookType, name);
    return Promise.resolve();
  };

export function exportBook(desk: Desk): void {
  const name = fileName(desk.book.state.title, '.xlsx');
  writeBook(desk, name, downloaded(name));
}

/** The findings that are listed, as a file of their own. */
export function exportFindings(desk: Desk): void {
  const name = fileName(`${desk.book.state.title} findings`, '.xlsx');
  write(desk, name, { state: desk.book.state, table: findingsTable(desk) }, downloaded(name));
}

/** A blank list of belts, for a site that has only a spreadsheet program. */
export function exportBlankList(desk: Desk): void {
  const name = fileName('List of belts', '.xlsx');
  write(desk, name, { state: desk.book.state, form: 'blank' }, downloaded(name));
}

/** What the book holds of its belts, to be corrected on the spot and imported again. */
export function exportRoundSheet(desk: Desk): void {
  const name = fileName(`${desk.book.state.title} inspection round`, '.xlsx');
  write(desk, name, { state: desk.book.state, form: 'round' }, async (file, digest) => {
    await downloaded(name)(file, digest);
    await rememberForm(desk, name, new Uint8Array(await file.arrayBuffer()));
  });
}
