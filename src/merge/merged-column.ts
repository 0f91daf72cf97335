import type { UserColumn } from '../workbook/state.ts';
import type { Book, MatchedSheet } from './matched-sheets.ts';
import { type MergeItem, otherOf, type Side, type Three } from './merge-item.ts';
import type { MovedReferences } from './moved-references.ts';
import { type ColumnFact, columnOfFacts, ownColumnIn } from './own-column-facts.ts';
import type { SheetPlan } from './sheet-comparison.ts';

/**
 * A column of the user's own with each fact as the book has it that counts for it. A list counts for what its columns
 * are called, and for the rest only where no book has the column.
 */
export function mergedColumn(
  sheet: MatchedSheet,
  number: number,
  plan: SheetPlan | undefined,
  sideOf: (item: MergeItem | undefined) => Side,
  moves: Three<MovedReferences>,
): UserColumn | undefined {
  const column = sheet.columns[number];
  if (column === undefined) return undefined;
  const bookFor = (fact: ColumnFact): Book => {
    const side = sideOf(plan?.facts.get(number)?.get(fact) ?? plan?.columns.get(number));
    const order = [side, otherOf(side), 'base'] as const;
    const says = (book: Book): boolean => column.places[book] >= 0 && (fact === 'name' || !sheet.lists[book]);
    return order.find(says) ?? order.find((book) => column.places[book] >= 0) ?? side;
  };
  const book = bookFor('formula');
  const formula = ownColumnIn(sheet, column, book)?.formula;
  return columnOfFacts(
    (fact) => ownColumnIn(sheet, column, bookFor(fact)),
    formula === undefined ? undefined : moves[book].columnFormula(formula, sheet.name),
  );
}
