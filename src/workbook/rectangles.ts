import type { CellPlace } from './place.ts';

/** Cells of one sheet that fill a rectangle. */
interface Rectangle {
  readonly sheet: string;
  readonly record: number;
  readonly column: number;
  readonly records: number;
  readonly columns: number;
}

/** Scattered cells as few rectangles: the engine takes one rectangle far faster than its cells one by one. */
export function rectangles(cells: readonly CellPlace[]): Rectangle[] {
  const sorted = cells.toSorted((a, b) =>
    a.sheet < b.sheet ? -1 : a.sheet > b.sheet ? 1 : a.record - b.record || a.column - b.column,
  );
  const strips: Rectangle[] = [];
  for (const { sheet, record, column } of sorted) {
    const last = strips.at(-1);
    if (last !== undefined && last.sheet === sheet && last.record === record && column <= last.column + last.columns) {
      strips[strips.length - 1] = { ...last, columns: Math.max(last.columns, column - last.column + 1) };
    } else strips.push({ sheet, record, column, records: 1, columns: 1 });
  }
  const whole: Rectangle[] = [];
  for (const strip of strips) {
    const above = whole.findLast(
      (item) => item.sheet === strip.sheet && item.column === strip.column && item.columns === strip.columns,
    );
    if (above !== undefined && above.record + above.records === strip.record)
      whole[whole.indexOf(above)] = { ...above, records: above.records + 1 };
    else whole.push(strip);
  }
  return whole;
}
