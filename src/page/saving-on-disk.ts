import type { Desk } from './desk.ts';
import { fileName } from './downloading.ts';
import { writeBook } from './exporting.ts';
import { bytesOnDisk, type DiskFile, mayWrite, placeOnDisk, writeOnDisk } from './library/disk-file.ts';
import { digestOf } from './library/packed-book.ts';

/** The book in a file on disk, which other programs may change too. */

/** Whether the file holds anything that this book has neither read nor written. */
async function changedElsewhere({ library }: Desk, file: DiskFile): Promise<boolean> {
  const bytes = await bytesOnDisk(file);
  if (bytes === undefined || bytes.byteLength === 0) return false;
  const digest = await digestOf(bytes);
  return library?.past.memories.every(({ fileDigest }) => fileDigest !== digest) ?? true;
}

/** Writes the book to its file, or with `elsewhere`, or without one, to a file that the user chooses. */
export async function saveOnDisk(desk: Desk, elsewhere: boolean): Promise<void> {
  const { library } = desk;
  if (library === undefined) return;
  const known = elsewhere ? undefined : await library.store.file(library.id);
  const file = known ?? (await placeOnDisk(fileName(desk.book.state.title, '.xlsx')));
  if (file === undefined) return;
  if (!(await mayWrite(file))) {
    desk.say(`${file.name} was not saved: the browser was not allowed to write it.`, 'problem');
    return;
  }
  if (known !== undefined && (await changedElsewhere(desk, file))) {
    desk.say(
      `${file.name} was not saved: it was changed on disk since this book read or wrote it. Take its changes in ` +
        `first ` +
        `(Book, Open a file on disk), or save to another file.`,
      'problem',
    );
    return;
  }
  writeBook(desk, file.name, async (written) => {
    await writeOnDisk(file, written);
    await library.store.setFile(library.id, file);
  });
}
