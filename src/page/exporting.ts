import { Background } from './background.ts';
import { grouped } from '../xlsx/read/read-limits.ts';
import type { Desk } from './desk.ts';
import { bookType, download, fileName } from './downloading.ts';
import { rememberForm } from './form-memory.ts';
import { findingsNow } from './findings-list.ts';
import { findingsTable } from './findings-table.ts';
import type { WriteAnswer, WriteOrder, WrittenAnswer } from './workers/write-worker.ts';

/** The book as a file for other programs. */

const writtenText = (name: string, { length }: WrittenAnswer['otherwise']): string =>
  length === 0
    ? `${name} was written.`
    : `${name} was written. ${length === 1 ? 'One item was' : `${length} items were`} exported differently: see its ` +
      `sheet About.`;

/** Rows of a table, and belts of a round sheet, at most: each cell is an object while it is written. Ours. */
const [mostRows, mostBelts] = [60_000, 20_000];

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
  const rows = findingsNow(desk).reduce((sum, { all }) => sum + all.length, 0);
  if (rows > mostRows)
    desk.say(
      `${name} was not written: it would have ${grouped(rows)} rows; the maximum is ${grouped(mostRows)}. Choose a ` +
        `verdict, a check or an area, or export the book, whose sheet Findings has all of them.`,
      'problem',
    );
  else write(desk, name, { state: desk.book.state, table: findingsTable(desk) }, downloaded(name));
}

/** A blank list of belts, for a site that has only a spreadsheet program. */
export function exportBlankList(desk: Desk): void {
  const name = fileName('List of belts', '.xlsx');
  write(desk, name, { state: desk.book.state, form: 'blank' }, downloaded(name));
}

/** What the book holds of its belts, to be corrected on the spot and imported again. */
export function exportRoundSheet(desk: Desk): void {
  const name = fileName(`${desk.book.state.title} inspection round`, '.xlsx');
  const belts = desk.book.sheet('Belts').rows.length;
  if (belts > mostBelts) {
    desk.say(
      `${name} was not written: a round sheet has at most ${grouped(mostBelts)} belts; this book has ` +
        `${grouped(belts)}. Keep a book for each site, or export the book and pass on a part of its sheet Belts.`,
      'problem',
    );
    return;
  }
  write(desk, name, { state: desk.book.state, form: 'round' }, async (file, digest) => {
    await downloaded(name)(file, digest);
    await rememberForm(desk, name, new Uint8Array(await file.arrayBuffer()));
  });
}
