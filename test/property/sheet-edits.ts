import fc from 'fast-check';
import { isFault } from '../../src/formula/values.ts';
import { Desk } from '../../src/page/desk.ts';
import { copyBlock, pasteBlock } from '../../src/page/grid/clipboard.ts';
import { fillBlock } from '../../src/page/grid/filling.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { type Plain, PlainGrid, type Rectangle } from '../oracles/plain-grid.ts';

/** Random work on two free sheets, done to a book and to the plain model, which must stay alike. */

const names = ['One', 'Two'] as const;
const [rows, columns] = [5, 4];

const chances = fc.record({
  act: fc.constantFrom(
    'number',
    'number',
    'formula',
    'formula',
    'formula',
    'cut',
    'cut',
    'copy',
    'fill',
    'insert',
    'remove',
    'undo',
    'redo',
  ),
  sheet: fc.constantFrom(...names),
  other: fc.constantFrom(...names),
  row: fc.nat(20),
  column: fc.nat(20),
  down: fc.nat(20),
  right: fc.nat(20),
  tall: fc.integer({ min: 1, max: 3 }),
  wide: fc.integer({ min: 1, max: 2 }),
  pin: fc.record({ row: fc.boolean(), column: fc.boolean() }),
  axis: fc.constantFrom('row' as const, 'column' as const),
  number: fc.integer({ min: -9, max: 99 }),
});
type Chance = typeof chances extends fc.Arbitrary<infer Item> ? Item : never;

export const work = fc.array(chances, { minLength: 4, maxLength: 24 });

const all = (count: number, from: number): number[] => Array.from({ length: count }, (_, index) => from + index);

class Bench {
  readonly book = new Workbook(emptyBook('metric'));
  readonly desk: Desk;
  model = PlainGrid.of(names, rows, columns);
  readonly #done: PlainGrid[] = [];
  #undone: PlainGrid[] = [];

  constructor() {
    for (const name of names) this.book.addSheet(name, columns, rows);
    this.desk = new Desk(this.book);
    this.desk.say = () => undefined;
  }

  size(sheet: string): { height: number; width: number } {
    const { rows: down, columns: right } = this.model.sheet(sheet);
    return { height: down.length, width: right.length };
  }

  /** Does it to a copy of the model first: what would go in a circle, or leave the sheet, is not done at all. */
  try(change: (model: PlainGrid) => boolean, toBook: () => void): void {
    const next = this.model.clone();
    if (!change(next) || next.circular) return;
    const before = this.book.state;
    toBook();
    if (this.book.state === before) return;
    this.#done.push(this.model);
    this.#undone = [];
    this.model = next;
  }

  undo(): void {
    const last = this.#done.pop();
    if (last === undefined) return;
    this.#undone.push(this.model);
    this.book.undo();
    this.model = last;
  }

  redo(): void {
    const next = this.#undone.pop();
    if (next === undefined) return;
    this.#done.push(this.model);
    this.book.redo();
    this.model = next;
  }

  paste(from: Rectangle, to: string, down: number, right: number, cut: boolean): void {
    const block = { sheet: from.sheet, records: all(from.rows, from.row), columns: all(from.columns, from.column) };
    pasteBlock(this.desk, { sheet: to, records: [down], columns: [right] }, copyBlock(this.book, block, cut), {
      rows: () => this.size(to).height,
      recordOf: (row) => row,
      rowOf: (record) => record,
      columns: () => this.size(to).width,
      columnOf: (column) => column,
      columnAt: (position) => position,
    });
  }

  /** What differs between the two; undefined for nothing. */
  difference(): string | undefined {
    for (const { sheet, row, column } of this.model.cells()) {
      const place = { sheet, record: row, column };
      const [text, wanted] = [this.book.content(place), this.model.text(sheet, row, column)];
      if (written(text, sheet) !== wanted) return `${sheet} ${row} ${column}: ${String(text)} for ${String(wanted)}`;
      const value = this.book.value(place);
      const plain = isFault(value) ? value.code : (value ?? 0);
      if (plain !== this.model.value(sheet, row, column))
        return `${sheet} ${row} ${column}: ${String(plain)} for ${String(this.model.value(sheet, row, column))}`;
    }
    for (const { name } of this.model.sheets)
      if (this.book.sheet(name).rows.length !== this.size(name).height) return `${name} has other rows`;
    return undefined;
  }
}

/** A formula with the name of its own sheet before references that have none. */
const written = (content: unknown, sheet: string): unknown =>
  typeof content === 'string' && content.startsWith('=')
    ? content.replaceAll(/(?<![!A-Z$:\d])(\$?[A-Z]\$?\d+)/g, `${sheet}!$1`)
    : content;

function formulaOf(bench: Bench, chance: Chance): Plain {
  const { other, sheet, down, right, tall, wide, pin, number } = chance;
  const { height, width } = bench.size(other);
  const own = bench.size(sheet);
  const [top, left] = [down % own.height, right % own.width];
  return {
    constant: number,
    pin,
    cell: bench.model.spot(other, down % height, right % width),
    range: {
      from: bench.model.spot(sheet, top, left),
      to: bench.model.spot(sheet, Math.min(own.height - 1, top + tall - 1), Math.min(own.width - 1, left + wide - 1)),
    },
  };
}

