import { type EngineeringFunction } from '../../formula/define.ts';
import { argumentKinds, parameterAt, takesRange } from '../../formula/parameter.ts';
import { PlainForms, type SpillPlace } from '../../formula/plain.ts';
import { cellArea } from '../../formula/references.ts';
import { FormulaSyntaxError } from '../../formula/tokens.ts';
import { mapped, type Node, nodesOf, parsed, printed, children } from '../../formula/syntax.ts';
import { functions } from '../../functions/index.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import type { CompiledSheet } from '../../workbook/compiled-sheet.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { slotParts } from '../../sheet/declared-formula.ts';
import { headingsOf, rangeOf } from './adjacent-verdicts.ts';
import { arrayUse } from './array-use.ts';
import { fileErrors } from './file-values.ts';
import { fileFunction } from './file-functions.ts';
import type { LaidSheet } from './laid-sheets.ts';
import type { NoFormula, RowPieces } from './working-columns.ts';
import { readLimits } from '../read/read-limits.ts';

/** A formula as a file takes it. */
interface FileFormula {
  /** Without an equals sign; names of newer functions prefixed. */
  readonly text: string;
  /** As a person would type it: without prefixes. */
  readonly typed: string;
  /** True when it calculates with whole ranges, cell by cell, which a file says by an array formula. */
  readonly array: boolean;
}

/** Source: Microsoft, "Excel specifications and limits". */
const most = { characters: 8_192, depth: 64, arguments: 255, textCharacters: 255 };

/** Thrown inside this file only: a formula that a file cannot hold. */
class NotWritten extends Error {}

/** A reference to the first record's row. */
const firstRow = new RegExp(`(?<![!$A-Z])([A-Z]+)${sheetRow(0)}(?!\\d)`, 'g');

const engineering: readonly EngineeringFunction[] = functions;
const forms = new PlainForms(engineering, true);

/** How deep calls stand within calls. */
const callDepth = (node: Node): number =>
  children(node).reduce((depth, child) => Math.max(depth, callDepth(child)), 0) + (node.type === 'call' ? 1 : 0);

/** Refuses calls of our functions that stand in a formula in a way that only the engine understands. */
function refuseSpreadCalls(tree: Node): void {
  const visit = (node: Node, alone: boolean): void => {
    if (node.type !== 'call') {
      for (const child of children(node)) visit(child, alone);
      return;
    }
    const definition = forms.functions.get(node.name);
    if (definition?.spills === true && !alone)
      throw new NotWritten(`${node.name} fills several cells, and the formula uses them all in one`);
    node.args.forEach((argument, index) => {
      const [, parameter] = parameterAt(definition?.parameters ?? {}, index) ?? [];
      if (argument === undefined) return;
      if (parameter !== undefined && !takesRange(parameter) && arrayUse(argument).many)
        throw new NotWritten(`${node.name} is given a range where it needs ${argumentKinds[parameter.kind].says}`);
      visit(argument, false);
    });
  };
  visit(tree, true);
}

/** With the names of newer functions as files spell them: reading a formula makes capitals of the prefix. */
const prefixed = (tree: Node): Node =>
  mapped(tree, (node) => (node.type === 'call' ? { ...node, name: fileFunction(node.name) ?? node.name } : undefined));

export class FileFormulas {
  /** Names in the file by the book's. */
  readonly #sheets: ReadonlyMap<string, string>;
  /** Named values by their name in small letters. */
  readonly #names: ReadonlyMap<string, string>;
  readonly #laid: ReadonlyMap<string, LaidSheet>;
  /** Formulas over a record's columns as they were spelt before: blocks of a sheet's rows ask for the same ones. */
  readonly #spelt = new Map<string, Map<Node, RowPieces | NoFormula>>();

  constructor(
    sheets: ReadonlyMap<string, string>,
    names: Iterable<string>,
    laid: ReadonlyMap<string, LaidSheet> = new Map(),
  ) {
    this.#sheets = sheets;
    this.#names = new Map([...names].map((name) => [name.toLowerCase(), name]));
    this.#laid = laid;
  }

  /** A computed column's own formula. */
  own(column: number, plan: CompiledSheet): RowPieces | NoFormula {
    const { name } = plan.declaration;
    const formula = this.#laid.get(name)?.formulas.get(column);
    if (formula === undefined) throw new Error(`${plan.columns[column]?.header ?? column} is not computed`);
    return 'why' in formula ? formula : this.inRow(formula, name);
  }

  /** A formula over the columns of a declared sheet's record. */
  inRow(tree: Node, sheet: string): RowPieces | NoFormula {
    const spelt = this.#spelt.get(sheet) ?? new Map<Node, RowPieces | NoFormula>();
    this.#spelt.set(sheet, spelt);
    let pieces = spelt.get(tree);
    if (pieces === undefined) spelt.set(tree, (pieces = this.#inRow(tree, sheet)));
    return pieces;
  }

  #inRow(tree: Node, sheet: string): RowPieces | NoFormula {
    const letters = (name: string): string => {
      const { sheet: other = sheet, header } = slotParts(name);
      const position = this.#laid.get(other)?.position(header);
      if (position === undefined) throw new Error(`${other} has no column ${header}`);
      return columnLetters(position);
    };
    const formula = this.#written(
      mapped(tree, (node) => {
        if (node.type === 'placeholder') {
          const { sheet: other } = slotParts(node.name);
          const text = letters(node.name);
          return {
            type: 'reference',
            text: other === undefined ? `${text}${sheetRow(0)}` : `${quotedSheet(other)}!$${text}:$${text}`,
          };
        }
        if (node.type !== 'call' || (node.name !== rangeOf && node.name !== headingsOf)) return undefined;
        const text = node.args.flatMap((argument) => (argument === undefined ? [] : [printed(argument)])).join(':');
        return { type: 'reference', text: node.name === rangeOf ? text : text.replaceAll(firstRow, '$1$$1') };
      }),
    );
    if ('why' in formula) return formula;
    const open = mapped(parsed(formula.typed), (node) =>
      node.type === 'reference' ? { type: 'reference', text: node.text.replaceAll(firstRow, '$1\0') } : undefined,
    );
    return { pieces: printed(prefixed(open)).split('\0'), array: formula.array };
  }

