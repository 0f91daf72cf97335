import { DetailedCellError, type ExportedChange, HyperFormula, type SimpleCellAddress } from 'hyperformula';
import type { EngineeringFunction } from './define.ts';
import { FigureNames, registerFigures } from './engine-figures.ts';
import { registerFunctions } from './engine-functions.ts';
import { registerStandardFunctions, spillingStandard } from './engine-standard.ts';
import { faultCode } from './engine-values.ts';
import { licensed } from './engine-licence.ts';
import { EngineEntry } from './engine-entry.ts';
import { EngineMessages, notFinite } from './engine-messages.ts';
import { registerMissingSheets } from './engine-missing-sheets.ts';
import { formulaExcess } from './formula-limits.ts';
import { syntaxFault } from './syntax-repair.ts';
import { type Content, Fault, isFault, isFormula, type Matrix, type Value } from './values.ts';

/**
 * The formula engine: the only place that knows HyperFormula.
 *
 * Sheets are rectangles of contents; rows and columns count from 0 here, row 0 is the header.
 */

export interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** For tests: the engine is measured on its own. */
export interface SheetContents {
  readonly name: string;
  readonly rows: readonly (readonly (Content | Fault)[])[];
}

interface EngineName {
  readonly name: string;
  /** Absolute cell reference, without an equals sign. */
  readonly reference: string;
}

/** The engine knows the truths only as functions; people write them bare. */
const truths = ['TRUE', 'FALSE'].map((name) => ({ name, expression: `=${name}()` }));

const settings = {
  smartRounding: false,
  precisionRounding: 14,
  // Only what every program reads the same: spreadsheet/calendar.ts.
  dateFormats: ['YYYY-MM-DD'],
  /** Enough for the largest sheet that import accepts. */
  maxRows: 250_000,
  useArrayArithmetic: true,
  accentSensitive: true,
  undoLimit: 0,
};

const noRoom = (value: unknown): boolean => value instanceof DetailedCellError && faultCode(value.type) === '#SPILL!';

export class Engine {
  readonly #book: HyperFormula;
  /** Formulas whose spill grows and shrinks with their inputs, with the size the engine has reserved. */
  readonly #spills = new Map<string, { readonly place: Place; readonly rows: number; readonly columns: number }>();
  readonly #spilling: ReadonlySet<string>;
  readonly #entry: EngineEntry;
  readonly #messages: EngineMessages;
  /** Formulas that had no room for their spill when it was last tried. */
  readonly #blocked = new Map<string, SimpleCellAddress>();

