import { actionList } from './action.ts';
import { exportCopy } from '../book-copy.ts';
import { exportBlankList, exportBook, exportRoundSheet } from '../exporting.ts';

export const fileActions = actionList([
  {
    id: 'import',
    group: 'Book',
    key: 'Ctrl+O',
    name: 'Import a list …',
    doc:
      'reads .xlsx, .ods, .csv or pasted rows in any layout and shows how each column is read before ' +
      'anything changes',
    run: (desk) => desk.open({ kind: 'import' }),
  },
  {
    id: 'export',
    group: 'Book',
    key: 'Ctrl+S',
    name: 'Export .xlsx',
    doc: 'saves the whole book as a file for any spreadsheet program, with live formulas',
    possible: (desk) => desk.exporting === undefined,
    run: exportBook,
  },
  {
    id: 'export-copy',
    group: 'Book',
    name: 'Copy for another browser',
    doc: 'saves the whole book as a .json file that only Skewbook imports: of any size, without calculated figures',
    possible: (desk) => desk.exporting === undefined,
    run: (desk) => void exportCopy(desk),
  },
  {
    id: 'blank-list',
    group: 'Book',
    name: 'Blank list for a site',
    doc: 'saves a list of belts to fill in: each header has its unit and a note, and each row says what is missing',
    possible: (desk) => desk.exporting === undefined,
    run: exportBlankList,
  },
  {
    id: 'round-sheet',
    group: 'Book',
    name: 'Inspection round sheet',
    doc: 'saves what the book holds of its belts, to be corrected on the spot and imported again',
    possible: (desk) => desk.exporting === undefined && desk.book.sheet('Belts').rows.length > 0,
    run: exportRoundSheet,
  },
]);