function fill(bench: Bench, { sheet, row, column, tall, wide }: Chance): void {
  const { height, width } = bench.size(sheet);
  const [top, right] = [row % height, column % width];
  const count = Math.min(tall, height - top);
  const ahead = all(Math.min(wide + 1, height - top - count), top + count);
  if (ahead.length === 0) return;
  bench.try(
    (model) => {
      const line = all(count, top).map((record) => model.content(sheet, record, right));
      const numbers = line.filter((content): content is number => typeof content === 'number');
      const step = (numbers[1] ?? 0) - (numbers[0] ?? 0);
      const series =
        numbers.length === count && count > 1 && numbers.every((item, at) => item === (numbers[0] ?? 0) + at * step);
      return ahead.every((record, index) => {
        const from = line[index % count] ?? null;
        const copied = series
          ? (numbers[0] ?? 0) + (count + index) * step
          : model.copied(from, record - (top + (index % count)), 0, sheet);
        if (copied === undefined) return false;
        model.put(sheet, record, right, copied);
        return true;
      });
    },
    () =>
      fillBlock(
        bench.desk,
        { sheet, records: all(count, top), columns: [right] },
        { sheet, records: ahead, columns: [right] },
        false,
      ),
  );
}

function copy(bench: Bench, { sheet, row, column, down, right, tall, wide }: Chance): void {
  const { height, width } = bench.size(sheet);
  const from = { sheet, row: row % height, column: column % width, rows: tall, columns: wide };
  const block = { ...from, rows: Math.min(tall, height - from.row), columns: Math.min(wide, width - from.column) };
  // One beyond the last row and column at times, where the sheet has to grow.
  const [toRow, toColumn] = [down % (height + 1), right % (width + 1)];
  bench.try(
    (model) => {
      const contents = all(block.rows, block.row).map((r) =>
        all(block.columns, block.column).map((c) => model.content(sheet, r, c)),
      );
      const filled = contents.flatMap((line, r) => line.flatMap((content, c) => (content === null ? [] : [[r, c]])));
      const reach = (axis: 0 | 1): number => Math.max(0, ...filled.map((at) => (at[axis] ?? 0) + 1));
      model.grow(sheet, filled.length === 0 ? 0 : toRow + reach(0), filled.length === 0 ? 0 : toColumn + reach(1));
      const { rows: tallNow, columns: wideNow } = model.sheet(sheet);
      return contents.every((line, r) =>
        line.every((content, c) => {
          const copied = model.copied(content, toRow - block.row, toColumn - block.column, sheet);
          if (copied === undefined) return false;
          if (toRow + r < tallNow.length && toColumn + c < wideNow.length)
            model.put(sheet, toRow + r, toColumn + c, structuredClone(copied));
          return true;
        }),
      );
    },
    () => bench.paste(block, sheet, toRow, toColumn, false),
  );
}

function cut(bench: Bench, { sheet, other, row, column, down, right, tall, wide }: Chance): void {
  const { height, width } = bench.size(sheet);
  const [top, left] = [row % height, column % width];
  const block = {
    sheet,
    row: top,
    column: left,
    rows: Math.min(tall, height - top),
    columns: Math.min(wide, width - left),
  };
  const there = bench.size(other);
  const [toRow, toColumn] = [
    down % Math.max(1, there.height - block.rows + 1),
    right % Math.max(1, there.width - block.columns + 1),
  ];
  if (toRow + block.rows > there.height || toColumn + block.columns > there.width) return;
  bench.try(
    (model) => {
      model.move(block, other, toRow, toColumn);
      return true;
    },
    () => bench.paste(block, other, toRow, toColumn, true),
  );
}

function step(bench: Bench, chance: Chance): void {
  const { act, sheet, row, column, axis, number } = chance;
  const { height, width } = bench.size(sheet);
  const place = { sheet, record: row % height, column: column % width };
  const at = axis === 'row' ? place.record : place.column;
  switch (act) {
    case 'number':
    case 'formula':
      bench.try(
        (model) => {
          model.put(sheet, place.record, place.column, act === 'number' ? number : formulaOf(bench, chance));
          return true;
        },
        () => {
          const typed = bench.model.clone();
          typed.put(sheet, place.record, place.column, act === 'number' ? number : formulaOf(bench, chance));
          bench.book.edit([{ ...place, content: typed.text(sheet, place.record, place.column) }]);
        },
      );
      return;
    case 'insert':
      bench.try(
        (model) => {
          model.insert(sheet, axis, at);
          return true;
        },
        () =>
          axis === 'row'
            ? bench.book.addRecords(sheet, at)
            : bench.book.addColumn(sheet, `New ${number} ${row}`, 'number', at),
      );
      return;
    case 'remove':
      if ((axis === 'row' ? height : width) < 3) return;
      bench.try(
        (model) => {
          model.remove(sheet, axis, at);
          return true;
        },
        () => (axis === 'row' ? bench.book.removeRecords(sheet, at, 1) : bench.book.removeColumn(sheet, at)),
      );
      return;
    case 'fill':
      fill(bench, chance);
      return;
    case 'copy':
      copy(bench, chance);
      return;
    case 'cut':
      cut(bench, chance);
      return;
    case 'undo':
      bench.undo();
      return;
    case 'redo':
      bench.redo();
  }
}

/** Does the work to both; throws at the first step after which they differ. */
export function alike(list: readonly Chance[]): void {
  const bench = new Bench();
  try {
    for (const chance of list) {
      step(bench, chance);
      const difference = bench.difference();
      if (difference !== undefined) throw new Error(`after ${chance.act}: ${difference}`);
    }
    // All the way back, the sheets are empty as they were.
    for (let count = 0; count < list.length; count += 1) bench.undo();
    const difference = bench.difference();
    if (difference !== undefined) throw new Error(`after all was undone: ${difference}`);
  } finally {
    bench.book.destroy();
  }
}
