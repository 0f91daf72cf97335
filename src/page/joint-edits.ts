import type { ownJoint } from '../advice/belt-skews.ts';
import { seriesColumn, seriesNames } from '../advice/skew-question.ts';
import { Belt } from '../records/belt.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** A joint that is looked at: its series and skew, and those that the belt has. */
export interface LookedAt {
  readonly own: ReturnType<typeof ownJoint>;
  readonly series: string;
  readonly skew: number;
}

/** What enters it: the skew, and the series where it is another. */
export function jointEdits(book: Workbook, record: number, { own, series, skew }: LookedAt): CellEdit[] {
  const belt = new Belt(book, record);
  const name = seriesNames(book).find((other) => String(other) === series) ?? series;
  return [...belt.editsAt(skew), ...(series === own.series ? [] : [{ ...belt.place(seriesColumn), content: name }])];
}