  /** What a user typed, as the cell at a place of its spill holds it. */
  typed(content: string, place: SpillPlace = { row: 1, column: 1 }): FileFormula | NoFormula {
    let tree: Node;
    try {
      tree = parsed(content);
    } catch (error) {
      if (error instanceof FormulaSyntaxError) return { why: `it is not a valid formula: ${error.message}` };
      throw error;
    }
    return this.#formula(tree, place);
  }

  /** Whether a typed formula fills its spill by one plain formula a cell. */
  spillsByCell(content: string): boolean {
    try {
      return nodesOf(parsed(content)).some(
        (node) => node.type === 'call' && forms.functions.get(node.name)?.spills === true,
      );
    } catch (error) {
      if (error instanceof FormulaSyntaxError) return false;
      throw error;
    }
  }

  #formula(tree: Node, place: SpillPlace): FileFormula | NoFormula {
    try {
      refuseSpreadCalls(tree);
      const plain = forms.tree(tree, place);
      if (plain === undefined) {
        const without = nodesOf(tree).flatMap((node) =>
          node.type === 'call' && forms.functions.has(node.name) && forms.tree(node, place) === undefined
            ? [node.name]
            : [],
        );
        throw new NotWritten(`${without.at(-1) ?? 'a function in it'} has no equivalent in standard functions`);
      }
      this.#refuseWorkings(plain);
      return this.#written(plain);
    } catch (error) {
      if (error instanceof NotWritten) return { why: error.message };
      throw error;
    }
  }

  /** Refuses what reaches over a sheet's columns to those that only the file has. */
  #refuseWorkings(tree: Node): void {
    for (const node of nodesOf(tree)) {
      const area = node.type === 'reference' ? cellArea(node.text) : undefined;
      const name = [...this.#laid.keys()].find((sheet) => sheet.toLowerCase() === area?.sheet?.toLowerCase());
      const laid = name === undefined ? undefined : this.#laid.get(name);
      if (area !== undefined && laid !== undefined && area.right >= laid.width && node.type === 'reference')
        throw new NotWritten(`${node.text} reaches over the columns of ${name ?? ''} to working columns of the file`);
    }
  }

  /** A formula in standard functions. */
  #written(plain: Node): FileFormula | NoFormula {
    try {
      const tidy = mapped(plain, (node) => this.#tidied(node));
      if (callDepth(tidy) > most.depth) throw new NotWritten(`functions are nested more than ${most.depth} deep in it`);
      const typed = printed(tidy);
      const text = printed(prefixed(tidy));
      if (text.length > most.characters)
        throw new NotWritten(
          `in standard functions it has ${text.length.toLocaleString('en-US')} characters, and a cell holds at most ` +
            `${most.characters.toLocaleString('en-US')}`,
        );
      return { text, typed, array: arrayUse(tidy).needsArrayFormula };
    } catch (error) {
      if (error instanceof NotWritten) return { why: error.message };
      throw error;
    }
  }

  /** A node as files spell it. */
  #tidied(node: Node): Node | undefined {
    switch (node.type) {
      case 'call':
        if (fileFunction(node.name) === undefined)
          throw new NotWritten(`not all spreadsheet programs have the function ${node.name}`);
        if (node.args.length > most.arguments)
          throw new NotWritten(
            `${node.name} has ${node.args.length} arguments, and other programs take ${most.arguments}`,
          );
        return undefined;
      case 'name': {
        const name = this.#names.get(node.name.toLowerCase());
        if (name === undefined) throw new NotWritten(`there is no named value ${node.name}`);
        return { type: 'name', name };
      }
      case 'reference':
        return { type: 'reference', text: this.#reference(node.text) };
      case 'number':
        return { ...node, text: String(node.value).toUpperCase() };
      case 'text':
        if (node.value.length > most.textCharacters)
          throw new NotWritten(`a text in it has more than ${most.textCharacters} characters`);
        return undefined;
      case 'error':
        if (!fileErrors.has(node.code)) throw new NotWritten(`a file cannot hold the error ${node.code}`);
        return undefined;
      case 'placeholder':
        throw new NotWritten(`{${node.name}} is not valid in a cell`);
      default:
        return undefined;
    }
  }

  #reference(text: string): string {
    const area = cellArea(text);
    const cut = text.lastIndexOf('!') + 1;
    const cells = text.slice(cut).toUpperCase();
    const within = (end: number, limit: number): boolean => end === Infinity || end < limit;
    if (
      area === undefined ||
      !within(area.right, readLimits.columnNumber) ||
      !within(area.bottom, readLimits.rowNumber)
    ) {
      throw new NotWritten(`${text} is outside a file's sheet`);
    }
    if (area.sheet === undefined) return cells;
    const sheet = [...this.#sheets.keys()].find((name) => name.toLowerCase() === area.sheet?.toLowerCase());
    const written = sheet === undefined ? undefined : this.#sheets.get(sheet);
    if (sheet === undefined || written === undefined) throw new NotWritten(`the book has no sheet ${area.sheet}`);
    if (compiledSheets.has(sheet) && area.top === 0 && area.bottom < Infinity)
      throw new NotWritten(`${text} reaches into the headers of ${sheet}, which carry units in the file`);
    return `${quotedSheet(written)}!${cells}`;
  }
}
