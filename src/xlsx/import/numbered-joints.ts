import { belts } from '../../../sheets/belts/index.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { cellText } from '../read/raw-cells.ts';
import type { ColumnMatch, ListColumn } from './column-matches.ts';

const countHeader: BeltHeader = 'Joints';

/** Whether records of one name have different figures in a column, as 1 and 2 for the first and second joint. */
function tellsApart(names: ListColumn, { cells }: ListColumn): boolean {
  const nameOf = new Map(names.cells.map((cell) => [cell.row, cellText(cell).trim().toLowerCase()]));
  const first = new Map<string, string>();
  return cells.some((cell) => {
    const name = nameOf.get(cell.row) ?? '';
    if (name === '') return false;
    const figure = cellText(cell).trim();
    const before = first.get(name);
    if (before === undefined) first.set(name, figure);
    return before !== undefined && before !== figure;
  });
}

/**
 * A list with a row for each joint numbers them within a belt: that is no count of joints, so it is not taken for one,
 * and the user is told what it may be.
 */
export function withoutNumberedJoints(
  matches: readonly ColumnMatch[],
  list: readonly ListColumn[],
): readonly ColumnMatch[] {
  const names = list[matches.findIndex(({ best }) => best?.column.header === belts.key)];
  return matches.map((match, index): ColumnMatch => {
    const [item, { best, ...others }] = [list[index], match];
    if (best?.column.header !== countHeader || match.chosen !== undefined || names === undefined || item === undefined)
      return match;
    return tellsApart(names, item)
      ? { ...others, doubt: 'it tells rows of one belt apart, so it numbers joints and does not count them' }
      : match;
  });
}
