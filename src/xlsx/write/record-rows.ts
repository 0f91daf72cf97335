import type { CellValue } from 'exceljs';
import { cellName, columnLetters, sheetRow } from '../../formula/address.ts';
import { type Content, isFormula, type Value } from '../../formula/values.ts';
import { type NamedSheet, valueColumn } from '../../sheet/named-values.ts';
import { type BookColumn, compiledSheets, namedSheetOf } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { recordKeys } from '../../workbook/record-names.ts';
import type { BookRow, SheetState } from '../../workbook/state.ts';
import { type CellRole, numberFormat, textFormat } from './cell-styles.ts';
import { type ColumnLook, columnLooks } from './column-looks.ts';
import { DeclaredFormulas } from './declared-formulas.ts';
import { cellNote } from './heading-note.ts';
import { fileValue } from './file-values.ts';
import type { CellExtra } from './placed-rows.ts';
import { packedTogether, RowText } from './row-text.ts';
import { type SpillCell, typedCell } from './typed-cell.ts';
import { WorkingCells } from './working-cells.ts';
import type { RowSource } from './writing.ts';

/** Records of a book that are made into rows together. */
interface RecordBlock {
  /** Its number among the blocks of its sheet. */
  readonly number: number;
  /** The book's records that it has, the last not included. */
  readonly from: number;
  readonly to: number;
}

/** Where a part of a sheet's records stands in the whole. */
interface SheetPart {
  /** Records of the sheet above the first. */
  readonly above: number;
  /** Records of the sheet, or so. */
  readonly records: number;
}

/** Makes the rows of one sheet's records as text, block by block. */
export class RecordRows {
  readonly #source: RowSource;
  readonly #state: SheetState;
  readonly #above: number;
  readonly #columns: readonly BookColumn[];
  readonly #looks: readonly ColumnLook[];
  /** The numbers of the columns' looks. */
  readonly #numbers: readonly number[];
  readonly #named: NamedSheet | undefined;
  readonly #declared: DeclaredFormulas | undefined;
  readonly #working: WorkingCells;
  readonly #text: RowText;
  /** Cells that formulas fill beside their own, by record. */
  readonly #spilled = new Map<number, SpillCell[]>();
  #extras: CellExtra[] = [];
  #keys: readonly string[] | undefined;

  constructor(source: RowSource, state: SheetState, { above, records }: SheetPart) {
    const { name } = state;
    const plan = compiledSheets.get(name);
    const laid = source.laid.get(name);
    this.#source = source;
    this.#state = state;
    this.#above = above;
    this.#columns = source.book.columns(name);
    this.#looks = columnLooks(name, this.#columns, source.units);
    this.#numbers = this.#looks.map(({ role, format }) => source.numbers.look(role, format));
    this.#named = namedSheetOf(name);
    this.#declared = plan && new DeclaredFormulas(source.formulas, plan, { records, above }, laid);
    this.#text = new RowText(source.numbers, 'all');
    this.#working = new WorkingCells(
      source.numbers,
      state,
      { laid, width: this.#columns.length, units: source.units },
      this.#declared,
    );
  }

