import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import { comparedBooks } from '../../src/merge/compared-books.ts';
import { itemWords } from '../../src/merge/item-words.ts';
import type { Choose, MergeItem, Three } from '../../src/merge/merge-item.ts';
import { mergePlan } from '../../src/merge/merge-plan.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { columnNamed, headerPosition } from '../../src/workbook/declared.ts';
import { withColumnAdded, withContents, withSheet } from '../../src/workbook/state-changes.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { bookOf, letters, rowOf, soundBelt } from '../workbook/books.ts';

/** Books with belts of their own names, whose edits are known: what a merge makes of each. */

const belts = (state: BookState) => sheetOf(state, 'Belts');
const planOf = (base: BookState, mine: BookState, theirs: BookState) =>
  mergePlan({ base: { state: base }, mine: { state: mine }, theirs: { state: theirs } });
const merged = (base: BookState, mine: BookState, theirs: BookState, choose?: Choose) =>
  mergedBook(planOf(base, mine, theirs), choose);
const names: Three<string> = { base: 'base.xlsx', mine: 'mine.xlsx', theirs: 'theirs.xlsx' };
const two: Three<string> = { base: 'one', mine: 'one', theirs: 'other' };
const words = (items: readonly MergeItem[]) => items.map((item) => itemWords(item, names, 'metric'));
/** What differs between two books, in words. */
const differences = (one: BookState, other: BookState) =>
  comparedBooks({ state: one }, { state: other }).items.map((item) => itemWords(item, two, 'metric'));

const fleet = (...belt: readonly string[]): BookState =>
  bookOf({ belts: belt.map((name, place) => ({ ...soundBelt, Belt: name, Width: 400 + 50 * place })) });
const recordOf = (state: BookState, belt: string): number =>
  belts(state).rows.findIndex(({ cells }) => cells[0] === belt);
const columnAt = (state: BookState, header: string): number => columnNamed(belts(state), header) ?? -1;
const read = (state: BookState, belt: string, header: string): Content | undefined =>
  belts(state).rows[recordOf(state, belt)]?.cells[columnAt(state, header)];
const set = (state: BookState, belt: string, header: string, content: Content): BookState =>
  withContents(state, [{ sheet: 'Belts', record: recordOf(state, belt), column: columnAt(state, header), content }]);
const without = (state: BookState, belt: string): BookState =>
  withSheet(state, 'Belts', (sheet) => ({ ...sheet, rows: sheet.rows.filter(({ cells }) => cells[0] !== belt) }));
const withBelt = (state: BookState, belt: string, at = 0): BookState =>
  withSheet(state, 'Belts', (sheet) => ({
    ...sheet,
    rows: sheet.rows.toSpliced(at, 0, {
      cells: [...rowOf('Belts', { ...soundBelt, Belt: belt }).cells, ...sheet.userColumns.map(() => null)],
    }),
  }));

const figures: readonly BeltHeader[] = ['Width', 'Speed', 'Skew', 'Bolts'];
const cellEdit = fc.record({
  belt: fc.constantFrom('A', 'B', 'C', 'D'),
  header: fc.constantFrom(...figures),
  value: fc.constantFrom<Content>(1, 2, 30, null),
});
const sideEdits = fc.record({
  cells: fc.uniqueArray(cellEdit, { maxLength: 5, selector: ({ belt, header }) => `${belt} ${header}` }),
  gone: fc.uniqueArray(fc.constantFrom('A', 'B', 'C', 'D'), { maxLength: 2 }),
  added: fc.uniqueArray(fc.constantFrom('X', 'Y'), { maxLength: 2 }),
  at: fc.nat(2),
});
type SideEdits = typeof sideEdits extends fc.Arbitrary<infer Item> ? Item : never;

function after(base: BookState, { cells, gone, added, at }: SideEdits, mark: string): BookState {
  let state = base;
  for (const { belt, header, value } of cells) state = set(state, belt, header, value);
  for (const belt of gone) state = without(state, belt);
  for (const belt of added) state = withBelt(state, `${belt}${mark}`, Math.min(at, belts(state).rows.length));
  return state;
}

