import { type Content, isFormula } from '../formula/values.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { formulaBelow } from '../workbook/column-formulas.ts';
import { rowOf } from '../workbook/formula-changes.ts';
import { type OwnLook, sameLook } from '../workbook/own-look.ts';
import type { BookRow, BookState, CellFormat, SheetState } from '../workbook/state.ts';
import { type Choose, type MergeItem, otherOf, type Places, type Side, sideOf } from './merge-item.ts';
import type { MergePlan } from './merge-plan.ts';
import { withMergedComments } from './merged-comments.ts';
import { mergedOrder } from './merged-order.ts';
import { type Book, type MatchedSheet } from './matched-sheets.ts';
import { ListMoves, MovedReferences } from './moved-references.ts';
import { formatIn } from './cell-comparison.ts';
import { mergedLook } from './merged-views.ts';
import { mergedColumn } from './merged-column.ts';
import { cellNumber, type SheetPlan } from './sheet-comparison.ts';

/** A conflict that nobody decided, and where it stands in the merged book: -1 for a record or column of none. */
export interface OpenConflict {
  readonly item: MergeItem;
  readonly record: number;
  readonly column: number;
}

export interface MergedBook {
  readonly state: BookState;
  readonly open: readonly OpenConflict[];
}

/** A sheet's records and columns in the merged book, by their numbers in the plan. */
interface Layout {
  readonly sheet: MatchedSheet;
  readonly rows: readonly number[];
  /** Where each of these records stands. */
  readonly places: ReadonlyMap<number, number>;
  readonly own: readonly number[];
  /** Declared columns and own ones. */
  readonly columns: readonly number[];
}

const nowhere: Places = { base: -1, mine: -1, theirs: -1 };

const declaredWidth = ({ name }: MatchedSheet): number => compiledSheets.get(name)?.columns.length ?? 0;

/** Whether a record, column or sheet is in the result: both have it, or the side that counts does. */
function stays(places: Places, item: MergeItem | undefined, choose: Choose): boolean {
  if (places.mine >= 0 && places.theirs >= 0) return true;
  if (places.mine < 0 && places.theirs < 0) return false;
  if (item !== undefined) return places[sideOf(item, choose(item))] >= 0;
  // A blank record goes where it was taken away.
  return places.base < 0;
}

class Merge {
  readonly #plan: MergePlan;
  readonly #choose: Choose;
  #layouts: readonly Layout[] = [];
  #moves: Readonly<Record<Book, MovedReferences>> = none;

  constructor(plan: MergePlan, choose: Choose) {
    this.#plan = plan;
    this.#choose = choose;
  }

