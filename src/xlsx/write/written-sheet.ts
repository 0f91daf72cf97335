import type { CellValue, Row, Worksheet } from 'exceljs';
import { type Content, isFormula, type Value } from '../../formula/values.ts';
import { isWords } from '../../units/quantities.ts';
import { spelt } from '../../units/spelling.ts';
import { headerWithUnit, shownHeader } from '../../sheet/header.ts';
import { type NamedSheet, valueColumn } from '../../sheet/named-values.ts';
import { type BookColumn, compiledSheets, headerPosition, namedSheetOf, namedValue } from '../../workbook/declared.ts';
import { cellName, columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { SheetState } from '../../workbook/state.ts';
import { type CellRole, cellStyle, numberFormat, textFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { fileValue } from './file-values.ts';
import { DeclaredFormulas } from './declared-formulas.ts';
import { lateRows } from './late-rows.ts';
import { readLimits } from '../read/read-limits.ts';
import { type SpillCell, typedCell } from './typed-cell.ts';
import { addValidation, allowedInWords, columnRule, namedValueRule } from './validations.ts';
import { addedSheet, columnWidth, widest } from './sheet-columns.ts';
import { type WorkingSide, workingSide, writeSideHeadings } from './working-side.ts';
import { writeHeadings, type Writing } from './writing.ts';

/** Rows below the last record that rules for what may be typed still cover. */
const roomBelow = 200;

/** What a heading says when one points at it. */
export function headingNote({ doc, declared }: Pick<BookColumn, 'doc' | 'declared'>, units: Writing['units']): string {
  if (declared === undefined) return doc;
  const { choices, ...limits } = declared;
  const allowed =
    declared.formula !== undefined
      ? 'Calculated.'
      : choices !== undefined && 'sheet' in choices
        ? `Allowed: a ${choices.header.toLowerCase()} of the sheet ${choices.sheet}.`
        : isWords(declared.kind) && choices === undefined
          ? ''
          : `Allowed: ${allowedInWords({ ...limits, ...(choices === undefined ? {} : { choices }) }, units)}.`;
  const parts = [`${doc}.`, allowed, declared.source === undefined ? '' : `Source: ${declared.source}.`];
  return spelt(parts.filter((part) => part !== '').join('\n'), units);
}

/** What is shown where one points at a cell: what the user wrote beside it, then the program's remark. */
function cellNote(comment: string | undefined, remark: string | undefined): string | undefined {
  const parts = [comment, remark].flatMap((text) => (text === undefined ? [] : [fileText(text).text]));
  return parts.length === 0 ? undefined : parts.join('\n\n');
}

/** Writes one sheet of the book: heading, records, rules. */
export function writeSheet(writing: Writing, state: SheetState): void {
  const { book, units } = writing;
  const { name } = state;
  const columns = book.columns(name);
  if (columns.length > readLimits.columnNumber || state.rows.length >= readLimits.rowNumber) {
    throw new Error(
      `the sheet ${name} has ${columns.length} columns and ${state.rows.length} rows; a file holds ` +
        `${readLimits.columnNumber} and ${readLimits.rowNumber}`,
    );
  }
  const plan = compiledSheets.get(name);
  const key = plan === undefined ? -1 : columns.findIndex(({ header }) => header === plan.declaration.key);
  const headers = columns.map(
    (column) => fileText(headerWithUnit(shownHeader(column, units), column.kind, units, column.unit)).text,
  );
  const calculated = columns.map((column, index) =>
    columnWidth(
      headers[index] ?? '',
      column,
      namedSheetOf(name) === undefined ? widest.record : widest.named,
      state.rows.slice(0, 500).map((_, record) => book.value({ sheet: name, record, column: index })),
    ),
  );
  const sheet = addedSheet(writing, state, { columns, widths: calculated, key });
  writeHeadings(
    sheet,
    columns.map((column, index) => ({
      text: headers[index] ?? '',
      computed: column.computed,
      ...(column.declared === undefined && writing.book.sheet(name).userColumns.every(({ doc }) => doc !== column.doc)
        ? {}
        : { note: headingNote(column, units) }),
    })),
    calculated,
  );

  const records = new RecordWriter(writing, state, sheet, { columns, key });
  records.ruleNamedValues();
  writeSideHeadings(sheet, records.side, columns.length);
  writing.late.push(lateRows(sheet, () => records.rows(), writing.pack));

  const last = sheetRow(Math.max(state.rows.length, 1) - 1);
  // What only the file has beside the sheet is not printed.
  if (records.side.headings.length > 0) sheet.pageSetup.printArea = `A1:${columnLetters(columns.length - 1)}${last}`;
  if (columns.length > 0) sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: last, column: columns.length } };
  for (const [index, column] of columns.entries()) {
    if (column.declared === undefined || column.computed || namedSheetOf(name) !== undefined) continue;
    const letters = columnLetters(index);
    const rule = columnRule(column.declared, `${letters}2`, units, (other, header) =>
      wordsRange(writing, other, header),
    );
    if (rule !== undefined) addValidation(sheet, `${letters}2:${letters}${last + roomBelow}`, rule);
  }
}

