import { exportBook, exporting } from '../exporting.ts';
import { actionList } from './action.ts';

export const fileActions = actionList([
  {
    id: 'import',
    group: 'Book',
    key: 'Ctrl+O',
    name: 'Import .xlsx …',
    doc: 'reads a list of belts in any layout and shows what it takes for what before anything changes',
    run(desk) {
      desk.importing.end();
      desk.open({ kind: 'import' });
    },
  },
  {
    id: 'export',
    group: 'Book',
    key: 'Ctrl+S',
    name: 'Export .xlsx',
    doc: 'a file of the whole book for any spreadsheet program, with live formulas',
    possible: () => !exporting(),
    run: exportBook,
  },
]);