  /** Columns that are exported as values, told once a sheet. */
  tellColumns(): void {
    this.#declared?.why.forEach((why, column) =>
      this.#source.said.otherwise.push({
        place: `${this.#state.name}, column ${this.#columns[column]?.header ?? ''}`,
        why: `exported as values, without formulas: ${why}`,
      }),
    );
  }

  /** The rows of a block, in texts that are packed together. */
  *block({ number, from, to }: RecordBlock): Generator<string> {
    this.#declared?.begin(number, to - 1);
    this.#working.begin();
    const named = this.#namingSaid();
    for (let record = from; record < to; record += 1) {
      const row = this.#state.rows[record];
      if (row === undefined) throw new Error(`${this.#state.name} has no record ${record}`);
      this.#addRecord(record, row);
      if (this.#text.length >= packedTogether) yield this.#text.taken();
    }
    named();
    if (this.#text.length > 0) yield this.#text.taken();
  }

  /** The rows below the last record that formulas of the user's fill; made after all blocks. */
  *filledBelow(): Generator<string> {
    const below = [...this.#spilled.keys()].filter((record) => record >= this.#state.rows.length);
    for (const record of below.toSorted((one, other) => one - other)) {
      this.#text.begin(sheetRow(record));
      this.#fill(record, 0);
      this.#text.end();
    }
    if (this.#text.length > 0) yield this.#text.taken();
  }

  /** The last row and column that have been filled. */
  get extent(): { readonly lastRow: number; readonly lastColumn: number } {
    const filled = [...this.#spilled].map(([record]) => sheetRow(record));
    const columns = [...this.#spilled.values()].flat().map(({ column }) => column + 1);
    const own = this.#columns.length + this.#working.count;
    return {
      lastRow: Math.max(sheetRow(this.#above + this.#state.rows.length - 1), ...filled),
      lastColumn: Math.max(own, ...columns),
    };
  }

  /** Notes of the rows made since this was last asked. */
  extras(): readonly CellExtra[] {
    const extras = this.#extras;
    this.#extras = [];
    return extras;
  }

  #addRecord(record: number, row: BookRow): void {
    this.#text.begin(sheetRow(this.#above + record), { hidden: row.hidden });
    const isPlain = row.notes === undefined && row.formats === undefined && row.looks === undefined;
    for (const [column, { computed }] of this.#columns.entries()) {
      const content = row.cells[column] ?? null;
      const isUsual = isPlain && this.#named === undefined && (computed ? content === null : !isFormula(content));
      if (!isUsual) this.#addCell({ sheet: this.#state.name, record, column }, row, computed, content);
      else if (computed) this.#addComputed(record, column, this.#numbers[column] ?? 0);
      else if (content !== null) this.#addInput({ sheet: this.#state.name, record, column }, content);
      else this.#addFilled(record, column);
    }
    this.#fill(record, this.#columns.length);
    this.#working.add(this.#text, record);
    this.#text.end();
  }

  /** A cell of its sheet's formula; one that comes to nothing and has no formula looks like its column. */
  #addComputed(record: number, column: number, look: number): void {
    const { value } = fileValue(this.#source.book.value({ sheet: this.#state.name, record, column }));
    const formula = value === null ? undefined : this.#declared?.element(column, record);
    if (value !== null && formula !== undefined) this.#text.computed(column, look, formula, value);
    else if (value !== null && value !== '')
      this.#text.cell(
        column,
        staysText(value) ? this.#source.numbers.look(this.#looks[column]?.role ?? 'computed', textFormat) : look,
        value,
      );
    else if (look !== this.#numbers[column]) this.#text.cell(column, look, null);
  }

  #addInput(place: CellPlace, content: Content): void {
    const value = this.#written(place, content);
    const { column } = place;
    if (value === null) return;
    const look = staysText(value)
      ? this.#source.numbers.look(this.#looks[column]?.role ?? 'input', textFormat)
      : (this.#numbers[column] ?? 0);
    this.#text.cell(column, look, value);
  }

  /** An empty cell: what another formula fills, or nothing. */
  #addFilled(record: number, column: number): boolean {
    const filled = this.#spilled.get(record)?.findLast((cell) => cell.column === column);
    if (filled !== undefined) this.#text.cell(column, this.#working.look, filled.value);
    return filled !== undefined;
  }

  /** What formulas fill from a column on. */
  #fill(record: number, from: number): void {
    const cells = new Map((this.#spilled.get(record) ?? []).map((cell) => [cell.column, cell.value]));
    for (const [column, value] of [...cells].toSorted(([one], [other]) => one - other))
      if (column >= from) this.#text.cell(column, this.#working.look, value);
  }

  /** A cell with a look, a note or a formula of its own, or of a named value. */
  #addCell(place: CellPlace, row: BookRow, computed: boolean, content: Content): void {
    const { record, column } = place;
    const note = row.notes?.[column];
    const own = row.looks?.[column];
    const said = cellNote(own?.comment, note);
    if (said !== undefined)
      this.#extras.push({ address: `${columnLetters(column)}${sheetRow(this.#above + record)}`, note: said });
    this.#sayOf(place, row, computed && content !== null);
    if (content === null && !computed && said === undefined && this.#addFilled(record, column)) return;
    const role = this.#role(column, { isOverride: computed && content !== null, isMarked: note !== undefined });
    const format = this.#format(place);
    const ownFormat = row.formats?.[column] === undefined ? own?.format : undefined;
    const look = (isLive: boolean): number =>
      this.#source.numbers.look(role, ownFormat ?? (isLive && format === textFormat ? 'General' : format), own);
    if (computed && content === null) {
      this.#addComputed(record, column, look(true));
      return;
    }
    const { value, live } = isFormula(content)
      ? typedCell(this.#source, place, content, (spill) => this.#spill(spill))
      : { value: this.#written(place, content), live: false };
    const number = staysText(value) ? this.#source.numbers.look(role, textFormat, own) : look(live);
    if (value === null && number === this.#numbers[column]) return;
    this.#text.cell(column, number, value);
  }

  #spill(cell: SpillCell): void {
    const cells = this.#spilled.get(cell.record);
    if (cells === undefined) this.#spilled.set(cell.record, [cell]);
    else cells.push(cell);
  }

  #role(
    column: number,
    { isOverride, isMarked }: { readonly isOverride: boolean; readonly isMarked: boolean },
  ): CellRole {
    return isMarked ? 'marked' : isOverride ? 'override' : (this.#looks[column]?.role ?? 'input');
  }

  #format({ sheet, record, column }: CellPlace): string {
    const { units, book } = this.#source;
    const format = this.#state.rows[record]?.formats?.[column];
    if (format !== undefined) return numberFormat(format.kind, units, format);
    const { kind, look } = this.#columns[column] ?? { kind: 'text' };
    const own = this.#named !== undefined && column === valueColumn ? book.kind({ sheet, record, column }) : kind;
    return own === kind ? numberFormat(kind, units, look) : numberFormat(own, units);
  }

  /** A value as its cell holds it, an empty text as no value; what is lost is reported. */
  #written({ sheet, record, column }: CellPlace, value: Value): CellValue {
    const { value: held, lost } = fileValue(value);
    if (lost !== undefined)
      this.#source.said.otherwise.push({ place: cellName(sheet, this.#above + record, column), why: lost });
    return held === '' ? null : held;
  }

  /** What the About sheet says of a cell. */
  #sayOf({ sheet, record, column }: CellPlace, row: BookRow, isOverride: boolean): void {
    const { overrides, remarks, formats } = this.#source.said;
    const place = { sheet, record: this.#above + record, column };
    if (isOverride) overrides.push(place);
    const [text, format] = [row.notes?.[column], row.formats?.[column]];
    if (text !== undefined) remarks.push({ place, text });
    if (format !== undefined) formats.push({ place, format });
  }

  /** Names the records of which something is said from here on until the answer is called. */
  #namingSaid(): () => void {
    const { typed, overrides, remarks, formats, names } = this.#source.said;
    const before = [overrides, typed, remarks, formats].map(({ length }) => length);
    return () => {
      const [overridden = 0, ...others] = before;
      const places = [
        ...overrides.slice(overridden),
        ...[typed, remarks, formats].flatMap((list, index) => list.slice(others[index]).map(({ place }) => place)),
      ];
      const { name: sheet } = this.#state;
      for (const record of new Set(places.map((place) => place.record))) {
        this.#keys ??= recordKeys(this.#state);
        const name = this.#keys[record - this.#above] ?? '';
        if (name !== '') names.push({ place: { sheet, record, column: 0 }, name });
      }
    };
  }
}

/** A text that a program would take for a formula, were it typed again. */
const staysText = (value: CellValue): boolean => typeof value === 'string' && /^[=+\-@]/.test(value);
