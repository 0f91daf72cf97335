import { DetailedCellError, type ExportedChange, HyperFormula, type SimpleCellAddress } from 'hyperformula';
import type { EngineeringFunction } from './define.ts';
import { registerFunctions } from './engine-functions.ts';
import { registerStandardFunctions, spillingStandard } from './engine-standard.ts';
import { faultCode } from './engine-values.ts';
import { licensed } from './engine-licence.ts';
import { entered, legible } from './engine-entered.ts';
import { formulaExcess } from './formula-limits.ts';
import { FormulaSyntaxError } from './tokens.ts';
import { parsed } from './syntax.ts';
import { registerMissingSheets, withStandIns } from './engine-missing-sheets.ts';
import { type Content, Fault, isFormula, type Matrix, type Value } from './values.ts';

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

/** A row without the empty cells at its end, which a new sheet has anyway. */
const filled = (row: readonly (Content | Fault)[]): readonly (Content | Fault)[] =>
  row.slice(0, row.findLastIndex((content) => content !== null) + 1);

export class Engine {
  readonly #book: HyperFormula;
  /** Formulas whose spill grows and shrinks with their inputs, with the size the engine has reserved. */
  readonly #spills = new Map<string, { readonly place: Place; readonly rows: number; readonly columns: number }>();
  readonly #spilling: ReadonlySet<string>;
  /** Formulas that had no room for their spill when it was last tried. */
  readonly #blocked = new Map<string, SimpleCellAddress>();
  /** The names of its sheets, in lower case. */
  readonly #sheets: ReadonlySet<string>;

  private constructor(book: HyperFormula, functions: readonly EngineeringFunction[], sheets: ReadonlySet<string>) {
    this.#book = book;
    this.#sheets = sheets;
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
    const known = new Set(sheets.map(({ name }) => name.toLowerCase()));
    const contents = Object.fromEntries(
      sheets.map(({ name, rows }) => [name, rows.map((row) => filled(row).map((content) => entered(content, known)))]),
    );
    const expressions = [...truths, ...names.map(({ name, reference }) => ({ name, expression: `=${reference}` }))];
    const book = licensed((licenseKey) =>
      HyperFormula.buildFromSheets(contents, { ...settings, licenseKey }, expressions),
    );
    const engine = new Engine(book, functions, known);
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
      rows.map((row) => row.map((content) => entered(content, this.#sheets))),
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
          rows.map((row) => row.map((content) => entered(content, this.#sheets))),
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
    return this.#value(this.#book.getCellValue(this.#address(place)));
  }

  /** All values of a sheet, row by row. */
  values(sheet: string): Value[][] {
    return this.#book.getSheetValues(this.#sheetId(sheet)).map((row) => row.map((value) => this.#value(value)));
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
      value = this.#book.calculateFormula(
        withStandIns(legible(text.startsWith('=') ? text : `=${text}`), this.#sheets),
        sheetId,
      );
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

  #syntaxFault(text: string, message = ''): Fault {
    try {
      parsed(text);
    } catch (error) {
      if (error instanceof FormulaSyntaxError) return new Fault('#ERROR!', error.message);
      throw error;
    }
    return new Fault('#ERROR!', message === '' ? 'this is not a formula the engine can read' : message);
  }

  #value(value: unknown): Value {
    if (value instanceof DetailedCellError) {
      const code = faultCode(value.type);
      const known =
        value.message === '' ? standing[code] : value.message.startsWith('NaN or infinite') ? notFinite : value.message;
      return new Fault(
        code,
        value.address === undefined
          ? (known ?? '')
          : `${known ?? ''}${known === undefined ? 'comes' : ' (comes'} from ` +
              `${value.address}${known === undefined ? '' : ')'}`,
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

const notFinite = 'the result is too large to be a number, or there is none for these inputs';

const standing: Partial<Record<Fault['code'], string>> = {
  '#NAME?': 'a name in the formula is not known: a function, a named value or a text without quotes',
  '#REF!': 'the formula refers to a cell that no longer exists',
  '#NUM!': 'there is no result for these inputs, or none was found',
  '#DIV/0!': 'division by zero: the divisor is 0 or an empty cell',
  '#CYCLE!': 'the formula depends on its own result',
  '#SPILL!': 'cells that the result would fill are not empty',
};
