import type { UnitSystem } from '../units/quantities.ts';
import type { CellComparison } from './cell-comparison.ts';
import type { Book, MatchedColumn } from './matched-sheets.ts';
import type { ItemCell, MergeItem, Side, Three } from './merge-item.ts';
import type { MovedReferences } from './moved-references.ts';
import { columnFact, type ColumnFact, columnFacts, ownColumnIn } from './own-column-facts.ts';

/** What became of the user's own columns: each fact of a column that both sides have is an item by itself. */

const nowhere = { base: -1, mine: -1, theirs: -1 };

export class ColumnComparison {
  readonly #cells: CellComparison;
  readonly #units: UnitSystem;

  constructor(cells: CellComparison, units: UnitSystem) {
    this.#cells = cells;
    this.#units = units;
  }

  /** A list says nothing of its columns but what they are called. */
  #isSilent(book: Book, { places, silent }: MatchedColumn, fact: ColumnFact): boolean {
    return silent.includes(book) || places[book] < 0 || (fact !== 'name' && this.#cells.sheet.lists[book]);
  }

  #fact(book: Book, column: MatchedColumn, fact: ColumnFact, moves?: MovedReferences): ItemCell {
    const { sheet, rules } = this.#cells;
    const formula = { text: rules.formula(column, book), sheet: sheet.name, ...(moves === undefined ? {} : { moves }) };
    return { content: columnFact(ownColumnIn(sheet, column, book), fact, this.#units, formula) };
  }

  /** Whether a side says another thing of a column that it has from the earlier book. */
  #changed(side: Side, column: MatchedColumn, fact: ColumnFact): boolean {
    if (column.places.base < 0 || this.#isSilent(side, column, fact) || this.#isSilent('base', column, fact))
      return false;
    const moves = this.#cells.fromBase[side];
    return this.#fact('base', column, fact, moves).content !== this.#fact(side, column, fact).content;
  }

  /** Whether a side says another thing of a column that it has from the earlier book, whatever its cells hold. */
  factsChanged(side: Side, column: MatchedColumn): boolean {
    return columnFacts.some((fact) => this.#changed(side, column, fact));
  }

  /** Whether a side changed anything in a column that it has from the earlier book. */
  changed(side: Side, column: MatchedColumn): boolean {
    return this.factsChanged(side, column) || this.#cells.cellsChanged(side, column);
  }

  #differs(column: MatchedColumn, fact: ColumnFact): boolean {
    const [mine, theirs] = [this.#fact('mine', column, fact), this.#fact('theirs', column, fact, this.#cells.toMine)];
    return mine.content !== theirs.content;
  }

  /** A fact of a column that is new in both books, or that the earlier one, a list, says nothing of. */
  #unfounded(column: MatchedColumn, fact: ColumnFact): Pick<MergeItem, 'here' | 'there' | 'conflict'> | undefined {
    const isUnsaid = this.#isSilent('mine', column, fact) || this.#isSilent('theirs', column, fact);
    return isUnsaid || !this.#differs(column, fact) ? undefined : { here: 'changed', there: 'changed', conflict: true };
  }

  #change(column: MatchedColumn, fact: ColumnFact): Pick<MergeItem, 'here' | 'there' | 'conflict'> | undefined {
    if (this.#isSilent('base', column, fact)) return this.#unfounded(column, fact);
    const [here, there] = [this.#changed('mine', column, fact), this.#changed('theirs', column, fact)];
    if (!here && !there) return undefined;
    if (here && there) return { here: 'changed', there: 'changed', conflict: this.#differs(column, fact) };
    // Numbers that one side typed mean something else in the unit that the other gave their column.
    const other: Side = here ? 'theirs' : 'mine';
    if (fact === 'kind and unit' && this.#cells.numbersTyped(other, column))
      return { here: 'changed', there: 'changed', conflict: true };
    return here ? { here: 'changed', conflict: false } : { there: 'changed', conflict: false };
  }

  /** The facts of a column that one or both changed, by their names. */
  items(column: MatchedColumn): Map<ColumnFact, MergeItem> {
    const items = new Map<ColumnFact, MergeItem>();
    // A column that one side lacks, and is no list, is an item as a whole.
    const isLacking = (side: Side): boolean => column.places[side] < 0 && !column.silent.includes(side);
    if (!column.own || isLacking('mine') || isLacking('theirs')) return items;
    for (const fact of columnFacts) {
      const change = this.#change(column, fact);
      if (change === undefined) continue;
      const [mine, theirs] = [this.#fact('mine', column, fact), this.#fact('theirs', column, fact)];
      const base = this.#fact('base', column, fact);
      const said = (book: Book, own: ItemCell): ItemCell => (this.#isSilent(book, column, fact) ? base : own);
      const cells: Three<ItemCell> = { base, mine: said('mine', mine), theirs: said('theirs', theirs) };
      items.set(fact, {
        level: 'fact',
        fact,
        sheet: this.#cells.sheet.name,
        record: '',
        column: column.header,
        ...change,
        cells,
        kind: 'text',
        rows: nowhere,
        columns: column.places,
      });
    }
    return items;
  }
}
