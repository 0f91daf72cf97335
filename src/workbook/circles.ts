import { type CellArea, usedBy } from '../formula/references.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { columnDependents, type Dependent, nameDependents } from './dependence.ts';
import { namedSheetOf } from './layout.ts';
import type { CellPlace } from './calculation.ts';
import { sheetRow } from './sheet-plan.ts';
import type { BookState } from './state.ts';

/**
 * Users' formulas that depend on their own result through the sheets' formulas.
 *
 * The engine sees circles among cells that users typed, but computed cells are plain values to it: a skive that is typed
 * as a share of the clamped thickness would go round and round, or settle on a number that no other program gives.
 */

interface Area extends CellArea {
  readonly sheet: string;
}

/** A column of a sheet, in one record or in all. */
interface Reach {
  readonly sheet: string;
  readonly column: number;
  readonly record: number | 'all';
}

/** Everything the sheets' formulas make of one cell, itself first. */
function reached({ sheet, record, column }: CellPlace, state: BookState): Reach[] {
  const itself: Reach = { sheet, column, record };
  const follow = ({ sheet: other, column: next, sameRecord }: Dependent): Reach => ({ sheet: other, column: next, record: sameRecord ? record : 'all' });
  if (namedSheetOf(sheet) === undefined) return [itself, ...columnDependents(sheet, column).map(follow)];
  const name = state.sheets.find((item) => item.name === sheet)?.rows[record]?.cells[0];
  return column === valueColumn && typeof name === 'string' ? [itself, ...nameDependents(name).map(follow)] : [itself];
}

const touches = (area: Area, { sheet, column, record }: Reach): boolean =>
  area.sheet === sheet && column >= area.left && column <= area.right &&
  (record === 'all' ? area.bottom >= 1 : area.top <= sheetRow(record) - 1 && area.bottom >= sheetRow(record) - 1);

/** Places (as `sheet!record,column`) of formulas on a circle that passes through a computed cell. */
export function circularCells(cells: readonly CellPlace[], state: BookState): Set<string> {
  const content = ({ sheet, record, column }: CellPlace): string => String(state.sheets.find((item) => item.name === sheet)?.rows[record]?.cells[column] ?? '');
  const place = ({ sheet, record, column }: CellPlace): string => `${sheet}!${record},${column}`;
  const uses = cells.map((cell) => {
    const { areas, names } = usedBy(content(cell)) ?? { areas: [], names: [] };
    return { areas: areas.map((area): Area => ({ ...area, sheet: area.sheet ?? cell.sheet })), names };
  });
  const next = cells.map((cell) => {
    const reach = reached(cell, state);
    const named = reach.flatMap(({ sheet, record }) =>
      namedSheetOf(sheet) !== undefined && record !== 'all' ? String(state.sheets.find((item) => item.name === sheet)?.rows[record]?.cells[0]) : [],
    );
    return uses.flatMap(({ areas, names }, index) =>
      areas.some((area) => reach.some((item) => touches(area, item))) || names.some((name) => named.includes(name)) ? [index] : [],
    );
  });
  const circular = new Set<string>();
  cells.forEach((cell, start) => {
    const seen = new Set<number>();
    const queue = [...(next[start] ?? [])];
    for (let index = queue.pop(); index !== undefined; index = queue.pop()) {
      if (seen.has(index)) continue;
      seen.add(index);
      queue.push(...(next[index] ?? []));
    }
    if (seen.has(start)) circular.add(place(cell));
  });
  return circular;
}
