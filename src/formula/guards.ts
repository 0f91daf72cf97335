import { type Guard, type GuardedCell, mapped, type Node, operand } from './syntax.ts';

/**
 * Guards against missing and absurd inputs: what they are, and how programs are told them.
 *
 * Spreadsheet arithmetic takes an empty cell for 0 and, in some programs, a text for a number; a missing input must
 * never pass for one. So a part of a formula that computes with cells stands behind a guard, which answers only when
 * every cell holds a number within the bounds declared for it. An error in a cell comes through as itself, a blank or a
 * text gives #VALUE!, a number out of bounds, or a condition between cells that does not hold, #NUM!. Of several wrong
 * cells the first speaks: they are looked at one after the other, since programs differ in which of two errors an
 * operator gives. A guard that answers nothing instead takes errors for missing numbers, too.
 *
 * Sheets declare plain arithmetic; guard-places.ts says where guards stand. Rows compile them as they are (kernel.ts),
 * the search for causes reads them as they are, people are shown formulas without them, and only here are they spelled.
 */

/** Bounds declared for a column or a named value. */
export interface Bounds {
  readonly min?: number | undefined;
  readonly above?: number | undefined;
  readonly max?: number | undefined;
}

const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });
const text = (value: string): Node => ({ type: 'text', value });
const number = (value: number): Node => {
  const size: Node = { type: 'number', value: Math.abs(value), text: String(Math.abs(value)) };
  return value < 0 ? { type: 'unary', operator: '-', value: size } : size;
};
const binary = (left: Node, operator: string, right: Node): Node => ({ type: 'binary', operator, left, right });
const compared = (cell: Node, operator: string, limit: number | undefined): Node[] =>
  limit === undefined ? [] : [binary(cell, operator, number(limit))];

const joined = (name: 'AND' | 'OR', conditions: readonly Node[]): Node => {
  const [first, ...rest] = conditions;
  return first !== undefined && rest.length === 0 ? first : call(name, ...conditions);
};

const isNumber = ({ cell }: GuardedCell): Node => call('ISNUMBER', cell);

const conditions = new WeakMap<Guard, readonly Node[]>();

/** What must hold of a guard's cells once all are numbers: their bounds, and the conditions between them. */
export function conditionsOf(guard: Guard): readonly Node[] {
  let found = conditions.get(guard);
  if (found === undefined) {
    found = [
      ...guard.cells.flatMap(({ cell, min, above, max }) => [
        ...compared(cell, '>=', min),
        ...compared(cell, '>', above),
        ...compared(cell, '<=', max),
      ]),
      ...guard.must,
    ];
    conditions.set(guard, found);
  }
  return found;
}

/** An expression that every spreadsheet program answers with #NUM!. */
export const refused: Node = binary(number(10), '^', number(400));

/** An expression that is a cell's own error, and #VALUE! for a cell without a number. */
const notANumber = ({ cell }: GuardedCell): Node =>
  binary(number(0), '+', { type: 'group', value: binary(operand(cell), '&', text('?')) });

function spelled(guard: Guard): Node {
  const { cells, value, without } = guard;
  const asked = cells.filter(({ known }) => known === undefined);
  if (without === 'nothing') return call('IF', joined('AND', asked.map(isNumber)), value, text(''));
  const must = conditionsOf(guard);
  const bounded = must.length === 0 ? value : call('IF', joined('AND', must), value, refused);
  return asked.reduceRight((inner, cell) => call('IF', isNumber(cell), inner, notANumber(cell)), bounded);
}

/** A guarded tree in standard functions, for the formula engine. */
export const spelledForEngine = (tree: Node): Node =>
  mapped(tree, (node) => (node.type === 'guard' ? spelled(node) : undefined));

/** What a column or a named value may hold: numbers within bounds, or words, which may be listed. */
export interface Allowed extends Bounds {
  readonly words: boolean;
  readonly choices?: readonly string[] | undefined;
}

const outside = (cell: Node, { min, above, max }: Bounds): Node => {
  const beyond = [...compared(cell, '<', min), ...compared(cell, '<=', above), ...compared(cell, '>', max)];
  return beyond.length === 0 ? { type: 'boolean', value: false } : joined('OR', beyond);
};

/** ISWRONG of one cell: something stands in it that is not allowed there. A blank is missing, not wrong. */
function wrong(cell: Node, { words, choices = [], ...bounds }: Allowed): Node {
  const no: Node = { type: 'boolean', value: false };
  const yes: Node = { type: 'boolean', value: true };
  const fits = words ? choices.map((word) => binary(cell, '=', text(word))) : [];
  const misfit = words ? (fits.length === 0 ? no : call('NOT', joined('OR', fits))) : outside(cell, bounds);
  return call('IF', call('ISBLANK', cell), no, call('IF', call(words ? 'ISTEXT' : 'ISNUMBER', cell), misfit, yes));
}

/** ISWRONG(cell, …), which only declared formulas know, in standard functions. */
export const spelledWrong = (cells: readonly (readonly [cell: Node, allowed: Allowed])[]): Node =>
  joined(
    'OR',
    cells.map(([cell, allowed]) => wrong(cell, allowed)),
  );
