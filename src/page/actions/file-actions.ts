import { actionList } from './action.ts';
import { exportBook } from '../exporting.ts';

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
    possible: (desk) => !desk.exporting,
    run: exportBook,
  },
]);
