import type { Desk } from '../desk.ts';
import { canOpenOnDisk, canSaveOnDisk, openedOnDisk } from '../library/disk-file.ts';
import { saveOnDisk } from '../saving-on-disk.ts';
import { actionList } from './action.ts';

/** The books of this browser, their past, and the files on disk that they are saved to. */

const kept = (desk: Desk): boolean => desk.library !== undefined;

const tell =
  (desk: Desk, what: string) =>
  (error: unknown): void =>
    desk.say(`${what}: ${error instanceof Error ? error.message : String(error)}`, 'problem');

export const libraryActions = actionList([
  {
    id: 'books',
    group: 'Book',
    key: 'Alt+Shift+Y',
    name: 'Books …',
    doc: 'the books that this browser keeps: open, duplicate, rename, delete, bring back',
    possible: kept,
    run(desk) {
      void desk.library?.refresh();
      desk.open({ kind: 'books' });
    },
  },
  {
    id: 'versions',
    group: 'Book',
    key: 'Alt+Shift+H',
    name: 'Versions …',
    doc: 'how this book was at earlier times: look at it, compare with it, bring it back',
    possible: kept,
    run(desk) {
      void desk.library?.past.refresh();
      desk.open({ kind: 'versions' });
    },
  },
  {
    id: 'save-file',
    group: 'Book',
    key: 'Ctrl+Shift+S',
    name: 'Save to a file on disk',
    doc: 'writes the book to its file, without a download each time; asks for the file the first time',
    possible: (desk) => kept(desk) && canSaveOnDisk() && desk.exporting === undefined,
    run: (desk) => void saveOnDisk(desk, false).catch(tell(desk, 'The file could not be saved')),
  },
  {
    id: 'save-file-as',
    group: 'Book',
    name: 'Save to another file …',
    doc: 'writes the book to a file that you choose, and to that one from then on',
    possible: (desk) => kept(desk) && canSaveOnDisk() && desk.exporting === undefined,
    run: (desk) => void saveOnDisk(desk, true).catch(tell(desk, 'The file could not be saved')),
  },
  {
    id: 'open-file',
    group: 'Book',
    name: 'Open a file on disk …',
    doc: 'reads an exported book such that it can be saved to the same file again',
    possible: (desk) => kept(desk) && canOpenOnDisk(),
    run: (desk) =>
      void openedOnDisk().then(
        (onDisk) => {
          if (onDisk !== undefined) desk.open({ kind: 'import', onDisk });
        },
        tell(desk, 'The file could not be opened'),
      ),
  },
]);
