import { type Content, isFormula } from '../formula/values.ts';
import { cellKind } from '../workbook/declared.ts';
import type { BookRow, SheetState } from '../workbook/state.ts';
import { type Book, type MatchedColumn, type MatchedSheet, movedReferences } from './matched-sheets.ts';
import type { Change, ItemCell, MergeItem, Places, Side } from './merge-item.ts';
import type { MovedReferences } from './moved-references.ts';
import { recordName } from '../workbook/record-names.ts';
import { isBlank, sameContent, sameDigits } from './same-content.ts';

/** What was changed in a sheet, and by whom, with the numbers of its records and columns. */
export interface SheetPlan {
  readonly items: readonly MergeItem[];
  /** By record number: where one book has it and another does not. */
  readonly records: ReadonlyMap<number, MergeItem>;
  /** By column number. */
  readonly columns: ReadonlyMap<number, MergeItem>;
  /** By record and column number, as `cellNumber` makes one of both. */
  readonly cells: ReadonlyMap<number, MergeItem>;
  /** Cells that nobody changed and that only the other book writes in another way. */
  readonly spelt: ReadonlySet<number>;
}

export const cellNumber = ({ columns }: MatchedSheet, record: number, column: number): number =>
  record * columns.length + column;

/** How a cell stands to what it was: untouched, the same written otherwise, or changed. */
type Standing = 'untouched' | 'respelt' | 'changed';

/** One sheet of three books, compared cell by cell. */
export class SheetComparison {
  readonly sheet: MatchedSheet;
  readonly #fromBase: Readonly<Record<Side, MovedReferences>>;
  readonly #toMine: MovedReferences;
  readonly #toTheirs: MovedReferences;
  /** Whether numbers went through a change of units. */
  readonly #converted: boolean;
  #items: MergeItem[] = [];

