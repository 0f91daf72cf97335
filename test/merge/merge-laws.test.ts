import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../seed.ts';
import { comparedBooks } from '../../src/merge/compared-books.ts';
import { itemWords } from '../../src/merge/item-words.ts';
import { mergedBook } from '../../src/merge/merged-book.ts';
import { mergePlan } from '../../src/merge/merge-plan.ts';
import type { MergeItem } from '../../src/merge/merge-item.ts';
import { compiledSheets } from '../../src/workbook/declared.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { edited, edits, hasOwnNames, livedInBooks } from './random-edits.ts';

/** What holds of any three books: a merge that breaks one of these loses somebody's work. */

const runs = { numRuns: 30 };
const triples = fc
  .tuple(livedInBooks, edits, edits)
  .map(([base, here, there]) => ({ base, mine: edited(base, here), theirs: edited(base, there) }));

const planOf = (base: BookState, mine: BookState, theirs: BookState) =>
  mergePlan({ base: { state: base }, mine: { state: mine }, theirs: { state: theirs } });
const merged = (base: BookState, mine: BookState, theirs: BookState) => mergedBook(planOf(base, mine, theirs));
const names = { base: 'base', mine: 'mine', theirs: 'theirs' };
/** A book as lines that a failure can show: of each record what it holds. */
const lines = ({ sheets, look, ...facts }: BookState): string[] => [
  JSON.stringify(facts),
  ...(look?.views ?? []).map((view) => JSON.stringify(view)).toSorted(),
  ...sheets.flatMap(({ name, userColumns, rows }) => [
    JSON.stringify([name, userColumns.map((column) => Object.entries(column).toSorted())]),
    ...rows.map(({ cells, notes = {}, formats = {} }, record) => {
      const filled = cells.flatMap((content, column) => (content === null ? [] : [[column, content]]));
      return JSON.stringify([name, record, cells.length, filled, notes, formats]);
    }),
  ]),
];
/** Whether both sides worked in a sheet of the user's, whose rows have no names. */
const bothChangedNameless = (base: BookState, mine: BookState, theirs: BookState): boolean =>
  base.sheets.some((sheet) => {
    const others = [mine, theirs].map(({ sheets }) => sheets.find(({ name }) => name === sheet.name));
    return !compiledSheets.has(sheet.name) && others.every((other) => JSON.stringify(other) !== JSON.stringify(sheet));
  });
const words = (items: readonly MergeItem[]) => items.map((item) => itemWords(item, names, 'metric'));

describe('a merge of any three books', () => {
  it('is the other book where one was left alone', () => {
    fc.assert(
      fc.property(triples, ({ base, mine, theirs }) => {
        for (const [result, kept] of [
          [merged(base, mine, base), mine],
          [merged(base, base, theirs), theirs],
        ] as const) {
          expect(lines(result.state)).toEqual(lines(kept));
          expect(result.open).toEqual([]);
        }
      }),
      runs,
    );
  });

  it('is the book that both made', () => {
    fc.assert(
      fc.property(triples, ({ base, mine }) => {
        const { state, open } = merged(base, mine, structuredClone(mine));
        expect(lines(state)).toEqual(lines(mine));
        expect(open).toEqual([]);
      }),
      runs,
    );
  });

  it('finds the same changes, on the other sides, when the books are swapped', () => {
    fc.assert(
      fc.property(triples, ({ base, mine, theirs }) => {
        const swapped = planOf(base, theirs, mine).items.map(
          ({ here, there, cells, rows, columns, ...item }): MergeItem => ({
            ...item,
            ...(there === undefined ? {} : { here: there }),
            ...(here === undefined ? {} : { there: here }),
            ...(cells === undefined ? {} : { cells: { base: cells.base, mine: cells.theirs, theirs: cells.mine } }),
            rows: { base: rows.base, mine: rows.theirs, theirs: rows.mine },
            columns: { base: columns.base, mine: columns.theirs, theirs: columns.mine },
          }),
        );
        const facts = (items: readonly MergeItem[]): string[] =>
          items
            .map(({ level, of, fact, sheet, rows, columns, here, there, conflict, cells, column }) =>
              JSON.stringify([
                level,
                of,
                fact,
                sheet,
                rows,
                columns,
                here,
                there,
                conflict,
                cells,
                level === 'book' || level === 'view' ? column : '',
              ]),
            )
            .toSorted();
        expect(facts(swapped)).toEqual(facts(planOf(base, mine, theirs).items));
      }),
      runs,
    );
  });

  it('changes nothing when it is done a second time, where records have names of their own', () => {
    fc.assert(
      fc.property(triples, ({ base, mine, theirs }) => {
        // Of records without a name of their own contents tell who is who, and these are others after a merge.
        fc.pre([base, mine, theirs].every(hasOwnNames) && !bothChangedNameless(base, mine, theirs));
        const { state } = merged(base, mine, theirs);
        expect(lines(merged(base, state, theirs).state)).toEqual(lines(state));
        expect(words(comparedBooks({ state }, { state: merged(theirs, state, theirs).state }).items)).toEqual([]);
      }),
      runs,
    );
  });
});