describe('a merge', () => {
  it('loses nothing: each edit of either side is in the result, or told as a conflict with its value', () => {
    const base = fleet('A', 'B', 'C', 'D');
    fc.assert(
      fc.property(sideEdits, sideEdits, (here, there) => {
        const { state, open } = merged(base, after(base, here, '1'), after(base, there, '2'));
        const changes = (side: SideEdits, belt: string) =>
          side.cells.filter((edit) => String(edit.belt) === belt && edit.value !== read(base, belt, edit.header));
        const conflicts: string[] = [];
        for (const belt of ['A', 'B', 'C', 'D']) {
          const [mine, theirs] = [changes(here, belt), changes(there, belt)];
          const [lost, dropped] = [here, there].map(({ gone }) => gone.map(String).includes(belt));
          const edited = lost === true ? theirs : mine;
          if (lost === true && dropped === true) expect(recordOf(state, belt)).toBe(-1);
          else if (lost === true || dropped === true) {
            expect(recordOf(state, belt) >= 0).toBe(edited.length > 0);
            if (edited.length > 0) conflicts.push(`${belt} `);
            for (const { header, value } of edited) expect(read(state, belt, header)).toBe(value);
          } else
            for (const header of figures) {
              const [one, other] = [mine, theirs].map((list) => list.find((edit) => edit.header === header));
              const expected = one ?? other;
              expect(read(state, belt, header)).toBe(
                expected === undefined ? read(base, belt, header) : expected.value,
              );
              if (one !== undefined && other !== undefined && one.value !== other.value) {
                conflicts.push(`${belt} ${header}`);
                const told = open.find(({ item }) => item.record === belt && item.column === header)?.item.cells;
                expect([told?.mine.content, told?.theirs.content]).toEqual([one.value, other.value]);
              }
            }
        }
        for (const [side, mark] of [
          [here, '1'],
          [there, '2'],
        ] as const)
          for (const belt of side.added) expect(recordOf(state, `${belt}${mark}`)).toBeGreaterThanOrEqual(0);
        expect(open.map(({ item }) => `${item.record} ${item.column}`).toSorted()).toEqual(conflicts.toSorted());
      }),
      { numRuns: 150 },
    );
  });

  it('leads formulas to the belts that they led to, wherever these stand in the result', () => {
    const width = letters('Width');
    const plain = withColumnAdded(fleet('A', 'B', 'C', 'D'), 'Belts', { header: 'Reach', kind: 'number' });
    let base = set(plain, 'B', 'Reach', `=${width}5*2`);
    base = set(base, 'C', 'Reach', `=SUM(${width}2:${width}4)+$${width}$3`);
    const theirs = set(withBelt(base, 'New', 1), 'A', 'Reach', `=${width}6`);
    const mine = without(withBelt(base, 'Mine', 0), 'A');
    // Their program moved the formulas below the belt that was put in, as every spreadsheet does.
    const moved = set(set(theirs, 'B', 'Reach', `=${width}6*2`), 'C', 'Reach', `=SUM(${width}2:${width}5)+$${width}$4`);
    const shifted = set(set(mine, 'B', 'Reach', `=${width}5*2`), 'C', 'Reach', `=SUM(${width}3:${width}4)+$${width}$3`);
    const { state, open } = merged(base, shifted, moved);
    expect(belts(state).rows.map(({ cells }) => cells[0])).toEqual(['Mine', 'A', 'New', 'B', 'C', 'D']);
    expect(open.map(({ item }) => itemWords(item, names, 'metric'))).toEqual([
      'Belts, A: gone from mine.xlsx, changed in theirs.xlsx',
    ]);
    expect(read(state, 'B', 'Reach')).toBe(`=${width}7*2`);
    expect(read(state, 'A', 'Reach')).toBe(`=${width}7`);
    expect(read(state, 'C', 'Reach')).toBe(`=SUM(${width}5:${width}6)+$${width}$5`);
  });

  it('takes each, a column or all by choice', () => {
    const base = fleet('A', 'B');
    const theirs = set(set(set(base, 'A', 'Width', 900), 'B', 'Width', 950), 'B', 'Speed', 3);
    const column = merged(base, base, theirs, ({ column: header }) => (header === 'Width' ? 'mine' : undefined)).state;
    expect([read(column, 'A', 'Width'), read(column, 'B', 'Width'), read(column, 'B', 'Speed')]).toEqual([400, 450, 3]);
    const one = merged(base, base, theirs, ({ record }) => (record === 'A' ? 'mine' : undefined)).state;
    expect([read(one, 'A', 'Width'), read(one, 'B', 'Width')]).toEqual([400, 950]);
    const mine = set(base, 'A', 'Width', 800);
    expect(differences(merged(base, mine, theirs, () => 'theirs').state, theirs)).toEqual([]);
    expect(differences(merged(base, mine, theirs, () => 'mine').state, mine)).toEqual([]);
  });

  it('keeps what either side added of its own: columns, overrides, remarks, named values, sheets', () => {
    const base = fleet('A', 'B');
    const mine = set(
      withColumnAdded(set(base, 'A', 'Bolts', 99), 'Belts', { header: 'WO no', kind: 'text' }),
      'B',
      'WO no',
      'W7',
    );
    const noted = withSheet(base, 'Belts', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) => ({ ...row, notes: { 3: 'measured at the tail' } })),
    }));
    const theirs = {
      ...withColumnAdded(noted, 'Belts', { header: 'Checked', kind: 'text' }),
      sheets: [
        ...withColumnAdded(noted, 'Belts', { header: 'Checked', kind: 'text' }).sheets.map((sheet) =>
          sheet.name === 'Assumptions'
            ? {
                ...sheet,
                rows: sheet.rows.map((row) =>
                  row.cells[0] === 'TightMargin' ? { cells: row.cells.with(1, 0.2) } : row,
                ),
              }
            : sheet,
        ),
        { name: 'Rounds', userColumns: [{ header: 'A', kind: 'text' as const }], rows: [{ cells: ['Monday'] }] },
      ],
    };
    const { state, open } = merged(base, mine, theirs);
    expect(open).toEqual([]);
    expect([read(state, 'A', 'Bolts'), read(state, 'B', 'WO no')]).toEqual([99, 'W7']);
    expect(belts(state).userColumns.map(({ header }) => header)).toEqual(['WO no', 'Checked']);
    expect(belts(state).rows[1]?.notes).toEqual({ 3: 'measured at the tail' });
    expect(new Workbook(state).named('TightMargin')).toBe(0.2);
    expect(sheetOf(state, 'Rounds').rows).toEqual([{ cells: ['Monday'] }]);
  });
});