/** The cells that hold the words another column allows. */
function wordsRange({ book, sheets }: Writing, sheet: string, header: string): string {
  const letters = columnLetters(headerPosition(sheet, header));
  return (
    `${quotedSheet(sheets.get(sheet) ?? sheet)}!$${letters}$2:$${letters}$` +
    `${sheetRow(book.sheet(sheet).rows.length - 1) + roomBelow}`
  );
}

/** Makes the rows of one sheet's records, cell by cell. */
class RecordWriter {
  readonly #writing: Writing;
  readonly #state: SheetState;
  readonly #sheet: Worksheet;
  readonly #columns: readonly BookColumn[];
  /** The column that names a record; -1 in a sheet of the user's. */
  readonly #key: number;
  readonly #named: NamedSheet | undefined;
  readonly #declared: DeclaredFormulas | undefined;
  readonly #formats: readonly string[];
  /** What stands to the right of all columns. */
  readonly side: WorkingSide;
  /** Cells that formulas fill beside their own, by record. */
  readonly #spilled = new Map<number, SpillCell[]>();

  constructor(
    writing: Writing,
    state: SheetState,
    sheet: Worksheet,
    { columns, key }: { readonly columns: readonly BookColumn[]; readonly key: number },
  ) {
    const plan = compiledSheets.get(state.name);
    this.#writing = writing;
    this.#state = state;
    this.#sheet = sheet;
    this.#columns = columns;
    this.#key = key;
    this.#named = namedSheetOf(state.name);
    const laid = writing.laid.get(state.name);
    this.#declared =
      plan === undefined ? undefined : new DeclaredFormulas(writing.formulas, plan, state.rows.length, laid);
    this.side = workingSide(state, laid, this.#declared, writing.units);
    this.#formats = columns.map(({ kind, look }) => numberFormat(kind, writing.units, look));
  }

  /** How a cell is looked at; a content in place of the sheet's formula is noted for the About sheet. */
  #role(place: CellPlace, computed: boolean, content: Content, note: string | undefined): CellRole {
    if (computed && content !== null) this.#writing.overrides.push(place);
    if (note !== undefined) return 'marked';
    if (computed && content !== null) return 'override';
    return computed || this.#named?.editable === false ? 'computed' : place.column === this.#key ? 'key' : 'input';
  }

