import { aboutSheetName } from './about.ts';

/** Sheets of a file that are no sheets of the book. */

export const findingsSheetName = 'Findings';
export const functionsSheetName = 'Functions';

/** Sheets that are written anew with every export: nothing is read back from their cells but what About says. */
export const madeSheets: readonly string[] = [aboutSheetName, findingsSheetName, functionsSheetName];