  private constructor(
    book: HyperFormula,
    functions: readonly EngineeringFunction[],
    entry: EngineEntry,
    messages: EngineMessages,
  ) {
    this.#book = book;
    this.#entry = entry;
    this.#messages = messages;
    this.#spilling = new Set([
      ...functions.filter(({ spills }) => spills).map(({ name }) => name),
      ...spillingStandard,
    ]);
  }

  static build(
    functions: readonly EngineeringFunction[],
    sheets: readonly SheetContents[],
    names: readonly EngineName[],
  ): Engine {
    registerStandardFunctions();
    registerFunctions(functions);
    registerMissingSheets();
    registerFigures();
    const figures = new FigureNames(functions, new Set(names.map(({ name }) => name.toLowerCase())));
    const entry = new EngineEntry(new Set(sheets.map(({ name }) => name.toLowerCase())), figures);
    const contents = Object.fromEntries(sheets.map(({ name, rows }) => [name, rows.map((row) => entry.row(row))]));
    const expressions = [...truths, ...names.map(({ name, reference }) => ({ name, expression: `=${reference}` }))];
    const book = licensed((licenseKey) =>
      HyperFormula.buildFromSheets(contents, { ...settings, licenseKey }, expressions),
    );
    const engine = new Engine(book, functions, entry, new EngineMessages(names.map(({ name }) => name)));
    for (const { name, rows } of sheets) {
      rows.forEach((row, rowIndex) =>
        row.forEach((content, column) => {
          if (!isFormula(content)) return;
          engine.#note({ sheet: name, row: rowIndex, column }, content);
          engine.#noteBlocked(engine.#address({ sheet: name, row: rowIndex, column }));
        }),
      );
    }
    engine.#respill();
    return engine;
  }

  #sheetId(name: string): number {
    const id = this.#book.getSheetId(name);
    if (id === undefined) throw new Error(`the engine has no sheet ${name}`);
    return id;
  }

  #address({ sheet, row, column }: Place): SimpleCellAddress {
    return { sheet: this.#sheetId(sheet), row, col: column };
  }

  #note(place: Place, content: Content | Fault): void {
    const key = `${place.sheet}!${place.row},${place.column}`;
    if (isFormula(content) && [...this.#spilling].some((name) => content.toUpperCase().includes(`${name}(`))) {
      this.#spills.set(key, { place, rows: 0, columns: 0 });
    } else if (this.#spills.size > 0) this.#spills.delete(key);
  }

  #noteAll({ sheet, row, column }: Place, rows: readonly (readonly (Content | Fault)[])[]): void {
    rows.forEach((cells, down) =>
      cells.forEach((content, right) => this.#note({ sheet, row: row + down, column: column + right }, content)),
    );
  }

  /** Spilling formulas set again where their size is no longer what the engine reserved; returns what changed. */
  #respill(): ExportedChange[] {
    const changes: ExportedChange[] = [];
    for (const [key, { place, rows, columns }] of this.#spills) {
      const address = this.#address(place);
      const formula = this.#book.getCellFormula(address);
      if (formula === undefined) continue;
      const value = this.evaluate(formula, place.sheet);
      const size = Array.isArray(value)
        ? { rows: value.length, columns: (value as Matrix)[0]?.length ?? 1 }
        : { rows: 1, columns: 1 };
      if (size.rows === rows && size.columns === columns) continue;
      changes.push(...this.#book.setCellContents(address, null), ...this.#book.setCellContents(address, formula));
      this.#spills.set(key, { place, ...size });
    }
    return changes;
  }

  #noteBlocked(address: SimpleCellAddress): void {
    if (noRoom(this.#book.getCellValue(address)))
      this.#blocked.set(`${address.sheet}!${address.row},${address.col}`, address);
  }

  /** Spills tried again where cells below or beside them were emptied by a change; returns what changed by it. */
  #unblock(before: readonly ExportedChange[]): ExportedChange[] {
    const changes: ExportedChange[] = [];
    const freed = before.flatMap((change) => ('address' in change && change.newValue === null ? [change.address] : []));
    for (const [key, address] of freed.length === 0 ? [] : [...this.#blocked]) {
      const { sheet, row, col } = address;
      if (!freed.some((cell) => cell.sheet === sheet && cell.row >= row && cell.col >= col)) continue;
      const formula = this.#book.getCellFormula(address);
      if (formula !== undefined && noRoom(this.#book.getCellValue(address)))
        changes.push(...this.#book.setCellContents(address, null), ...this.#book.setCellContents(address, formula));
      if (!noRoom(this.#book.getCellValue(address))) this.#blocked.delete(key);
    }
    for (const change of before) if ('address' in change && noRoom(change.newValue)) this.#noteBlocked(change.address);
    return changes;
  }

  /** Sets a rectangle of contents with its top left corner at a place; returns the places whose values changed. */
  set(place: Place, rows: readonly (readonly (Content | Fault)[])[]): Place[] {
    this.#noteAll(place, rows);
    const changes = this.#book.setCellContents(
      this.#address(place),
      rows.map((row) => row.map((content) => this.#entry.content(content))),
    );
    return this.#followed(changes);
  }

  /** Several rectangles as one change. */
  setAll(
    parts: readonly { readonly place: Place; readonly rows: readonly (readonly (Content | Fault)[])[] }[],
  ): Place[] {
    const [only] = parts;
    if (only !== undefined && parts.length === 1) return this.set(only.place, only.rows);
    for (const { place, rows } of parts) this.#noteAll(place, rows);
    const changes = this.#book.batch(() => {
      for (const { place, rows } of parts)
        this.#book.setCellContents(
          this.#address(place),
          rows.map((row) => row.map((content) => this.#entry.content(content))),
        );
    });
    return this.#followed(changes);
  }

  /** The places that moved by changes and by the spills that follow from them. */
  #followed(changes: readonly ExportedChange[]): Place[] {
    const respilled = [...changes, ...this.#respill()];
    return this.#places([...respilled, ...this.#unblock(respilled)]);
  }

  #places(changes: readonly ExportedChange[]): Place[] {
    return changes.flatMap((change) => {
      if (!('address' in change)) return [];
      const { sheet, row, col } = change.address;
      const name = this.#book.getSheetName(sheet);
      return name === undefined ? [] : [{ sheet: name, row, column: col }];
    });
  }

  value(place: Place): Value {
    const address = this.#address(place);
    return this.#worded(this.#value(this.#book.getCellValue(address)), address);
  }

  /** All values of a sheet, row by row. */
  values(sheet: string): Value[][] {
    const id = this.#sheetId(sheet);
    return this.#book
      .getSheetValues(id)
      .map((line, row) => line.map((value, col) => this.#worded(this.#value(value), { sheet: id, row, col })));
  }

  /** The value of a formula that stands in no cell; a formula that spills gives its rows. */
  evaluate(formula: string, sheet?: string): Value | Matrix {
    const text = formula.trim();
    const excess = formulaExcess(text);
    if (excess !== undefined) return new Fault('#ERROR!', excess);
    const sheetId =
      sheet === undefined ? (this.#book.getSheetId(this.#book.getSheetNames()[0] ?? '') ?? 0) : this.#sheetId(sheet);
    let value;
    try {
      value = this.#book.calculateFormula(this.#entry.formula(text.startsWith('=') ? text : `=${text}`), sheetId);
    } catch {
      return this.#syntaxFault(text);
    }
    if (Array.isArray(value)) {
      const rows = value.map((row) => row.map((cell) => this.#value(cell) ?? 0));
      return rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? 0) : rows;
    }
    // A formula that gives a blank cell gives 0.
    const single = this.#value(value) ?? 0;
    return single instanceof Fault && single.code === '#ERROR!' ? this.#syntaxFault(text, single.message) : single;
  }

  /** A value; of a formula that does not read, with what is wrong with it. */
  #worded(value: Value, address: SimpleCellAddress): Value {
    if (!isFault(value) || value.code !== '#ERROR!') return value;
    const formula = this.#book.getCellFormula(address);
    return formula === undefined ? value : this.#syntaxFault(this.#entry.typed(formula), value.message);
  }

  #syntaxFault(text: string, message = ''): Fault {
    const standing = message === '' ? 'this is not a valid formula' : message;
    return new Fault('#ERROR!', syntaxFault(text) ?? standing);
  }

  #value(value: unknown): Value {
    if (value instanceof DetailedCellError) {
      const code = faultCode(value.type);
      const known = this.#messages.of(code, value.message);
      if (value.address === undefined) return new Fault(code, known ?? '');
      return new Fault(
        code,
        known === undefined ? `comes from ${value.address}` : `${known} (comes from ${value.address})`,
      );
    }
    // The engine checks a result that is one number, but not the numbers of an array.
    if (typeof value === 'number' && !Number.isFinite(value)) return new Fault('#NUM!', notFinite);
    if (typeof value === 'number' || typeof value === 'string' || typeof value === 'boolean') return value;
    return null;
  }

  destroy(): void {
    this.#book.destroy();
  }
}
