import type { ReferredCells } from '../../workbook/formula-references.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';
import { referredColours } from './cell-look.ts';
import { isCut } from './clipboard.ts';

/** Marks on cells that pass: what is cut, and what a formula refers to while it is typed. */

const holds = ({ sheet, top, bottom, left, right }: ReferredCells, place: CellPlace): boolean =>
  sheet === place.sheet &&
  place.record >= top &&
  place.record <= bottom &&
  place.column >= left &&
  place.column <= right;

/** The colour and line of a reference by its number; beyond the last they begin again. */
export const referredClass = (number: number): string => `referred-${(number % referredColours) + 1}`;

/** The sides of the frame that go along a cell. Of a single cell all four do. */
function sides({ top, bottom, left, right }: ReferredCells, { record, column }: CellPlace): string[] {
  return [
    ...(record === top ? ['referred-top'] : []),
    ...(record === bottom ? ['referred-bottom'] : []),
    ...(column === left ? ['referred-left'] : []),
    ...(column === right ? ['referred-right'] : []),
  ];
}

export function passingMarks({ referred }: Desk, place: CellPlace): string[] {
  const cut = isCut(place) ? ['cell-cut'] : [];
  // What is referred to last lies above.
  const found = referred.findLast(({ cells }) => holds(cells, place));
  return found === undefined
    ? cut
    : [...cut, 'cell-referred', referredClass(found.number), ...sides(found.cells, place)];
}
