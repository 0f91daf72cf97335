import { HyperFormula } from 'hyperformula';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Formulas by chance, from what a formula may be made of, and whether they end in a value, in time. */

const ours = functions.map(({ name }) => String(name));
/** Those that give another answer each time are asked for too: what they may not be is the same. */
const standard = (): string[] => HyperFormula.getRegisteredFunctionNames('enGB');

const numbers = [
  '0',
  '1',
  '-1',
  '2',
  '0.5',
  '45',
  '90',
  '12',
  '650',
  '-0',
  '1E-300',
  '1E308',
  '1.7976931348623157E308',
  '1E15',
  '1E9',
  '65536',
  '255',
  '-255',
  '0.1',
  '3.8',
  '100000',
  '2958465',
  '32767',
  '1/3',
] as const;
const texts = [
  '""',
  '"a"',
  '"*"',
  '"*a*a*a*a*a"',
  '"~*"',
  '"12"',
  '"1E3"',
  '"2024-03-01"',
  '"TRUE"',
  '"#N/A"',
  '"EP 400/3 4+2"',
  '"="',
  '">0"',
  '"<>a"',
  '"[$-409]0.0;@"',
  '"yyyy-mm-dd"',
  '"\u{1F6E0}"',
  '" "',
  '"A1"',
  '"Belts!A1"',
  '"fits"',
] as const;
const references = [
  'A1',
  '$D$2',
  'Belts!D2',
  'Belts!D2:D20',
  'Belts!D:D',
  'D2:F9',
  "'Plate series'!A:C",
  'Belts!2:4',
  'XFD1048576',
  'A1:XFD9',
  'Nowhere!A1',
  "'it''s'!B2",
  'TightMargin',
  'Gravity',
  'NoSuchName',
  'Belts!A1:A1',
  'Pulleys!A1:Z60',
  'Assumptions!B2:B19',
] as const;
const arrays = ['{1,2;3,4}', '{1;2;3}', '{"a",1}', '{1E308,-1E308}', '{0}', '{TRUE,#N/A}', '{45}', '{1,2;3}'] as const;
const others = ['TRUE', 'FALSE', '#N/A', '#DIV/0!', '#REF!', 'TRUE()', ''] as const;
const operators = ['+', '-', '*', '/', '^', '&', '=', '<>', '<', '>=', ' ', ':', ','] as const;

type Chance = () => number;
const oneOf = (chance: Chance, items: readonly string[]): string => items[Math.floor(chance() * items.length)] ?? '';

function part(chance: Chance, names: readonly string[], depth: number): string {
  const what = chance();
  if (depth <= 0 || what < 0.3) {
    const leaf = chance();
    if (leaf < 0.45) return oneOf(chance, numbers);
    if (leaf < 0.6) return oneOf(chance, texts);
    if (leaf < 0.8) return oneOf(chance, references);
    return leaf < 0.92 ? oneOf(chance, arrays) : oneOf(chance, others);
  }
  const inner = (): string => part(chance, names, depth - 1);
  if (what < 0.5) return `${inner()}${oneOf(chance, operators)}${inner()}`;
  if (what < 0.56) return `(${inner()})`;
  if (what < 0.6) return `-${inner()}`;
  if (what < 0.63) return `${inner()}%`;
  const args = Array.from({ length: Math.floor(6 * chance()) }, inner);
  return `${oneOf(chance, names)}(${args.join(',')})`;
}

/** The formula of a number: it follows from it and the seed alone. */
function formulaOf(seed: number, number: number, names: readonly string[]): string {
  const chance = randomNumbers(seed + number);
  const formula = `=${part(chance, names, 1 + Math.floor(4 * chance()))}`;
  if (chance() > 0.03) return formula;
  // What is no formula at all: a character more, or one less.
  const at = 1 + Math.floor(chance() * formula.length);
  return chance() < 0.5
    ? formula.slice(0, at) + oneOf(chance, ['(', ')', '"', '{', '!', '#', '\n']) + formula.slice(at)
    : formula.slice(0, at);
}

/** Names of functions: each of ours as often as all the engine's. */
const functionNames = (): string[] => [...standard(), ...ours, ...ours, ...ours];

const isMatrix = (value: Value | Matrix): value is Matrix => Array.isArray(value);

function wrongValue(value: Value): string | undefined {
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : `the number ${value}`;
  if (typeof value === 'string') return value.length > 32_767 ? `a text of ${value.length} characters` : undefined;
  if (isFault(value)) return value.code.startsWith('#') ? undefined : `the code ${value.code}`;
  return typeof value === 'boolean' || value === null ? undefined : `something of type ${typeof value}`;
}

const shown = (formula: string): string => (formula.length > 300 ? `${formula.slice(0, 300)}…` : formula);

/** Formulas over the demo: each must end in a value or an error. */
export function grammarCases(seed: number): {
  readonly named: (number: number) => string;
  readonly tried: (number: number) => string;
} {
  const book = new Workbook(demoBook('metric'));
  const names = functionNames();
  return {
    named: (number) => shown(formulaOf(seed, number, names)),
    tried: (number) => {
      try {
        const value = book.evaluate(formulaOf(seed, number, names));
        const cells = isMatrix(value) ? value.flat() : [value];
        const bad = cells.flatMap((cell) => wrongValue(cell) ?? [])[0];
        if (bad !== undefined) return `wrong: it gives ${bad}`;
        return cells.some(isFault) ? 'error' : 'value';
      } catch (error) {
        return `wrong: it throws ${error instanceof Error ? error.message : String(error)}`;
      }
    },
  };
}