describe('a comparison', () => {
  it('counts formulas as unchanged that a spreadsheet moved because rows were put in or taken out', () => {
    const place = fc.nat(7);
    const deed = fc.record({ adds: fc.boolean(), at: place, sheet: fc.constantFrom('Belts', 'Belts', 'Strips') });
    const reference = fc
      .tuple(place, place, fc.constantFrom('', '$'), fc.constantFrom('', 'Belts!'), fc.boolean())
      .map(([one, other, fixed, sheet, range]) => {
        const cell = (row: number): string => `${fixed}${letters('Width')}${fixed}${row + 2}`;
        return range
          ? `SUM(${sheet}${cell(Math.min(one, other))}:${cell(Math.max(one, other))})`
          : `${sheet}${cell(one)}`;
      });
    fc.assert(
      fc.property(
        fc.array(reference, { minLength: 6, maxLength: 6 }),
        fc.array(deed, { maxLength: 5 }),
        (list, deeds) => {
          let state = withColumnAdded(fleet('A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'), 'Belts', {
            header: 'Own',
            kind: 'number',
          });
          ['A', 'B', 'C', 'D', 'E', 'F'].forEach((belt, at) => {
            state = set(state, belt, 'Own', `=${list[at] ?? '1'}+1`);
          });
          const book = new Workbook(state);
          let added = 0;
          // First out, then in: a range keeps what was put in at an edge that goes later, and nothing tells that.
          for (const { adds, at, sheet } of deeds.toSorted((one, other) => Number(one.adds) - Number(other.adds))) {
            const count = book.sheet(sheet).rows.length;
            if (adds) book.addRecords(sheet, Math.min(at, count), [[`New ${(added += 1)}`]]);
            else if (count > 0) book.removeRecords(sheet, at % count, 1);
          }
          const { items } = comparedBooks({ state }, { state: book.state });
          const presence = items.filter(({ level }) => level === 'record');
          expect(words(items.filter((item) => !presence.includes(item)))).toEqual([]);
          book.destroy();
        },
      ),
      { numRuns: 25 },
    );
  });

  it('compares in the same units, and says what differs in words', () => {
    const base = fleet('A', 'B');
    const us = convertedBook(base, 'us').state;
    expect(differences(base, us)).toEqual(['Book, unit system: "metric" in one, "US customary" in other']);
    const changed = set(us, 'A', 'Width', 36);
    const { items, units } = comparedBooks({ state: base }, { state: changed });
    expect(items.slice(1).map((item) => itemWords(item, two, units))).toEqual([
      `Belts, A, Width: ${Number((400 / 25.4).toPrecision(12))} in in one, 36 in in other`,
    ]);
  });

  it('takes a belt of which only the name differs for the same one, and says so', () => {
    const base = fleet('A', 'B');
    const plan = comparedBooks({ state: base }, { state: set(base, 'B', 'Belt', 'B2') });
    expect(plan.items.map((item) => itemWords(item, two, 'metric'))).toEqual([
      'Belts, B, Belt: "B" in one, "B2" in other',
    ]);
    expect(plan.told).toEqual(['Belts: "B" and "B2" differ in their name alone and are taken for the same record']);
  });

  it('finds a list only in the columns that it has', () => {
    const base = set(
      withColumnAdded(fleet('A', 'B', 'C'), 'Belts', { header: 'WO no', kind: 'text' }),
      'A',
      'WO no',
      'W1',
    );
    const list = bookOf({
      belts: [
        { Belt: 'C', Width: 500 },
        { Belt: 'A', Width: 999 },
        { Belt: 'N', Width: 650 },
      ],
      series: [],
      strips: [],
    });
    const covers = new Map([['Belts', new Set(['Belt', 'Width'])]]);
    const plan = mergePlan({ base: { state: base }, mine: { state: base }, theirs: { state: list, covers } });
    expect(words(plan.items)).toEqual([
      'Belts, order of records: changed in theirs.xlsx',
      'Belts, A, Width: 400 mm in mine.xlsx, 999 mm in theirs.xlsx, 400 mm in base.xlsx',
      'Belts, B: gone from theirs.xlsx',
      'Belts, N: new in theirs.xlsx',
    ]);
    const { state } = mergedBook(plan);
    expect(belts(state).rows.map(({ cells }) => cells[0])).toEqual(['C', 'A', 'N']);
    expect([read(state, 'A', 'Speed'), read(state, 'A', 'WO no'), read(state, 'A', 'Width')]).toEqual([2.5, 'W1', 999]);
    expect(sheetOf(state, 'Plate series').rows).toHaveLength(2);
    expect(headerPosition('Belts', 'Belt')).toBe(0);
  });
});
