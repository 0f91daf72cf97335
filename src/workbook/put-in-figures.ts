import { compiled } from '../formula/kernel.ts';
import { asTruth } from '../formula/standard.ts';
import { type Node, nodesOf, operand, printed } from '../formula/syntax.ts';
import { isFault, type Value } from '../formula/values.ts';
import { rounded } from '../sheet/words.ts';
import { unitOf } from '../units/quantities.ts';
import { compiledSheets, namedSheetOf } from './declared.ts';
import { BookNames } from './names.ts';
import type { CellPlace } from './place.ts';
import type { Workbook } from './workbook.ts';

/** A sheet's own formula with the figures of one record put in, for people who follow it with a pencil. */
interface FiguresPutIn {
  /** "MAX(5210,▸8914)": of choices the branch that was taken, before the term that decides a MAX or MIN a mark. */
  readonly text: string;
  /** Where figures of a printed table were read: "length factor at 86 m, between 80 and 100 m". */
  readonly table: string | undefined;
}

/** Stands before the argument that a MAX or MIN takes its value from. */
export const governingMark = '▸';

/** Digits that a figure is written with: enough to follow, not to check the last digit. */
const significant = 6;

const isExtreme = (name: string): boolean => name === 'MAX' || name === 'MIN';

class Writer {
  readonly #book: Workbook;
  readonly #place: CellPlace;

  constructor(book: Workbook, place: CellPlace) {
    this.#book = book;
    this.#place = place;
  }

  value(node: Node): Value {
    const plan = compiledSheets.get(this.#place.sheet);
    return plan === undefined ? null : this.#book.partValue(this.#place, compiled(node, plan.scope));
  }

  /** A value as it stands in a formula; undefined for one that can't. */
  #literal(value: Value): Node | undefined {
    if (typeof value === 'number') {
      const short = Number(value.toPrecision(significant));
      const node: Node = { type: 'number', value: Math.abs(short), text: String(Math.abs(short)) };
      return short < 0 ? operand({ type: 'unary', operator: '-', value: node }) : node;
    }
    if (typeof value === 'string') return { type: 'text', value };
    return typeof value === 'boolean' ? { type: 'boolean', value } : undefined;
  }

  /** The branches that are taken, all the way down; cells and names stay. */
  taken(node: Node): Node {
    switch (node.type) {
      case 'call': {
        const [first, second, third] = node.args;
        if (node.name === 'IF' && first !== undefined) {
          const truth = asTruth(this.value(first));
          const branch = isFault(truth) ? undefined : truth ? second : third;
          if (branch !== undefined) return operand(this.taken(branch));
        }
        if (node.name === 'IFERROR' && first !== undefined && second !== undefined)
          return operand(this.taken(isFault(this.value(first)) ? second : first));
        return { ...node, args: node.args.map((part) => (part === undefined ? undefined : this.taken(part))) };
      }
      case 'group': {
        const inner = this.taken(node.value);
        return inner.type === 'group' ? inner : { ...node, value: inner };
      }
      case 'unary':
      case 'percent':
        return { ...node, value: this.taken(node.value) };
      case 'binary':
        return { ...node, left: this.taken(node.left), right: this.taken(node.right) };
      default:
        return node;
    }
  }

  /** A tree of taken branches with its figures. */
  written(node: Node): Node {
    switch (node.type) {
      case 'placeholder':
      case 'name':
        return this.#literal(this.value(node)) ?? node;
      case 'call':
        return this.#call(node);
      case 'group':
      case 'unary':
      case 'percent':
        return { ...node, value: this.written(node.value) };
      case 'binary':
        return { ...node, left: this.written(node.left), right: this.written(node.right) };
      default:
        return node;
    }
  }

  #call(node: Node & { readonly type: 'call' }): Node {
    // What looks into other rows has no figures to put in but its answer.
    if (node.name === 'INDEX' || node.name === 'MATCH' || node.name.endsWith('IFS'))
      return this.#literal(this.value(node)) ?? node;
    const args = node.args.map((part) => (part === undefined ? undefined : this.written(part)));
    if (!isExtreme(node.name)) return { ...node, args };
    const whole = this.value(node);
    const at = node.args.findIndex((part) => part !== undefined && this.value(part) === whole);
    return {
      ...node,
      args: args.map((part, index) =>
        // A name is printed as it is, and so carries the mark.
        part !== undefined && index === at ? { type: 'name', name: `${governingMark}${printed(part)}` } : part,
      ),
    };
  }
}

const words = (name: string): string => name.replaceAll(/(?<=[a-z])(?=[A-Z])/g, ' ').toLowerCase();

/** What a formula read of a printed table: the names of its figures say between which of its lines. */
function tableWords(book: Workbook, place: CellPlace, tree: Node, writer: Writer): string | undefined {
  const places = new Map(new BookNames(book.state).places.map((one) => [one.name, one.sheet]));
  const nodes = nodesOf(tree);
  const read = nodes.flatMap((node) => (node.type === 'name' && places.get(node.name) === 'Tables' ? [node.name] : []));
  const lines = [...new Set(read)].flatMap((name) => {
    const [, table = '', line, unit = ''] = /^([A-Z][A-Za-z]*?)(\d+)([a-z]*)$/.exec(name) ?? [];
    return line === undefined ? [] : [{ table, line: Number(line), unit }];
  });
  const [first] = lines;
  if (first === undefined || lines.some(({ table }) => table !== first.table)) return undefined;
  const cells = [...new Set(nodes.flatMap((node) => (node.type === 'placeholder' ? [node.name] : [])))];
  const [header] = cells;
  if (cells.length !== 1 || header === undefined) return undefined;
  const column = book.findColumn(place.sheet, header);
  const at = writer.value({ type: 'placeholder', name: header });
  if (column === undefined || typeof at !== 'number') return undefined;
  const unit = unitOf(book.kind({ ...place, column }), book.units);
  const [low, high] = [Math.min(...lines.map(({ line }) => line)), Math.max(...lines.map(({ line }) => line))];
  const span = low === high ? `the line of ${low} ${first.unit}` : `between ${low} and ${high} ${first.unit}`;
  return `${words(first.table)} at ${rounded(at, 3)} ${unit}, ${span}`.trim();
}

/**
 * The figures of a computed cell; undefined for a cell that the sheet does not compute, for words, and where nothing is
 * known.
 */
export function figuresPutIn(book: Workbook, place: CellPlace): FiguresPutIn | undefined {
  const tree = compiledSheets.get(place.sheet)?.trees.get(place.column)?.plain;
  if (tree === undefined || book.content(place) !== null || namedSheetOf(place.sheet) !== undefined) return undefined;
  if (typeof book.value(place) !== 'number') return undefined;
  const writer = new Writer(book, place);
  const taken = writer.taken(tree);
  const whole = taken.type === 'group' ? taken.value : taken;
  const text = printed(writer.written(whole));
  return {
    text: text.replaceAll(/(?<=[\d)])([-+])(?=[\d(▸A-Z])/g, ' $1 '),
    table: tableWords(book, place, whole, writer),
  };
}