  book(): MergedBook {
    const { sheets, sheetOrders, items } = this.#plan;
    const order = mergedOrder(sheetOrders, this.#chosen('sheets', ''));
    const kept = order.flatMap((number) => {
      const sheet = sheets[number];
      return sheet !== undefined && this.#keepsSheet(sheet) ? [sheet] : [];
    });
    this.#layouts = kept.map((sheet) => this.#layout(sheet));
    this.#moves = { base: this.#movesFrom('base'), mine: this.#movesFrom('mine'), theirs: this.#movesFrom('theirs') };
    const merged = this.#layouts.map((layout) => this.#sheet(layout));
    const look = withMergedComments(
      mergedLook(this.#plan.looks, items, this.#choose),
      this.#plan.states,
      merged.map(({ name }) => name),
    );
    const state: BookState = { ...this.#facts(), sheets: merged, ...(look === undefined ? {} : { look }) };
    const open = items.filter((item) => item.conflict && this.#choose(item) === undefined);
    return { state, open: open.map((item) => this.#place(item)) };
  }

  #side(item: MergeItem | undefined): Side {
    return item === undefined ? 'mine' : sideOf(item, this.#choose(item));
  }

  /** Whose order was chosen. */
  #chosen(of: NonNullable<MergeItem['of']>, sheet: string): Side | undefined {
    const item = this.#plan.items.find((one) => one.of === of && one.sheet === sheet);
    return item === undefined ? undefined : this.#choose(item);
  }

  #keepsSheet({ name, states }: MatchedSheet): boolean {
    if (compiledSheets.has(name) || (states.mine !== undefined && states.theirs !== undefined)) return true;
    const item = this.#plan.items.find(({ level, sheet }) => level === 'sheet' && sheet === name);
    return states[this.#side(item)] !== undefined;
  }

  #facts(): Omit<BookState, 'sheets'> {
    const fact = (name: string): Side =>
      this.#side(this.#plan.items.find(({ level, column }) => level === 'book' && column === name));
    const { states, units } = this.#plan;
    return { title: states[fact('title')].title, units, invented: states[fact('invented figures')].invented };
  }

  #layout(sheet: MatchedSheet): Layout {
    const { rows, rowOrders, columns, columnOrders, name } = sheet;
    const plan = this.#plan.plans.get(name);
    const isKept = (places: Places, item: MergeItem | undefined): boolean =>
      sheet.states.mine === undefined
        ? places.theirs >= 0
        : sheet.states.theirs === undefined
          ? places.mine >= 0
          : stays(places, item, this.#choose);
    const keptRows = mergedOrder(rowOrders, this.#chosen('records', name)).filter((number) => {
      const places = rows[number];
      return places !== undefined && isKept(places, plan?.records.get(number));
    });
    const own = mergedOrder(columnOrders, this.#chosen('columns', name)).filter((number) => {
      const column = columns[number];
      return column !== undefined && (column.silent.length > 0 || isKept(column.places, plan?.columns.get(number)));
    });
    return {
      sheet,
      rows: keptRows,
      places: new Map(keptRows.map((number, place) => [number, place])),
      own,
      columns: [...columns.flatMap((column, number) => (column.own ? [] : [number])), ...own],
    };
  }

  #movesFrom(book: Book): MovedReferences {
    return new MovedReferences(
      new Map(
        this.#layouts.flatMap(({ sheet, rows, own }) => {
          const state = sheet.states[book];
          if (state === undefined) return [];
          const width = declaredWidth(sheet);
          const records = new Array<number>(state.rows.length).fill(-1);
          rows.forEach((number, place) => {
            const from = sheet.rows[number]?.[book] ?? -1;
            if (from >= 0) records[from] = place;
          });
          const columns = Array.from({ length: width + state.userColumns.length }, (_, place) =>
            place < width ? place : -1,
          );
          own.forEach((number, place) => {
            const from = sheet.columns[number]?.places[book] ?? -1;
            if (from >= 0) columns[from] = width + place;
          });
          const moves = { rows: new ListMoves(records), columns: new ListMoves(columns) };
          const counts = { here: state.rows.length, there: rows.length };
          return [[sheet.name.toLowerCase(), compiledSheets.has(sheet.name) ? { ...moves, records: counts } : moves]];
        }),
      ),
    );
  }

  #sheet({ sheet, rows, own, columns: numbers }: Layout): SheetState {
    const plan = this.#plan.plans.get(sheet.name);
    const { mine, theirs } = sheet.states;
    const asMine =
      mine !== undefined &&
      this.#moves.mine.same &&
      numbers.every((number, place) => sheet.columns[number]?.places.mine === place);
    const columns = new Map(
      own.map((number) => [number, mergedColumn(sheet, number, plan, (item) => this.#side(item), this.#moves)]),
    );
    const changed = this.#changedRows(sheet, plan);
    // A column with another formula changes all cells that follow it.
    const ruled = [...columns].some(([number, column]) => {
      const before = sheet.columns[number];
      return before !== undefined && column?.formula !== plan?.rules.formula(before, 'mine');
    });
    return {
      name: (mine ?? theirs ?? { name: sheet.name }).name,
      userColumns: [...columns.values()].flatMap((column) => column ?? []),
      rows: rows.map((number, place): BookRow => {
        const places = sheet.rows[number] ?? nowhere;
        const row = mine?.rows[places.mine];
        const isWhole = row !== undefined && row.cells.length === numbers.length;
        const grows = this.#moves.mine.grows && row?.cells.some(isFormula) === true;
        if (asMine && !ruled && !grows && isWhole && !changed.has(number)) return row;
        const formula = (column: number): string | undefined => {
          const text = columns.get(column)?.formula;
          return text === undefined ? undefined : formulaBelow(text, place);
        };
        return this.#row(sheet, number, numbers, plan, formula);
      }),
    };
  }

  /** Records of which a cell, or how it looks, is the other book's. */
  #changedRows(sheet: MatchedSheet, plan: SheetPlan | undefined): ReadonlySet<number> {
    const rows = new Set<number>();
    const width = sheet.columns.length;
    for (const [at, item] of plan?.cells ?? []) if (this.#side(item) === 'theirs') rows.add(Math.floor(at / width));
    for (const at of plan?.spelt ?? []) rows.add(Math.floor(at / width));
    sheet.rows.forEach((_, number) => {
      const looks = this.#rowOf(sheet, number, 'theirs')?.looks;
      if (looks !== undefined && looks !== this.#rowOf(sheet, number, 'mine')?.looks) rows.add(number);
    });
    return rows;
  }

  /** `formula` is what a column's own formula makes of the record's cell in it. */
  #row(
    sheet: MatchedSheet,
    number: number,
    columns: readonly number[],
    plan: SheetPlan | undefined,
    formula: (column: number) => string | undefined,
  ): BookRow {
    const rows = sheet.rows[number] ?? nowhere;
    const notes: Record<number, string> = {};
    const formats: Record<number, CellFormat> = {};
    const looks: Record<number, OwnLook> = {};
    const cells = columns.map((column, place): Content => {
      const book = this.#bookOf(sheet, number, column, plan);
      const matched = sheet.columns[column];
      const at = matched?.places[book] ?? -1;
      const row = at < 0 ? undefined : this.#rowOf(sheet, number, book);
      const note = row?.notes?.[at];
      if (note !== undefined) notes[place] = note;
      const format = matched === undefined ? undefined : formatIn(sheet, book, rows, matched.places);
      if (format !== undefined) formats[place] = format;
      const look = this.#look(sheet, number, column);
      if (look !== undefined) looks[place] = look;
      const content = row?.cells[at] ?? null;
      if (
        matched !== undefined &&
        (row === undefined || plan?.rules.follows(matched, book, rows[book], content) === true)
      )
        return formula(column) ?? null;
      return isFormula(content) ? this.#moves[book].wholeFormula(content, sheet.name) : content;
    });
    const { hidden } = this.#rowOf(sheet, number, 'mine') ?? this.#rowOf(sheet, number, 'theirs') ?? {};
    return rowOf(cells, { notes, formats, looks, hidden });
  }

  #rowOf(sheet: MatchedSheet, number: number, book: Book): BookRow | undefined {
    return sheet.states[book]?.rows[sheet.rows[number]?.[book] ?? -1];
  }

  /**
   * How a cell looks: as here, or as in the other book where only that gave it another look. A look that the other book
   * took away stays: a list says nothing of the looks that it does not show.
   */
  #look(sheet: MatchedSheet, number: number, column: number): OwnLook | undefined {
    const of = (book: Book): OwnLook | undefined =>
      this.#rowOf(sheet, number, book)?.looks?.[sheet.columns[column]?.places[book] ?? -1];
    const [base, mine, theirs] = [of('base'), of('mine'), of('theirs')];
    return theirs !== undefined && sameLook(mine, base) && !sameLook(theirs, base) ? theirs : mine;
  }

  /** Whose cell counts; where only one has it, that one's. */
  #bookOf(sheet: MatchedSheet, number: number, column: number, plan: SheetPlan | undefined): Book {
    const at = cellNumber(sheet, number, column);
    const side = plan?.spelt.has(at) === true ? 'theirs' : this.#side(plan?.cells.get(at));
    const has = (book: Book): boolean =>
      (sheet.rows[number]?.[book] ?? -1) >= 0 && (sheet.columns[column]?.places[book] ?? -1) >= 0;
    return [side, otherOf(side), 'base' as const].find(has) ?? side;
  }

  #place(item: MergeItem): OpenConflict {
    const layout = this.#layouts.find(({ sheet }) => sheet.name === item.sheet);
    const book = (places: Places): Book | undefined =>
      (['mine', 'theirs', 'base'] as const).find((one) => places[one] >= 0);
    const [inRows, inColumns] = [book(item.rows), book(item.columns)];
    const number = inRows === undefined ? undefined : layout?.sheet.rowOrders[inRows][item.rows[inRows]];
    const column =
      inColumns === undefined
        ? undefined
        : layout?.sheet.columns.findIndex(({ places }) => places[inColumns] === item.columns[inColumns]);
    return {
      item,
      record: number === undefined ? -1 : (layout?.places.get(number) ?? -1),
      column: column === undefined || layout === undefined ? -1 : layout.columns.indexOf(column),
    };
  }
}

const none = {
  base: new MovedReferences(new Map()),
  mine: new MovedReferences(new Map()),
  theirs: new MovedReferences(new Map()),
};
/**
 * The two books in one: what either changed, as chosen where somebody chose; open conflicts are told, not settled.
 *
 * Formulas lead to the records and columns that they led to. A reference to what is gone becomes #REF!.
 */
export const mergedBook = (plan: MergePlan, choose: Choose = () => undefined): MergedBook =>
  new Merge(plan, choose).book();
