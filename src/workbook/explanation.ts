import { children, type Node } from '../formula/syntax.ts';
import { isFault, isFormula, type Value } from '../formula/values.ts';
import { compiled } from '../formula/kernel.ts';
import { usedBy } from '../formula/references.ts';
import { asNumber, asTruth } from '../formula/standard.ts';
import { functions } from '../functions/index.ts';
import { isComputed } from '../sheet/declaration.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { valueColumn } from '../sheet/named-values.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { columnUnit } from '../sheet/header.ts';
import { type CellPlace, placeKey } from './place.ts';
import { conditionalCells, isConditional } from './conditional-records.ts';
import { namedSheetOf, compiledSheets } from './declared.ts';
import { cellName } from '../formula/address.ts';
import { typedWords } from './typed-over.ts';
import { ownFormulaWords } from './formula-words.ts';
import type { Workbook } from './workbook.ts';

/** Where a value comes from: what it is made of, down to what people entered, with the sources on the way. */
export interface Explanation {
  readonly place: CellPlace;
  /** The cell as people name it, "Belts!D7". */
  readonly cell: string;
  readonly header: string;
  readonly value: Value;
  readonly kind: QuantityKind;
  readonly unit: string;
  readonly origin: 'computed' | 'entered' | 'empty' | 'your formula' | 'override' | 'named value';
  /** The formula over cells, for a cell that has one. */
  readonly formula?: string;
  /** The formula over column names; the sheet's own without the guards against missing and wrong inputs. */
  readonly words?: string;
  /** Functions used with their sources; for an input or a named value, the mark that stands beside it. */
  readonly sources: readonly string[];
  /** What it is made of, in the order of use; only the branch that was taken. */
  readonly parts: readonly Explanation[];
  /** True when the same cell is explained earlier in the tree. */
  readonly repeated: boolean;
}

const sourceOf = new Map(functions.map(({ name, source }) => [name, source]));
/** A user's formula may refer to whole columns; so many of its cells are followed. */
const mostCells = 60;

interface Use {
  readonly cells: CellPlace[];
  readonly sources: Set<string>;
}

/** Collects what a declared formula uses for one record; of a choice only the branch that is taken. */
class Uses {
  readonly use: Use = { cells: [], sources: new Set() };
  readonly #book: Workbook;
  readonly #sheet: string;
  readonly #record: number;

  constructor(book: Workbook, sheet: string, record: number) {
    this.#book = book;
    this.#sheet = sheet;
    this.#record = record;
  }

  #value(node: Node): Value {
    const plan = compiledSheets.get(this.#sheet);
    return plan === undefined
      ? null
      : this.#book.partValue({ sheet: this.#sheet, record: this.#record, column: 0 }, compiled(node, plan.scope));
  }

