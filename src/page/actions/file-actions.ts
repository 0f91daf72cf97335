import { exportBook, exporting } from '../exporting.ts';
import type { Action } from './action.ts';

export const fileActions: readonly Action[] = [
  {
    id: 'export', group: 'Book', key: 'Ctrl+S', name: 'Export .xlsx', doc: 'a file of the whole book for any spreadsheet program, with live formulas',
    possible: () => !exporting(),
    run: exportBook,
  },
];
