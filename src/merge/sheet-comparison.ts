import type { UnitSystem } from '../units/quantities.ts';
import { unitColumn, valueColumn } from '../sheet/named-values.ts';
import { cellKind, namedValue } from '../workbook/declared.ts';
import { namesSheet } from '../workbook/own-names.ts';
import type { SheetState } from '../workbook/state.ts';
import { CellComparison } from './cell-comparison.ts';
import { ColumnComparison } from './column-comparison.ts';
import type { Book, MatchedColumn, MatchedSheet } from './matched-sheets.ts';
import type { Change, MergeItem, Places, Side } from './merge-item.ts';
import type { ColumnFact, ColumnRules } from './own-column-facts.ts';
import { recordName } from '../workbook/record-names.ts';
import { isBlank } from './same-content.ts';

/** What was changed in a sheet, and by whom, with the numbers of its records and columns. */
export interface SheetPlan {
  readonly items: readonly MergeItem[];
  /** By record number: where one book has it and another does not. */
  readonly records: ReadonlyMap<number, MergeItem>;
  /** By column number. */
  readonly columns: ReadonlyMap<number, MergeItem>;
  /** What was changed of own columns, by column number. */
  readonly facts: ReadonlyMap<number, ReadonlyMap<ColumnFact, MergeItem>>;
  /** The formulas of own columns. */
  readonly rules: ColumnRules;
  /** By record and column number, as `cellNumber` makes one of both. */
  readonly cells: ReadonlyMap<number, MergeItem>;
  /** Cells that nobody changed and that only the other book writes in another way. */
  readonly spelt: ReadonlySet<number>;
}

export const cellNumber = ({ columns }: MatchedSheet, record: number, column: number): number =>
  record * columns.length + column;

/** One sheet of three books, compared cell by cell. */
export class SheetComparison {
  readonly sheet: MatchedSheet;
  readonly #cells: CellComparison;
  readonly #columns: ColumnComparison;
  #items: MergeItem[] = [];

  constructor(sheet: MatchedSheet, sheets: readonly MatchedSheet[], units: UnitSystem, converted: boolean) {
    this.sheet = sheet;
    this.#cells = new CellComparison(sheet, sheets, converted);
    this.#columns = new ColumnComparison(this.#cells, units);
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
            : this.#cells.recordChanged(side, places),
      ) ||
      columns.some(
        (column) =>
          column.own &&
          (column.places.base >= 0 !== column.places[side] >= 0 || this.#columns.factsChanged(side, column)),
      )
    );
  }

  #blank(rows: Places): boolean {
    return (['base', 'mine', 'theirs'] as const).every((book) => {
      const row = this.#cells.row(book, rows);
      return row === undefined || (row.notes === undefined && row.cells.every(isBlank));
    });
  }

  plan(): SheetPlan {
    const records = new Map<number, MergeItem>();
    const columns = new Map<number, MergeItem>();
    const facts = new Map<number, ReadonlyMap<ColumnFact, MergeItem>>();
    const cells = new Map<number, MergeItem>();
    const spelt = new Set<number>();
    this.#items = [];
    this.sheet.columns.forEach((column, number) => {
      // One that an earlier list lacks is new where it is not here; where it is, nobody knows since when.
      if (!column.own || (column.silent.includes('base') && column.places.mine >= 0)) return;
      const item = this.#columnItem(column);
      if (item !== undefined) columns.set(number, item);
      const changed = this.#columns.items(column);
      this.#items.push(...changed.values());
      if (changed.size > 0) facts.set(number, changed);
    });
    this.sheet.rows.forEach((places, number) => {
      const item = this.#recordItem(places);
      if (item !== undefined) records.set(number, item);
      if (places.mine >= 0 && places.theirs >= 0) this.#compareRow(number, places, cells, spelt);
    });
    return { items: this.#items, records, columns, facts, cells, spelt, rules: this.#cells.rules };
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
    const presence = this.#presence(rows, (side) => this.#cells.recordChanged(side, rows));
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
    const changed = (side: Side): boolean => this.#columns.changed(side, column);
    const presence = this.#presence(column.places, changed, column.silent);
    if (presence === undefined) return undefined;
    return this.#add({
      level: 'column',
      sheet: this.sheet.name,
      record: '',
      column: column.header,
      ...presence,
      kind: 'text',
      rows: { base: -1, mine: -1, theirs: -1 },
      columns: column.places,
    });
  }

  #nameOf(rows: Places): string {
    const book = (['mine', 'theirs', 'base'] as const).find((one) => rows[one] >= 0) ?? 'mine';
    const state: SheetState | undefined = this.sheet.states[book];
    return state === undefined ? '' : recordName(state, rows[book]);
  }

  #compareRow(number: number, rows: Places, cells: Map<number, MergeItem>, spelt: Set<number>): void {
    this.#compareCells(number, rows, cells, spelt);
    if (this.sheet.name === namesSheet) this.#joinUnits(number, rows, cells);
  }

  #compareCells(number: number, rows: Places, cells: Map<number, MergeItem>, spelt: Set<number>): void {
    const { fromBase } = this.#cells;
    const still = fromBase.mine.same && fromBase.theirs.same;
    const [base, mine, theirs] = [
      this.#cells.row('base', rows),
      this.#cells.row('mine', rows),
      this.#cells.row('theirs', rows),
    ];
    if (still && base === mine && base === theirs) return;
    this.sheet.columns.forEach((matched, column) => {
      const { header, places, silent } = matched;
      const unseen = (side: Side): boolean => places[side] < 0;
      if ((unseen('mine') || unseen('theirs')) && !this.#isOneSided(places, silent)) return;
      const was = this.#cells.cell('base', rows, matched);
      const [one, other] = [this.#cells.cell('mine', rows, matched), this.#cells.cell('theirs', rows, matched)];
      const here = unseen('mine') ? 'untouched' : this.#cells.standing(was, one, fromBase.mine);
      const there = unseen('theirs') ? 'untouched' : this.#cells.standing(was, other, fromBase.theirs);
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
          conflict: both && !this.#cells.alike(one, other),
          cells: { base: was, mine: one, theirs: other },
          kind: this.#measure(rows, places),
          rows,
          columns: places,
        }),
      );
    });
  }

  /**
   * A named value of the user's own whose number one side changed and whose unit the other: either alone would make
   * another quantity of it, so both are for somebody to decide.
   */
  #joinUnits(number: number, rows: Places, cells: Map<number, MergeItem>): void {
    const row = this.#cells.row('mine', rows);
    if (namedValue(String(row?.cells[0] ?? '')) !== undefined) return;
    const places = [cellNumber(this.sheet, number, valueColumn), cellNumber(this.sheet, number, unitColumn)];
    const items = places.flatMap((at) => cells.get(at) ?? []);
    const [one, other] = items;
    if (one === undefined || other === undefined) return;
    const isOfBoth = items.some(({ here, there }) => here !== undefined && there !== undefined);
    if (isOfBoth || (one.here === undefined) === (other.here === undefined)) return;
    places.forEach((at, place) => {
      const item = items[place];
      if (item === undefined) return;
      const joined: MergeItem = { ...item, here: 'changed', there: 'changed', conflict: true };
      cells.set(at, joined);
      this.#items[this.#items.indexOf(item)] = joined;
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
