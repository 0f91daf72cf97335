import { belts } from '../../../sheets/belts/index.ts';
import type { NamedCurrency } from './named-currencies.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import type { Content } from '../../formula/values.ts';
import { type Column, isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { BookRow, UserColumn } from '../../workbook/state.ts';
import { positionName, columnName, columnNumber } from '../read/cell-address.ts';
import { textContent } from './cell-content.ts';
import { columnReader, type ColumnReader, verbatimReader } from './cell-reading.ts';
import {
  type ReadingRemark,
  type ColumnProposal,
  type NotUnderstood,
  type TableProposal,
  type TableReport,
  UnusableList,
  type ValueChoice,
} from './import-model.ts';
import type { RawBook, RawCell, RawSheet } from '../read/raw-book.ts';
import { fillFromDesignation } from './belt-designations.ts';
import { type CountedNote, countedWords } from './counted-notes.ts';
import { withoutDittos } from './ditto-marks.ts';
import { refuseMany, refuseWide } from './list-size.ts';
import { cellText, hasFormula, rowCells, spreadMerges, turned } from '../read/raw-cells.ts';
import { dayColumns, recordRows } from './list-rows.ts';
import { OwnColumns } from './own-columns.ts';
import { columnOf, columnReport, countValue, keptFormulas, type MappedColumn, resultless } from './mapped-column.ts';
import { RecordLooks } from './record-looks.ts';
import { withValueChoices } from './value-choices.ts';
import { ColumnFormulas } from './row-formulas.ts';

/** Records read so far, and what was noticed on the way. */
export interface ImportNotes {
  readonly notUnderstood: NotUnderstood[];
  readonly remarks: ReadingRemark[];
  readonly assumed: string[];
  readonly counted: CountedNote[];
}

export function tell({ assumed, counted }: Pick<ImportNotes, 'assumed' | 'counted'>, note: CountedNote): void {
  counted.push(note);
  assumed.push(countedWords(note));
}

/** Where cells are read, and the notes of their row. */
interface ReadAt {
  readonly table: TableProposal;
  readonly place: (cell: RawCell) => string;
  readonly notes: Record<number, string>;
}

/** Lists read into one declared sheet, one after the other; columns of the user's own follow the declared ones. */
export class SheetImport {
  readonly declaration: SheetDeclaration;
  readonly #own: OwnColumns;
  readonly rows: BookRow[] = [];
  /** Prices that name a currency: whether it is their rows' is seen when all sheets are read. */
  readonly currencies: NamedCurrency[] = [];
  /** How the files of the lists show them. */
  readonly looks: RecordLooks[] = [];
  /** Where each row came from. */
  readonly origins: { readonly sheet: string; readonly cell: (column: string) => string }[] = [];
  readonly #units: UnitSystem;
  readonly #notes: ImportNotes;
  readonly #values: readonly ValueChoice[];
  /** Columns all of whose cells are days, where that is known of more rows than are read here. */
  readonly #dates: ReadonlyMap<number, boolean> | undefined;
  readonly #words: (column: Column) => ReadonlyMap<string, string> | undefined;

  /** `words` gives the names that a column chooses from in another sheet, by their small letters. */
  constructor(
    declaration: SheetDeclaration,
    units: UnitSystem,
    notes: ImportNotes,
    words: (column: Column) => ReadonlyMap<string, string> | undefined,
    values: readonly ValueChoice[],
    dates?: ReadonlyMap<number, boolean>,
  ) {
    this.declaration = declaration;
    this.#own = new OwnColumns(declaration);
    this.#units = units;
    this.#notes = notes;
    this.#words = words;
    this.#values = values;
    this.#dates = dates;
  }

  get userColumns(): readonly UserColumn[] {
    return this.#own.columns;
  }

  /** Reads one list; its sheet may have so many records. */
  add(book: RawBook, table: TableProposal, most: number): TableReport {
    const found = book.sheets.find(({ name }) => name === table.sheet);
    if (found === undefined) throw new UnusableList(`The file has no sheet "${table.sheet}".`);
    const spread = spreadMerges(table.turned ? turned(found) : found, table.headerRow + 1);
    const rows = recordRows(spread, table);
    const names = table.columns.find(({ target }) => target === this.declaration.key);
    const sheet = withoutDittos(spread, rows, names === undefined ? 0 : numberOf(names, table));
    const derived = new Map<string, number>();
    if (sheet.merges.some(({ top, bottom }) => bottom > top && top > table.headerRow && top <= table.lastRow))
      this.#notes.assumed.push(`${table.sheet}: a merged cell applies to every row that it spans`);
    refuseMany(table, this.declaration, this.rows.length, rows.length, most);
    const mapped = this.#mapped(sheet, table, rows);
    refuseWide(table, this.userColumns.length, rows.length);
    const place = (cell: { readonly row: number; readonly column: number }): string =>
      positionName(table.turned ? { row: cell.column, column: cell.row } : cell);
    const headings = new Map(
      table.skipped.filter(({ what }) => what === 'heading').map(({ row, text }) => [row, text.replace(/\s*:$/, '')]),
    );
    const area =
      table.areaFrom === undefined
        ? -1
        : this.declaration.columns.findIndex(({ header }) => header === ('Area' satisfies BeltHeader));
    const looks = new RecordLooks(found, table, mapped, this.declaration);
    const headingRows = [...headings.keys()].toSorted((a, b) => a - b);
    for (const row of rows) {
      const built = this.#record(rowCells(sheet, row), row, mapped, table, place);
      if (this.declaration === belts)
        for (const header of fillFromDesignation(built.cells, this.#units))
          derived.set(header, (derived.get(header) ?? 0) + 1);
      if (area >= 0 && built.cells[area] === null) {
        const heading = headingRows.findLast((at) => at < row);
        built.cells[area] =
          table.areaFrom === 'sheet name' ? table.sheet : textContent(headings.get(heading ?? 0) ?? '') || null;
      }
      this.rows.push(looks.record(built, row, rowCells(sheet, row)));
      this.origins.push({
        sheet: table.sheet,
        cell: (header) => place({ row, column: columnOf(mapped, this.declaration, header) ?? 1 }),
      });
    }
    if (area >= 0)
      this.#notes.assumed.push(
        `${table.sheet}, Area: no column holds it; taken from ` +
          `${table.areaFrom === 'sheet name' ? "the sheet's name" : 'the headings above ' + 'the records'}`,
      );
    for (const [header, count] of derived)
      tell(this.#notes, { what: 'designations', sheet: table.sheet, header, count });
    this.looks.push(looks);
    if (looks.hiddenRows !== undefined) tell(this.#notes, looks.hiddenRows);
    const columns = [...mapped.values()].map(columnReport);
    const filled = derived.size === 0 ? {} : { derived: [...derived.keys()] };
    return { ...table, records: rows.length, columns, ...filled };
  }

  #mapped(sheet: RawSheet, table: TableProposal, rows: readonly number[]): Map<number, MappedColumn> {
    const mapped = new Map<number, MappedColumn>();
    const taken = new Map<string, string>();
    this.#own.startList();
    const known = new Set<number>();
    for (const column of table.columns) known.add(numberOf(column, table));
    const dates = this.#dates ?? dayColumns(rows.map((row) => rowCells(sheet, row)));
    const unknown = [...dates.keys()]
      .filter((column) => !known.has(column))
      .map((column): ColumnProposal => ({
        letter: table.turned ? String(column) : columnName(column),
        header: '',
        target: 'own',
        confidence: 0,
        why: 'it has no header',
        suggestions: [],
      }));
    for (const proposal of [...table.columns, ...unknown]) {
      const column = numberOf(proposal, table);
      const bare = { proposal, formulas: new ColumnFormulas(), filled: 0, kept: 0, values: 0 };
      if (proposal.target === 'ignore')
        mapped.set(column, { ...bare, position: undefined, reader: verbatimReader(false) });
      else if (proposal.target === 'own') {
        const position = this.#own.position(proposal, dates.get(column) === true);
        const asDates = this.userColumns[position - this.declaration.columns.length]?.kind === 'date';
        mapped.set(column, { ...bare, position, reader: verbatimReader(asDates) });
      } else mapped.set(column, { ...bare, ...this.#declared(proposal, table, taken) });
    }
    return mapped;
  }

  #declared(
    proposal: ColumnProposal,
    table: TableProposal,
    taken: Map<string, string>,
  ): { readonly position: number; readonly reader: ColumnReader } {
    const { columns } = this.declaration;
    const position = columns.findIndex(({ header }) => header === proposal.target);
    const column = columns[position];
    if (column === undefined || isComputed(column))
      throw new UnusableList(
        `${table.sheet}, column ${proposal.letter}: "${proposal.target}" is not an input of ${this.declaration.name}.`,
      );
    const other = taken.get(proposal.target);
    if (other !== undefined)
      throw new UnusableList(
        `${table.sheet}: columns ${other} and ${proposal.letter} are both mapped to ${proposal.target}. Keep one of ` +
          `them as your own column.`,
      );
    taken.set(proposal.target, proposal.letter);
    const { unit, decimal, dateOrder, skewFrom } = proposal;
    const values = this.#values.filter((value) => value.column === proposal.target);
    return {
      position,
      reader: withValueChoices(
        columnReader(column, this.declaration, {
          system: this.#units,
          listSystem: table.units,
          unit,
          decimal,
          dateOrder,
          skewFrom,
          words: this.#words(column),
        }),
        values,
      ),
    };
  }

  #record(
    cells: readonly RawCell[],
    row: number,
    mapped: ReadonlyMap<number, MappedColumn>,
    table: TableProposal,
    place: (cell: RawCell) => string,
  ): { cells: Content[]; notes: Record<number, string> } {
    const contents = new Array<Content>(this.declaration.columns.length + this.userColumns.length).fill(null);
    const notes: Record<number, string> = {};
    const hours = this.#hoursPerYear(cells, mapped);
    let formulas = false;
    for (const cell of cells) {
      const item = mapped.get(cell.column);
      if (item === undefined) continue;
      item.filled += 1;
      if (item.position === undefined) continue;
      formulas ||= hasFormula(cell);
      // A formula whose result the file does not hold may still be computed by the book.
      if (!resultless(cell) || table.turned) this.#read(cell, item, hours, contents, { table, place, notes });
    }
    if (formulas) {
      const values = table.turned
        ? cells.filter(hasFormula).map((cell) => ({ cell, why: 'its list is transposed' }))
        : keptFormulas(cells, row, this.rows.length + 2, mapped, contents);
      for (const { cell, why } of values) {
        const item = mapped.get(cell.column);
        if (item === undefined) continue;
        countValue(item, why, place(cell));
        if (resultless(cell) && !table.turned) this.#read(cell, item, hours, contents, { table, place, notes });
      }
    }
    return { cells: contents, notes };
  }

  #read(cell: RawCell, item: MappedColumn, hours: number | undefined, contents: Content[], at: ReadAt): void {
    if (item.position === undefined) return;
    const read = item.reader.read(cell, hours);
    const { repeats } = cell;
    const reading = repeats === undefined ? read : { ...read, remark: `the mark ${repeats} is read as the cell above` };
    contents[item.position] = reading.content;
    const { issue, remark, currency } = reading;
    const given = cell.repeats ?? cellText(cell);
    const column =
      item.proposal.target === 'own'
        ? item.proposal.header === ''
          ? `Column ${item.proposal.letter}`
          : item.proposal.header
        : item.proposal.target;
    if (issue === undefined && remark === undefined && currency === undefined) return;
    const where = { sheet: at.table.sheet, cell: at.place(cell), column, given };
    if (currency !== undefined)
      this.currencies.push({ record: this.rows.length, position: item.position, currency, where });
    if (issue !== undefined) {
      this.#notes.notUnderstood.push({ ...where, why: issue.why, allowed: issue.allowed });
      at.notes[item.position] = `"${where.given}": ${issue.why}. Allowed: ${issue.allowed}.`;
    } else if (remark !== undefined) {
      this.#notes.remarks.push({ ...where, what: remark });
      at.notes[item.position] = `The list says "${where.given}": ${remark}.`;
    }
  }

  #hoursPerYear(cells: readonly RawCell[], mapped: ReadonlyMap<number, MappedColumn>): number | undefined {
    for (const [column, item] of mapped) {
      if (item.proposal.target !== ('Hours per year' satisfies BeltHeader)) continue;
      const cell = cells.find((other) => other.column === column);
      const content = cell === undefined ? null : item.reader.read(cell).content;
      return typeof content === 'number' ? content : undefined;
    }
    return undefined;
  }
}

const numberOf = ({ letter }: ColumnProposal, { turned: sideways }: TableProposal): number =>
  sideways ? Number(letter) : columnNumber(letter);
