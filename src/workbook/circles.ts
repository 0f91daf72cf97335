import { type CellArea, usedBy } from '../formula/references.ts';
import { columnDependents, type Dependent, nameDependents } from './dependence.ts';
import { type CellPlace, placeKey } from './place.ts';
import { declarationOf } from './declared.ts';
import type { BookNames } from './names.ts';
import { sheetRow } from '../formula/address.ts';
import type { BookState } from './state.ts';

/**
 * Users' formulas that depend on their own result through the sheets' formulas.
 *
 * The engine sees circles among cells that users typed, but computed cells are plain values to it: a skive that is
 * typed as a share of the clamped thickness would go round and round, or settle on a number that no other program
 * gives.
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

/** Whether a change stays in its record: kin of a whole in the same sheet are the whole itself. */
const staysIn = (sheet: string, { sheet: other, reach }: Dependent): boolean =>
  reach === 'record' || (reach === 'kin' && sheet === other && declarationOf(sheet)?.partOf === undefined);

/** Everything the sheets' formulas make of one cell, itself first. */
function reached(cell: CellPlace, names: BookNames): Reach[] {
  const { sheet, record, column } = cell;
  const name = names.at(cell);
  const followers = name === undefined ? columnDependents(sheet, column) : nameDependents(name);
  return [
    cell,
    ...followers.map((next: Dependent): Reach => ({
      sheet: next.sheet,
      column: next.column,
      record: staysIn(sheet, next) ? record : 'all',
    })),
  ];
}

const touches = (area: Area, { sheet, column, record }: Reach): boolean =>
  area.sheet.toLowerCase() === sheet.toLowerCase() &&
  column >= area.left &&
  column <= area.right &&
  (record === 'all' ? area.bottom >= 1 : area.top <= sheetRow(record) - 1 && area.bottom >= sheetRow(record) - 1);

/** Places (as `placeKey` writes them) of formulas on a circle that passes through a computed cell. */
export function circularCells(cells: readonly CellPlace[], state: BookState, names: BookNames): Set<string> {
  const content = ({ sheet, record, column }: CellPlace): string =>
    String(state.sheets.find((item) => item.name === sheet)?.rows[record]?.cells[column] ?? '');
  const uses = cells.map((cell) => {
    const used = usedBy(content(cell)) ?? { areas: [], names: [] };
    return {
      areas: used.areas.map((area): Area => ({ ...area, sheet: area.sheet ?? cell.sheet })),
      called: used.names.map((name) => name.toLowerCase()),
    };
  });
  const next = cells.map((cell) => {
    const reach = reached(cell, names);
    const named = names.at(cell)?.toLowerCase();
    return uses.flatMap(({ areas, called }, index) =>
      areas.some((area) => reach.some((item) => touches(area, item))) || (named !== undefined && called.includes(named))
        ? [index]
        : [],
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
    if (seen.has(start)) circular.add(placeKey(cell));
  });
  return circular;
}
