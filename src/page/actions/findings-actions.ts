import { exportFindings } from '../exporting.ts';
import { printFindings } from '../printing.ts';
import { actionList } from './action.ts';

/** The findings as they are listed, on paper and as a file. */
export const findingsActions = actionList([
  {
    id: 'print-findings',
    group: 'Book',
    name: 'Print the findings …',
    doc: 'prints the findings that are listed, with room for what was done, by whom and when',
    possible: ({ findings }) => findings.groups.count > 0,
    run: printFindings,
  },
  {
    id: 'export-findings',
    group: 'Book',
    name: 'Export the findings',
    doc: 'saves the findings that are listed as a file for any spreadsheet program',
    possible: ({ findings, exporting }) => findings.complete && findings.groups.count > 0 && exporting === undefined,
    run: exportFindings,
  },
]);
