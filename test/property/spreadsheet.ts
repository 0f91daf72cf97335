import { HyperFormula } from 'hyperformula';
import type { EngineeringFunction } from '../../src/formula/define.ts';
import { PlainForms, type SpillPlace } from '../../src/formula/plain.ts';
import { type Node, printed } from '../../src/formula/syntax.ts';
import { Fault, type FaultCode, isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';

/**
 * A spreadsheet that knows none of our functions, to evaluate plain formulas over cells.
 *
 * Array arithmetic is on: inside SUMPRODUCT other spreadsheet programs always do it, this one only with that setting.
 */
const engine = HyperFormula.buildEmpty({ licenseKey: 'gpl-v3', smartRounding: false, useArrayArithmetic: true });
engine.addSheet('Cells');
const sheet = engine.getSheetId('Cells') ?? 0;

const forms = new PlainForms(functions);

/** A function whose plain equivalent is declared to be none is exported as its value. */
export const hasPlain = ({ parameters, plain }: EngineeringFunction): boolean =>
  plain(new Set(Object.keys(parameters))) !== null;

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);
const columnName = (index: number): string => String.fromCharCode(65 + index);

function content(value: Value): number | string | null {
  if (isFault(value)) return '=NA()';
  if (typeof value === 'boolean') return value ? '=TRUE()' : '=FALSE()';
  return typeof value === 'string' ? `'${value}` : value;
}

/** Puts arguments into cells and gives their references: ranges go below one another, single values in row 1. */
function placed(args: readonly (Value | Matrix | undefined)[]): (Node | undefined)[] {
  let nextRow = 2;
  return args.map((argument, index) => {
    if (argument === undefined) return undefined;
    if (!isMatrix(argument)) {
      engine.setCellContents({ sheet, row: 0, col: index }, content(argument));
      return { type: 'reference', text: `${columnName(index)}1` };
    }
    const width = argument[0]?.length ?? 1;
    const top = nextRow;
    nextRow += argument.length;
    engine.setCellContents(
      { sheet, row: top - 1, col: 0 },
      argument.map((row) => row.map(content)),
    );
    return { type: 'reference', text: `A${top}:${columnName(width - 1)}${top + argument.length - 1}` };
  });
}

const isCode = (code: string): code is FaultCode => code.startsWith('#');

/** The plain equivalent's text for a call over cells; undefined when there is none. */
export function plainText(
  name: string,
  args: readonly (Node | undefined)[],
  place?: SpillPlace,
  known = forms,
): string | undefined {
  const plain = known.tree({ type: 'call', name, args }, place);
  return plain === undefined ? undefined : printed(plain);
}

/** What the plain equivalent of a call gives, its arguments standing in cells; for a spill, at one place of it. */
export function plainValue(
  name: string,
  args: readonly (Value | Matrix | undefined)[],
  place?: SpillPlace,
  known = forms,
): Value {
  const text = plainText(name, placed(args), place, known);
  if (text === undefined) throw new Error(`${name} has no plain equivalent for these arguments`);
  return evaluated(text);
}

/** What a plain formula gives. */
export function evaluated(text: string): Value {
  const value = engine.calculateFormula(`=${text}`, sheet);
  if (Array.isArray(value)) throw new Error(`an array came out of ${text}`);
  if (typeof value === 'object' && value !== null) {
    return new Fault(isCode(value.value) ? value.value : '#ERROR!', value.message);
  }
  return value;
}
