import { describe, expect, test } from 'vitest';
import { usedBy } from '../../src/formula/references.ts';
import { isFault } from '../../src/formula/values.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { circularCells } from '../../src/workbook/circles.ts';
import { bookColumns, emptyBook } from '../../src/workbook/declared.ts';
import { columnDependents, nameDependents } from '../../src/workbook/dependence.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { BookNames } from '../../src/workbook/names.ts';
import { type CellPlace, placeKey } from '../../src/workbook/place.ts';
import { type BookState, contentAt, sheetOf } from '../../src/workbook/state.ts';
import { withFreeSheet } from '../../src/workbook/free-sheets.ts';
import { withContents, withSheet } from '../../src/workbook/state-changes.ts';
import { nodesOnCircles } from '../../src/workbook/strong-components.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Circles through computed cells: the same as by looking at every pair of formulas, in a fraction of the time. */

/** Every formula beside every other. */
function circularByPairs(cells: readonly CellPlace[], state: BookState, names: BookNames): Set<string> {
  const next = cells.map((cell) => {
    const name = names.at(cell);
    const followers = name === undefined ? columnDependents(cell.sheet, cell.column) : nameDependents(name);
    const reach = [
      { ...cell, record: cell.record as number | 'all' },
      ...followers.map(({ sheet, column, reach: far }) => ({
        sheet,
        column,
        record:
          far === 'record' || (far === 'kin' && sheet === cell.sheet && sheet !== 'Pulleys') ? cell.record : 'all',
      })),
    ];
    return cells.flatMap((other, index) => {
      const used = usedBy(String(contentAt(state, other))) ?? { areas: [], names: [] };
      const touched = used.areas.some((area) =>
        reach.some(
          ({ sheet, column, record }) =>
            (area.sheet ?? other.sheet).toLowerCase() === sheet.toLowerCase() &&
            column >= area.left &&
            column <= area.right &&
            (typeof record === 'string' ? area.bottom >= 1 : area.top <= record + 1 && area.bottom >= record + 1),
        ),
      );
      return touched || (name !== undefined && used.names.some((item) => item.toLowerCase() === name.toLowerCase()))
        ? [index]
        : [];
    });
  });
  return new Set(
    cells.flatMap((cell, start) => {
      const seen = new Set<number>();
      const queue = [...(next[start] ?? [])];
      for (let index = queue.pop(); index !== undefined; index = queue.pop()) {
        if (seen.has(index)) continue;
        seen.add(index);
        queue.push(...(next[index] ?? []));
      }
      return seen.has(start) ? [placeKey(cell)] : [];
    }),
  );
}

const withRecords = (state: BookState, sheet: string, count: number): BookState =>
  withSheet(state, sheet, (item) => ({
    ...item,
    rows: Array.from({ length: count }, () => ({ cells: bookColumns(item).map(() => null) })),
  }));

const empty = withFreeSheet(withRecords(withRecords(emptyBook('metric'), 'Belts', 4), 'Pulleys', 3), 'Free', 4, 5);

test('random formulas give the circles that pairs of them give', () => {
  const numbers = randomNumbers(1972);
  const below = (count: number): number => Math.floor(numbers() * count);
  const names = new BookNames(empty);
  const sheets = ['Belts', 'Pulleys', 'Free'].map((name) => ({
    name,
    columns: bookColumns(sheetOf(empty, name)).length,
  }));
  let circles = 0;
  for (let run = 0; run < 150; run += 1) {
    const cell = (): { sheet: string; column: number; record: number } => {
      const { name, columns } = sheets[below(sheets.length)] ?? { name: 'Free', columns: 4 };
      return { sheet: name, column: below(columns), record: below(sheetOf(empty, name).rows.length) };
    };
    const reference = (): string => {
      const { sheet, column, record } = cell();
      const start = `${sheet}!${columnLetters(column)}`;
      const kind = below(4);
      if (kind === 0) return `SUM(${start}:${columnLetters(column + below(9))})`;
      if (kind === 1) return `SUM(${start}${record + 1}:${columnLetters(column + below(3))}${record + 1 + below(4)})`;
      return `${start}${record + 2}`;
    };
    const edits = new Map<string, CellPlace & { content: string }>();
    for (let index = 0; index < 2 + below(25); index += 1) {
      const place = cell();
      edits.set(placeKey(place), { ...place, content: `=${reference()}+${reference()}` });
    }
    const named = sheetOf(empty, 'Assumptions').rows.length;
    const assumption = { sheet: 'Assumptions', record: below(named), column: 1 };
    edits.set(placeKey(assumption), { ...assumption, content: `=${reference()}` });
    const cells = [...edits.values()];
    const state = withContents(empty, cells);
    const found = circularCells(cells, state, names);
    circles += found.size;
    expect([...found].toSorted(), `run ${run}`).toEqual([...circularByPairs(cells, state, names)].toSorted());
  }
  expect(circles).toBeGreaterThan(100);
});

// What grows with the square of the rows takes minutes here, more than a test may.
describe('large books of formulas are computed in time', () => {
  const rows = 20_000;
  const book = (content: (record: number, column: number) => string | number): BookState =>
    withSheet(withFreeSheet(emptyBook('metric'), 'Free', 2, rows), 'Free', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map((_, record) => ({ cells: [content(record, 0), content(record, 1)] })),
    }));
  const last = (made: Workbook, column: number): unknown => {
    const value = made.shown({ sheet: 'Free', record: rows - 1, column });
    return isFault(value) ? value.code : value;
  };

  test('a chain', () => {
    const made = new Workbook(book((record, column) => (column === 0 ? (record === 0 ? 1 : `=A${record + 1}+1`) : 0)));
    expect(last(made, 0)).toBe(rows);
    made.edit([{ sheet: 'Free', record: rows - 1, column: 1, content: '=1+1' }]);
    expect(last(made, 1)).toBe(2);
    made.destroy();
  });

  test('running totals', () => {
    const made = new Workbook(book((record, column) => (column === 0 ? 1 : `=SUM(A$2:A${record + 2})`)));
    expect(last(made, 1)).toBe(rows);
    made.destroy();
  });

  test('a circle through all', () => {
    const made = new Workbook(
      book((record, column) => (column === 0 ? (record === 0 ? `=A${rows + 1}` : `=A${record + 1}+1`) : 0)),
    );
    expect(last(made, 0)).toBe('#CYCLE!');
    made.destroy();
  });
});

test('a way of a hundred thousand nodes needs no stack', () => {
  const count = 100_000;
  const way = Array.from({ length: count }, (_, node) => (node + 1 < count ? [node + 1] : [0]));
  expect(nodesOnCircles(way).every((on) => on === 1)).toBe(true);
  expect(nodesOnCircles(way.with(count - 1, [])).some((on) => on === 1)).toBe(false);
  expect([...nodesOnCircles([[0], [2], [1], [1]])]).toEqual([1, 1, 1, 0]);
});