  constructor(sheet: MatchedSheet, sheets: readonly MatchedSheet[], converted: boolean) {
    this.sheet = sheet;
    this.#converted = converted;
    this.#fromBase = {
      mine: movedReferences(sheets, 'base', 'mine'),
      theirs: movedReferences(sheets, 'base', 'theirs'),
    };
    this.#toMine = movedReferences(sheets, 'theirs', 'mine');
    this.#toTheirs = movedReferences(sheets, 'mine', 'theirs');
  }

  #row(book: Book, places: Places): BookRow | undefined {
    return this.sheet.states[book]?.rows[places[book]];
  }

  #cell(book: Book, rows: Places, columns: Places): ItemCell {
    const row = columns[book] < 0 ? undefined : this.#row(book, rows);
    const note = row?.notes?.[columns[book]];
    return { content: row?.cells[columns[book]] ?? null, ...(note === undefined ? {} : { note }) };
  }

  #standing(before: ItemCell, now: ItemCell, moves: MovedReferences): Standing {
    if (before.note !== now.note) return 'changed';
    const moved = this.#moved(before.content, moves);
    if (moved === now.content || sameDigits(moved, now.content)) return 'untouched';
    return sameContent(moved, now.content, this.#converted) ? 'respelt' : 'changed';
  }

  #moved(content: Content, moves: MovedReferences): Content {
    return isFormula(content) ? moves.formula(content, this.sheet.name) : content;
  }

  /** Whether both sides made the same of a cell. */
  #alike(mine: ItemCell, theirs: ItemCell): boolean {
    if (mine.note !== theirs.note) return false;
    return (
      sameContent(mine.content, this.#moved(theirs.content, this.#toMine), this.#converted) ||
      sameContent(this.#moved(mine.content, this.#toTheirs), theirs.content, this.#converted)
    );
  }

  /** Whether a side changed anything in a record that it has from the earlier book. */
  #recordChanged(side: Side, rows: Places): boolean {
    const moves = this.#fromBase[side];
    if (moves.same && this.#row('base', rows) === this.#row(side, rows)) return false;
    return this.sheet.columns.some(
      ({ places }) =>
        places[side] >= 0 &&
        this.#standing(this.#cell('base', rows, places), this.#cell(side, rows, places), moves) === 'changed',
    );
  }

  /** Whether a side changed anything in a column that it has from the earlier book. */
  #columnChanged(side: Side, { places }: MatchedColumn): boolean {
    const moves = this.#fromBase[side];
    const kind = (book: Book): string | undefined => this.#kindOf(book, places);
    if (kind('base') !== kind(side)) return true;
    return this.sheet.rows.some(
      (rows) =>
        rows[side] >= 0 &&
        this.#standing(this.#cell('base', rows, places), this.#cell(side, rows, places), moves) === 'changed',
    );
  }

  #kindOf(book: Book, places: Places): string | undefined {
    const state = this.sheet.states[book];
    return state === undefined || places[book] < 0 ? undefined : cellKind(state, 0, places[book]);
  }

  /** Whether a side changed anything in the sheet that it has from the earlier book. */
  changes(side: Side): boolean {
    const { rows, columns } = this.sheet;
    return (
      rows.some((places) =>
        places[side] < 0
          ? places.base >= 0
          : places.base < 0
            ? !this.#blank(places)
            : this.#recordChanged(side, places),
      ) || columns.some(({ own, places }) => own && places.base >= 0 !== places[side] >= 0)
    );
  }

  #blank(rows: Places): boolean {
    return (['base', 'mine', 'theirs'] as const).every((book) => {
      const row = this.#row(book, rows);
      return row === undefined || (row.notes === undefined && row.cells.every(isBlank));
    });
  }

  plan(): SheetPlan {
    const records = new Map<number, MergeItem>();
    const columns = new Map<number, MergeItem>();
    const cells = new Map<number, MergeItem>();
    const spelt = new Set<number>();
    this.#items = [];
    this.sheet.columns.forEach((column, number) => {
      const item = column.own && !column.silent.includes('base') ? this.#columnItem(column) : undefined;
      if (item !== undefined) columns.set(number, item);
    });
    this.sheet.rows.forEach((places, number) => {
      const item = this.#recordItem(places);
      if (item !== undefined) records.set(number, item);
      if (places.mine >= 0 && places.theirs >= 0) this.#compareCells(number, places, cells, spelt);
    });
    return { items: this.#items, records, columns, cells, spelt };
  }

  #add(item: MergeItem): MergeItem {
    this.#items.push(item);
    return item;
  }

  /**
   * The item of a record or column that a book lacks; none where all have it. One that only one side has is new there,
   * or gone at the other, and a conflict where this side had changed it as well.
   */
  #presence(
    places: Places,
    changed: (side: Side) => boolean,
    silent: readonly Book[] = [],
  ): Pick<MergeItem, 'here' | 'there' | 'conflict'> | undefined {
    const before = places.base >= 0;
    const change = (side: Side): Change | undefined =>
      before === places[side] >= 0 || silent.includes(side) ? undefined : before ? 'gone' : 'new';
    const [here, there] = [change('mine'), change('theirs')];
    if (here === undefined && there === undefined) return undefined;
    const side: Side = here === undefined ? 'mine' : 'theirs';
    const conflict = before && (here === undefined || there === undefined) && !silent.includes(side) && changed(side);
    return {
      ...(here !== undefined ? { here } : conflict ? { here: 'changed' } : {}),
      ...(there !== undefined ? { there } : conflict ? { there: 'changed' } : {}),
      conflict,
    };
  }

  #recordItem(rows: Places): MergeItem | undefined {
    if (rows.base >= 0 && rows.mine >= 0 && rows.theirs >= 0) return undefined;
    if (this.#blank(rows)) return undefined;
    const presence = this.#presence(rows, (side) => this.#recordChanged(side, rows));
    const columns = { base: -1, mine: -1, theirs: -1 };
    if (presence === undefined) return undefined;
    return this.#add({
      level: 'record',
      sheet: this.sheet.name,
      record: this.#nameOf(rows),
      column: '',
      ...presence,
      kind: 'text',
      rows,
      columns,
    });
  }

  #columnItem(column: MatchedColumn): MergeItem | undefined {
    const { places } = column;
    const found = this.#presence(places, (side) => this.#columnChanged(side, column), column.silent);
    const isNewInBoth = places.base < 0 && places.mine >= 0 && places.theirs >= 0;
    const presence =
      found === undefined
        ? this.#kindChange(column)
        : {
            ...found,
            conflict: found.conflict || (isNewInBoth && this.#fact('mine', places) !== this.#fact('theirs', places)),
          };
    const rows = { base: -1, mine: -1, theirs: -1 };
    if (presence === undefined) return undefined;
    return this.#add({
      level: 'column',
      sheet: this.sheet.name,
      record: '',
      column: column.header,
      ...presence,
      kind: 'text',
      rows,
      columns: column.places,
    });
  }

  /** An own column's header and what it measures. */
  #fact(book: Book, places: Places): string {
    const declared = this.sheet.columns.filter((column) => !column.own).length;
    const column = this.sheet.states[book]?.userColumns[places[book] - declared];
    return `${column?.header ?? ''}\n${column?.kind ?? ''}`;
  }

  /** What became of a column's header in another spelling, or of what it measures. */
  #kindChange({ places, silent }: MatchedColumn): Pick<MergeItem, 'here' | 'there' | 'conflict'> | undefined {
    const [was, mine, theirs] = [this.#fact('base', places), this.#fact('mine', places), this.#fact('theirs', places)];
    const [here, there] = [!silent.includes('mine') && mine !== was, !silent.includes('theirs') && theirs !== was];
    if (!here && !there) return undefined;
    return {
      ...(here ? { here: 'changed' } : {}),
      ...(there ? { there: 'changed' } : {}),
      conflict: here && there && mine !== theirs,
    };
  }

  #nameOf(rows: Places): string {
    const book = (['mine', 'theirs', 'base'] as const).find((one) => rows[one] >= 0) ?? 'mine';
    const state: SheetState | undefined = this.sheet.states[book];
    return state === undefined ? '' : recordName(state, rows[book]);
  }

  #compareCells(number: number, rows: Places, cells: Map<number, MergeItem>, spelt: Set<number>): void {
    const still = this.#fromBase.mine.same && this.#fromBase.theirs.same;
    const [base, mine, theirs] = [this.#row('base', rows), this.#row('mine', rows), this.#row('theirs', rows)];
    if (still && base === mine && base === theirs) return;
    this.sheet.columns.forEach(({ header, places, silent }, column) => {
      const unseen = (side: Side): boolean => places[side] < 0;
      if ((unseen('mine') || unseen('theirs')) && !this.#isOneSided(places, silent)) return;
      const was = this.#cell('base', rows, places);
      const [one, other] = [this.#cell('mine', rows, places), this.#cell('theirs', rows, places)];
      const here = unseen('mine') ? 'untouched' : this.#standing(was, one, this.#fromBase.mine);
      const there = unseen('theirs') ? 'untouched' : this.#standing(was, other, this.#fromBase.theirs);
      const at = cellNumber(this.sheet, number, column);
      if (here !== 'changed' && there !== 'changed') {
        if (here === 'untouched' && there === 'respelt') spelt.add(at);
        return;
      }
      const both = here === 'changed' && there === 'changed';
      cells.set(
        at,
        this.#add({
          level: 'cell',
          sheet: this.sheet.name,
          record: this.#nameOf(rows),
          column: header,
          ...(here === 'changed' ? { here: 'changed' } : {}),
          ...(there === 'changed' ? { there: 'changed' } : {}),
          conflict: both && !this.#alike(one, other),
          cells: { base: was, mine: one, theirs: other },
          kind: this.#measure(rows, places),
          rows,
          columns: places,
        }),
      );
    });
  }

  /** Whether the earlier book and one side have a column of which the other, a list, says nothing. */
  #isOneSided(places: Places, silent: readonly Book[]): boolean {
    const lacking = (['mine', 'theirs'] as const).filter((side) => places[side] < 0);
    return places.base >= 0 && lacking.length === 1 && lacking.every((side) => silent.includes(side));
  }

  #measure(rows: Places, columns: Places): MergeItem['kind'] {
    const side: Side = columns.mine < 0 ? 'theirs' : 'mine';
    const state = this.sheet.states[side];
    return state === undefined ? 'text' : cellKind(state, rows[side], columns[side]);
  }
}
