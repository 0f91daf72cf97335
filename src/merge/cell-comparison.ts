import { type Content, isFormula } from '../formula/values.ts';
import type { BookRow, CellFormat } from '../workbook/state.ts';
import { type Book, type MatchedColumn, type MatchedSheet, movedReferences } from './matched-sheets.ts';
import type { ItemCell, Places, Side } from './merge-item.ts';
import type { MovedReferences } from './moved-references.ts';
import { ColumnRules, sameFormat } from './own-column-facts.ts';
import { isBlank, sameContent, sameDigits } from './same-content.ts';

/** How a cell stands to what it was: untouched, the same written otherwise, or changed. */
export type Standing = 'untouched' | 'respelt' | 'changed';

/** The book from which a list, which says nothing of how its cells show numbers, has that. */
const behindList: Readonly<Record<Book, readonly Book[]>> = {
  base: ['mine', 'theirs'],
  mine: ['base', 'theirs'],
  theirs: ['base', 'mine'],
};

/** How a cell shows its number, where it is not as its column does. */
export function formatIn(sheet: MatchedSheet, book: Book, rows: Places, columns: Places): CellFormat | undefined {
  const of = (one: Book): CellFormat | undefined =>
    columns[one] < 0 ? undefined : sheet.states[one]?.rows[rows[one]]?.formats?.[columns[one]];
  const said = of(book);
  if (said !== undefined || !sheet.lists[book]) return said;
  const from = behindList[book].find((one) => !sheet.lists[one] && rows[one] >= 0 && columns[one] >= 0);
  return from === undefined ? undefined : of(from);
}

/** The cells of one sheet in three books, and how they stand to each other. */
export class CellComparison {
  readonly sheet: MatchedSheet;
  readonly rules: ColumnRules;
  readonly fromBase: Readonly<Record<Side, MovedReferences>>;
  readonly toMine: MovedReferences;
  readonly #toTheirs: MovedReferences;
  /** Whether numbers went through a change of units. */
  readonly #converted: boolean;

  constructor(sheet: MatchedSheet, sheets: readonly MatchedSheet[], converted: boolean) {
    this.sheet = sheet;
    this.rules = new ColumnRules(sheet);
    this.#converted = converted;
    this.fromBase = {
      mine: movedReferences(sheets, 'base', 'mine'),
      theirs: movedReferences(sheets, 'base', 'theirs'),
    };
    this.toMine = movedReferences(sheets, 'theirs', 'mine');
    this.#toTheirs = movedReferences(sheets, 'mine', 'theirs');
  }

  row(book: Book, places: Places): BookRow | undefined {
    return this.sheet.states[book]?.rows[places[book]];
  }

  cell(book: Book, rows: Places, column: MatchedColumn): ItemCell {
    const at = column.places[book];
    const row = at < 0 ? undefined : this.row(book, rows);
    const note = row?.notes?.[at];
    const format = column.own ? formatIn(this.sheet, book, rows, column.places) : undefined;
    const content = row?.cells[at] ?? null;
    return {
      content,
      ...(note === undefined ? {} : { note }),
      ...(format === undefined ? {} : { format }),
      ...(row !== undefined && this.rules.follows(column, book, rows[book], content) ? { ruled: true } : {}),
    };
  }

  /** A cell that follows its column's formula before and after is untouched, whatever became of the formula. */
  standing(before: ItemCell, now: ItemCell, moves: MovedReferences): Standing {
    if (before.note !== now.note || !sameFormat(before.format, now.format)) return 'changed';
    if (before.ruled === true && now.ruled === true) return 'untouched';
    if (before.ruled === true && this.#hadFormula(before, now)) return 'changed';
    const moved = this.#moved(before.content, moves);
    if (moved === now.content || sameDigits(moved, now.content)) return 'untouched';
    if (now.content === this.#grown(before.content, moves)) return 'untouched';
    return sameContent(moved, now.content, this.#converted) ? 'respelt' : 'changed';
  }

  /** Whether a cell that followed a formula is one by itself now, or was left empty when its column got one. */
  #hadFormula(before: ItemCell, now: ItemCell): boolean {
    return before.content !== null || now.content === null;
  }

  /** A formula whose ranges over whole columns hold the records that came, as this program writes it. */
  #grown(content: Content, moves: MovedReferences): Content {
    return isFormula(content) ? moves.wholeFormula(content, this.sheet.name) : content;
  }

  #moved(content: Content, moves: MovedReferences): Content {
    return isFormula(content) ? moves.formula(content, this.sheet.name) : content;
  }

  /** Whether both sides made the same of a cell. */
  alike(mine: ItemCell, theirs: ItemCell): boolean {
    if (mine.note !== theirs.note || !sameFormat(mine.format, theirs.format)) return false;
    if (mine.ruled === true && theirs.ruled === true) return true;
    if (mine.ruled !== theirs.ruled && isBlank(mine.content)) return false;
    return (
      mine.content === this.#grown(theirs.content, this.toMine) ||
      sameContent(mine.content, this.#moved(theirs.content, this.toMine), this.#converted) ||
      sameContent(this.#moved(mine.content, this.#toTheirs), theirs.content, this.#converted)
    );
  }

  #changed(side: Side, rows: Places, column: MatchedColumn): boolean {
    const [before, now] = [this.cell('base', rows, column), this.cell(side, rows, column)];
    return this.standing(before, now, this.fromBase[side]) === 'changed';
  }

  /** Whether a side changed anything in a record that it has from the earlier book. */
  recordChanged(side: Side, rows: Places): boolean {
    if (this.fromBase[side].same && this.row('base', rows) === this.row(side, rows)) return false;
    return this.sheet.columns.some((column) => column.places[side] >= 0 && this.#changed(side, rows, column));
  }

  /** Whether a side changed any cell of a column that it has from the earlier book. */
  cellsChanged(side: Side, column: MatchedColumn): boolean {
    return this.sheet.rows.some((rows) => rows[side] >= 0 && this.#changed(side, rows, column));
  }

  /** Whether a side typed a number into a column, in a record of the earlier book or in one of its own. */
  numbersTyped(side: Side, column: MatchedColumn): boolean {
    return this.sheet.rows.some(
      (rows) =>
        rows[side] >= 0 &&
        typeof this.cell(side, rows, column).content === 'number' &&
        this.#changed(side, rows, column),
    );
  }
}