  collect(node: Node | undefined): void {
    switch (node?.type) {
      case 'placeholder': {
        const column = compiledSheets.get(this.#sheet)?.position.get(node.name);
        if (column !== undefined) this.use.cells.push({ sheet: this.#sheet, record: this.#record, column });
        break;
      }
      case 'name': {
        const place = namedPlace(this.#book, node.name);
        if (place !== undefined) this.use.cells.push(place);
        break;
      }
      case 'call':
        this.#call(node.name, node.args);
        break;
      case 'guard':
        // What a guard asks for explains why there is nothing; else what stands behind it explains the value.
        if (node.without === 'error' || node.cells.every(({ cell }) => typeof this.#value(cell) === 'number'))
          this.collect(node.value);
        else for (const { cell } of node.cells) this.collect(cell);
        break;
      default:
        for (const child of node === undefined ? [] : children(node)) this.collect(child);
    }
  }

  #call(name: string, args: readonly (Node | undefined)[]): void {
    const [first, second] = args;
    if (name === 'IF' && first !== undefined) {
      // What the value is made of comes before what it was chosen by.
      const truth = asTruth(this.#value(first));
      if (!isFault(truth)) this.collect(args[truth ? 1 : 2]);
      this.collect(first);
      return;
    }
    if (name === 'INDEX' && first?.type === 'placeholder' && second !== undefined) {
      this.collect(second);
      const row = asNumber(this.#value(second));
      const { sheet, header } = slotParts(first.name);
      const column = sheet === undefined ? undefined : compiledSheets.get(sheet)?.position.get(header);
      if (sheet !== undefined && column !== undefined && !isFault(row) && row >= 2)
        this.use.cells.push({ sheet, record: row - 2, column });
      return;
    }
    if (isConditional(name)) {
      this.use.cells.push(...conditionalCells(this.#book, { type: 'call', name, args }, (node) => this.#value(node)));
      return;
    }
    const source = sourceOf.get(name);
    if (source !== undefined) this.use.sources.add(`${name}: ${source}`);
    for (const argument of args) this.collect(argument);
  }
}

function namedPlace(book: Workbook, name: string): CellPlace | undefined {
  for (const sheet of book.state.sheets) {
    if (namedSheetOf(sheet.name) === undefined) continue;
    const record = sheet.rows.findIndex((row) => String(row.cells[0]).toLowerCase() === name.toLowerCase());
    if (record >= 0) return { sheet: sheet.name, record, column: valueColumn };
  }
  return undefined;
}

/** Cells that a user's formula names, whole columns cut to the records there are. */
function namedCells(book: Workbook, formula: string, home: string): CellPlace[] {
  const used = usedBy(formula);
  const cells = (used?.areas ?? []).flatMap(({ sheet = home, top, bottom, left, right }) => {
    const name = book.state.sheets.find((item) => item.name.toLowerCase() === sheet.toLowerCase())?.name;
    if (name === undefined) return [];
    const [records, columns] = [book.sheet(name).rows.length, book.columns(name).length];
    const places: CellPlace[] = [];
    for (let row = Math.max(top, 1); row <= Math.min(bottom, records) && places.length < mostCells; row += 1) {
      for (let column = left; column <= Math.min(right, columns - 1) && places.length < mostCells; column += 1)
        places.push({ sheet: name, record: row - 1, column });
    }
    return places;
  });
  return [...cells, ...(used?.names ?? []).flatMap((name) => namedPlace(book, name) ?? [])].slice(0, mostCells);
}

/** The unit that the user gave a column, or that is written beside a named value. */
function ownUnit(book: Workbook, place: CellPlace, named: boolean): { readonly unit?: string } {
  const beside = named ? book.content({ ...place, column: valueColumn + 1 }) : null;
  const unit = named ? (typeof beside === 'string' ? beside : undefined) : book.columnAt(place)?.unit;
  return unit === undefined ? {} : { unit };
}

/** The tree of one cell's value. */
export function explained(book: Workbook, place: CellPlace, seen: Set<string> = new Set()): Explanation {
  const { sheet, record, column } = place;
  const plan = compiledSheets.get(sheet);
  const declared = plan?.columns[column];
  const trees = plan?.trees.get(column);
  const content = book.content(place);
  const kind = book.kind(place);
  const named = namedSheetOf(sheet) !== undefined && column === valueColumn;
  const repeated = seen.has(placeKey(place));
  seen.add(placeKey(place));
  const formula = book.formula(place);
  const own = declared !== undefined && isComputed(declared) && content === null;
  const sources = new Set<string>();
  const cells: CellPlace[] = [];
  if (own) {
    const uses = new Uses(book, sheet, record);
    uses.collect(trees?.guarded);
    for (const source of uses.use.sources) sources.add(source);
    cells.push(...uses.use.cells);
  } else if (isFormula(content)) cells.push(...namedCells(book, content, sheet));
  // Of what was entered the declaration knows no source: it speaks of the rule or of the sheet's own figure.
  if (declared?.source !== undefined && (own || content === null)) sources.add(declared.source);
  if (named) sources.add(String(book.content({ ...place, column: 4 }) ?? ''));
  const origin = own
    ? 'computed'
    : declared !== undefined && isComputed(declared)
      ? 'override'
      : isFormula(content)
        ? 'your formula'
        : named
          ? 'named value'
          : content === null
            ? 'empty'
            : 'entered';
  const parts = repeated
    ? []
    : [...new Map(cells.map((cell) => [placeKey(cell), cell])).values()].map((cell) => explained(book, cell, seen));
  return {
    place,
    cell: cellName(sheet, record, column),
    header: named ? String(book.content({ ...place, column: 0 })) : (book.columnAt(place)?.header ?? ''),
    value: book.shown(place),
    kind,
    unit: columnUnit({ kind, ...ownUnit(book, place, named) }, book.units),
    origin,
    ...(formula === undefined ? {} : { formula }),
    ...(own && trees !== undefined
      ? { words: ownFormulaWords(sheet, column, book.units) ?? '' }
      : isFormula(content)
        ? { words: typedWords(content, place, book.state) }
        : {}),
    sources: [...sources].filter((source) => source !== ''),
    parts,
    repeated,
  };
}