  /** What a cell holds, and whether that is a live formula. */
  #held(place: CellPlace, computed: boolean, content: Content): { readonly value: CellValue; readonly live: boolean } {
    const { book } = this.#writing;
    if (computed && content === null) {
      const result = fileValue(book.value(place)).value;
      return { value: this.#declared?.cell(place.column, place.record, result) ?? null, live: true };
    }
    if (!isFormula(content)) return { value: written(this.#writing, place, content), live: false };
    return typedCell(this.#writing, place, content, (spill) => this.#spill(spill));
  }

  #spill(cell: SpillCell): void {
    const cells = this.#spilled.get(cell.record);
    if (cells === undefined) this.#spilled.set(cell.record, [cell]);
    else cells.push(cell);
  }

  #format({ sheet, record, column }: CellPlace): string {
    const format = this.#state.rows[record]?.formats?.[column];
    if (format !== undefined) return numberFormat(format.kind, this.#writing.units, format);
    const { kind } = this.#columns[column] ?? { kind: 'text' };
    const own =
      this.#named !== undefined && column === valueColumn ? this.#writing.book.kind({ sheet, record, column }) : kind;
    return own === kind ? (this.#formats[column] ?? 'General') : numberFormat(own, this.#writing.units);
  }

  *rows(): Generator<Row> {
    const { name: sheet, rows } = this.#state;
    this.#declared?.why.forEach((why, column) =>
      this.#writing.otherwise.push({
        place: `${sheet}, column ${this.#columns[column]?.header ?? ''}`,
        why: `exported as values, without formulas: ${why}`,
      }),
    );
    for (const [record, row] of rows.entries()) {
      const fileRow = this.#sheet.getRow(sheetRow(record));
      for (const [column, { computed }] of this.#columns.entries()) {
        const place = { sheet, record, column };
        const content = row.cells[column] ?? null;
        const note = row.notes?.[column];
        const cell = fileRow.getCell(column + 1);
        const format = this.#format(place);
        const look = row.looks?.[column];
        const role = this.#role(place, computed, content, note);
        const { value, live } = this.#held(place, computed, content);
        cell.value = value;
        cell.style = cellStyle(
          role,
          staysText(value)
            ? textFormat
            : ((row.formats?.[column] === undefined ? look?.format : undefined) ??
                (live && format === textFormat ? 'General' : format)),
          look,
        );
        const said = cellNote(look?.comment, note);
        if (said !== undefined) cell.note = said;
      }
      this.#fill(fileRow, record);
      for (const [index, value] of this.side.cells(record).entries()) {
        const cell = fileRow.getCell(this.#columns.length + index + 1);
        cell.value = value;
        cell.style = cellStyle('computed');
      }
      if (row.hidden === true) fileRow.hidden = true;
      yield fileRow;
    }
    const below = [...this.#spilled.keys()].filter((record) => record >= rows.length);
    for (const record of below.toSorted((one, other) => one - other)) {
      const fileRow = this.#sheet.getRow(sheetRow(record));
      this.#fill(fileRow, record);
      yield fileRow;
    }
  }

  /** Puts what formulas of this row and of those above it fill where nothing else stands. */
  #fill(row: Row, record: number): void {
    for (const { column, value } of this.#spilled.get(record) ?? []) {
      if ((this.#state.rows[record]?.cells[column] ?? null) !== null) continue;
      const cell = row.getCell(column + 1);
      cell.value = value;
      cell.style = cellStyle('computed');
    }
  }

  /** What may be typed into the cells of named values. */
  ruleNamedValues(): void {
    if (this.#named?.editable !== true) return;
    for (const { name } of this.#named.values) {
      const record = this.#state.rows.findIndex(({ cells }) => cells[0] === name);
      const declared = namedValue(name);
      if (record < 0 || declared === undefined) continue;
      const address = `${columnLetters(valueColumn)}${sheetRow(record)}`;
      const rule = namedValueRule(declared, address, this.#writing.units);
      if (rule !== undefined) addValidation(this.#sheet, address, rule);
    }
  }
}

/** A text that a program would take for a formula, were it typed again. */
const staysText = (value: CellValue): boolean => typeof value === 'string' && /^[=+\-@]/.test(value);

/** A value as its cell holds it, an empty text as no value; what is lost is reported. */
function written({ otherwise }: Writing, { sheet, record, column }: CellPlace, value: Value): CellValue {
  const { value: held, lost } = fileValue(value);
  if (lost !== undefined) otherwise.push({ place: cellName(sheet, record, column), why: lost });
  return held === '' ? null : held;
}
