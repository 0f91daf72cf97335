import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { rounded, roundedByDigits } from '../../src/formula/decimal-rounding.ts';
import { caseValue } from '../../src/formula/case-values.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { CellPlace } from '../../src/workbook/place.ts';
import { BookNames } from '../../src/workbook/names.ts';
import type { CaseCell } from '../../src/workbook/supposed-cases.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { isWords } from '../../src/units/quantities.ts';

/** Many cases at once come to what each comes to alone, to the last bit and the last word of an error. */

const random = randomNumbers(20_261_127);
const pick = <Item>(list: readonly Item[]): Item | undefined => list[Math.floor(random() * list.length)];

/** A number about the present one, at times far from it, of the other sign or none. */
function wild(value: number): number {
  const chance = random();
  if (chance < 0.03) return 0;
  if (chance < 0.06) return -value;
  if (chance < 0.1) return value * 100;
  if (chance < 0.2) return Math.round(value * (0.5 + random()));
  return value * (0.7 + 0.6 * random());
}

/** The demo with cells that hold nothing, a word or another number where they should not. */
function damaged(): Workbook {
  const book = new Workbook(demoBook('metric'));
  const contents = [null, 'about 5', 0, -3, 1e9, 12];
  const edits = Array.from({ length: 60 }, () => {
    const sheet = random() < 0.8 ? belts : pulleys;
    const inputs = sheet.columns.flatMap((column, at) => (isComputed(column) || at === 0 ? [] : [at]));
    const record = Math.floor(random() * book.sheet(sheet.name).rows.length);
    return { sheet: sheet.name, record, column: pick(inputs) ?? 1, content: pick(contents) ?? null };
  });
  book.edit(edits);
  return book;
}

const numbersAt = (book: Workbook, places: readonly CellPlace[]): CellPlace[] =>
  places.filter((place) => typeof book.value(place) === 'number' && !book.overridden(place));

const inputsOf = (
  book: Workbook,
  { name, columns }: typeof belts | typeof pulleys | typeof plateSeries,
  record: number,
): CellPlace[] =>
  numbersAt(
    book,
    columns.flatMap((column, at) =>
      isComputed(column) || isWords(column.kind) ? [] : [{ sheet: name, record, column: at }],
    ),
  );

const told = (value: Value): Value => (isFault(value) ? `${value.code} ${value.message}` : value);

/** What differs for one record, in words; empty where all cases are as they are alone. */
function differences(book: Workbook, record: number, size: number): string[] {
  const named = new BookNames(book.state).places.filter((place) => typeof book.value(place) === 'number');
  const names = Array.from({ length: 12 }, () => pick(named)).filter((name) => name !== undefined);
  const series = book.sheet(plateSeries.name).rows.flatMap((_, at) => inputsOf(book, plateSeries, at));
  const shared = Array.from({ length: 6 }, () => pick(series)).filter((place) => place !== undefined);
  const whole = String(book.value({ sheet: belts.name, record, column: 0 }));
  const listed = book
    .sheet(pulleys.name)
    .rows.flatMap((_, at) => (book.read(pulleys.name, at, 'Belt') === whole ? inputsOf(book, pulleys, at) : []));
  const own = [...inputsOf(book, belts, record), ...listed].filter(() => random() < 0.5);
  const cells = (places: readonly CellPlace[]): CaseCell[] =>
    [...new Map(places.map((place) => [JSON.stringify(place), place])).values()].map((place) => ({
      place,
      values: Float64Array.from({ length: size }, () => wild(Number(book.value(place)))),
    }));
  const [sharedCells, ownCells] = [cells(shared), cells(own)];
  const drawn = new Map(
    names.map((place) => [place.name, Float64Array.from({ length: size }, () => wild(Number(book.value(place))))]),
  );
  const wanted = belts.columns.flatMap((column, at) => (isComputed(column) ? [at] : []));
  const cases = book.cases({
    sheet: belts.name,
    size,
    names: [...drawn.keys()],
    cells: sharedCells.map(({ place }) => place),
    wanted,
  });
  cases.share(size, drawn, sharedCells);
  const row = cases
    .record(
      record,
      ownCells.map(({ place }) => place),
    )
    .values(size, ownCells);
  return Array.from({ length: size }).flatMap((_, index) => {
    const alone = book.whatIf(
      belts.name,
      record,
      {},
      {
        named: Object.fromEntries([...drawn].map(([name, values]) => [name, values[index] ?? null])),
        cells: [...sharedCells, ...ownCells].map(({ place, values }) => ({ place, value: values[index] ?? null })),
      },
    );
    return wanted.flatMap((column) => {
      const [one, other] = [
        told(caseValue(row[column] ?? { of: 'same', value: null }, index)),
        told(alone[column] ?? null),
      ];
      return Object.is(one, other)
        ? []
        : [`${whole}, ${belts.columns[column]?.header ?? ''}: ${String(one)} instead of ${String(other)}`];
    });
  });
}

test('every column of every belt comes to the same in many cases at once as in each alone', () => {
  for (const book of [new Workbook(demoBook('metric')), damaged()])
    for (const record of book.sheet(belts.name).rows.keys()) expect(differences(book, record, 8)).toEqual([]);
});

test('rounding in the quick way is rounding by digits', () => {
  for (let trial = 0; trial < 20_000; trial += 1) {
    const digits = Math.floor(random() * 20) - 4;
    const size = 10 ** Math.floor(random() * 16 - 5);
    const near = Math.round(random() * 1000) / 1000 + (random() < 0.3 ? 0.0005 : 0);
    const value = (random() < 0.5 ? near : random()) * size * (random() < 0.5 ? -1 : 1);
    expect({ value, digits, rounded: rounded(value, digits) }).toEqual({
      value,
      digits,
      rounded: roundedByDigits(value, digits),
    });
  }
});
