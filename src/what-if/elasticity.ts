import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { recordInRow } from '../formula/address.ts';
import { isFault } from '../formula/values.ts';
import type { Belt } from '../records/belt.ts';
import { headerPosition } from '../workbook/declared.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { followingSteps } from '../workbook/dependence.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import { type Factor, factorValue } from './factor.ts';
import { slopeIn, type Slopes } from './slopes.ts';

/** How a belt's figure grows with a factor, at the values that the book has now. */
export interface Growth {
  /** Units of the figure for one unit of the factor. */
  readonly slope: number;
  /** Per cent of the figure for one per cent of the factor; undefined where either is 0. */
  readonly elasticity: number | undefined;
}

/** Every record that follows with a belt's: its own, its pulleys', and those between a named value and them. */
function recordsOf(belt: Belt, sheet: string): readonly number[] {
  if (sheet === belts.name) return [belt.record];
  const whole = compiledSheets.get(sheet)?.declaration.partOf;
  const records = [...belt.book.sheet(sheet).rows.keys()];
  if (whole?.sheet !== belts.name) return records;
  const column = headerPosition(sheet, whole.header);
  const name = belt.name.toLowerCase();
  return records.filter((record) => {
    const held = belt.book.value({ sheet, record, column });
    return !isFault(held) && String(held ?? '').toLowerCase() === name;
  });
}

/**
 * The derivative of a belt's column by a factor, along all formulas between them. Undefined where the two are no
 * numbers, or the column does not follow.
 *
 * Where it stops: cells that hold something of the user's (an override, a formula in an input) stay as they are.
 */
export function growth(belt: Belt, header: BeltHeader, factor: Factor): Growth | undefined {
  const { book } = belt;
  const [from, to] = [factorValue(factor, belt), belt.value(header)];
  const wanted = book.column(belts.name, header);
  if (typeof from !== 'number' || typeof to !== 'number' || !factor.columns.has(wanted)) return undefined;
  const found = new Map<string, number>();
  if (factor.of !== 'book') found.set(placeKey(factor.place(belt)), 1);
  const slopes: Slopes = {
    named: (name) => (factor.of === 'book' && name.toLowerCase() === factor.name.toLowerCase() ? 1 : 0),
    cell: (sheet, column, row) =>
      found.get(placeKey({ sheet, record: recordInRow(row), column: headerPosition(sheet, column) })) ?? 0,
  };
  const steps = followingSteps(belts.name, {
    columns: factor.of === 'belt' ? [factor.place(belt).column] : [],
    names: factor.of === 'book' ? [factor.name] : [],
    others: factor.of === 'cell' ? [factor.place(belt)] : [],
    wanted: [wanted],
  });
  for (const { plan, column } of steps) {
    const { name: sheet } = plan.declaration;
    const tree = plan.trees.get(column)?.guarded;
    if (tree === undefined) continue;
    for (const record of recordsOf(belt, sheet)) {
      const place: CellPlace = { sheet, record, column };
      if (book.content(place) !== null) continue;
      const grow = slopeIn(tree, sheet, plan.scope, slopes, record);
      let slope = 0;
      book.partValue(place, (row, values) => {
        slope = grow(row, values);
        return null;
      });
      if (slope !== 0) found.set(placeKey(place), slope);
    }
  }
  const slope = found.get(placeKey(belt.place(header))) ?? 0;
  return { slope, elasticity: from === 0 || to === 0 ? undefined : (slope * from) / to };
}
