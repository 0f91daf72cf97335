import type { Worksheet } from 'exceljs';
import { beltGroups } from '../../../sheets/belts/groups.ts';
import { belts } from '../../../sheets/belts/index.ts';
import type { BookColumn } from '../../workbook/declared.ts';

/** Columns of an exported sheet that fold away together: by subject, and within it what stands behind the figures. */

const groups: ReadonlyMap<string, string> = new Map<string, string>(
  beltGroups.flatMap(({ name, headers }) => headers.map((header) => [header, name] as const)),
);

/** What a reader looks for first stays in view however much is folded. */
const inView: ReadonlySet<string> = new Set(['Verdict', 'Findings']);

const behind = 2;
const ofSubject = 1;

/**
 * How deep each column lies in an outline: 0 stays, 1 folds under the first column of its subject, 2 lies behind. In
 * other sheets than Belts, whose columns have no subjects, 1 lies behind.
 */
export function outlineLevels(sheet: string, columns: readonly BookColumn[]): readonly number[] {
  let last = '';
  return columns.map(({ header, declared }) => {
    const isBehind = declared?.background === true;
    if (sheet !== belts.name) return isBehind ? 1 : 0;
    if (isBehind) return behind;
    const subject = declared === undefined || inView.has(header) ? '' : (groups.get(header) ?? '');
    const goesOn = subject !== '' && subject === last;
    last = subject;
    return goesOn ? ofSubject : 0;
  });
}

/** Has columns fold under the one to their left, and makes room for the signs that fold and unfold them. */
export function foldUnderLeft(sheet: Worksheet): void {
  sheet.properties.outlineProperties = { summaryBelow: true, summaryRight: false };
  sheet.properties.outlineLevelCol = behind;
}

/** Folds columns away, to be unfolded by the sign above the one to their left. */
export function foldColumns(sheet: Worksheet, columns: Iterable<number>): void {
  for (const index of columns) {
    const column = sheet.getColumn(index + 1);
    column.outlineLevel = 1;
    column.hidden = true;
  }
}
