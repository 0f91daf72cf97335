import { namedSheets } from '../../sheets/index.ts';
import { Engine } from '../formula/engine.ts';
import { isFault, isFormula, type Matrix, type Value } from '../formula/values.ts';
import { functions } from '../functions/index.ts';
import { namedRow, valueColumn } from '../sheet/named-values.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { namesOf, presentFormula } from '../workbook/earlier-names.ts';
import { columnLetters, quotedSheet, sheetRow } from '../formula/address.ts';
import { type Given, optionValue, optionWord } from './arguments.ts';
import { UsageError } from './usage-error.ts';

/** Formulas that stand in no cell: one from the command line, or one a line from standard input. */

/** An engine that knows our functions and the named values, and holds an empty sheet for the formulas to stand in. */
function namedValueEngine(units: UnitSystem): Engine {
  return Engine.build(
    functions,
    [
      { name: 'Formula', rows: [] },
      ...namedSheets.map(({ declaration, values }) => ({
        name: declaration.name,
        rows: [declaration.columns.map(({ header }) => header), ...values.map((value) => namedRow(value, units))],
      })),
    ],
    namedSheets.flatMap(({ declaration, values }) =>
      values.map(({ name }, record) => ({
        name,
        reference: `${quotedSheet(declaration.name)}!$${columnLetters(valueColumn)}$${sheetRow(record)}`,
      })),
    ),
  );
}

/**
 * A value as its shortest exact text: a number with all the digits that tell it from its neighbours, an error with its
 * message.
 */
function written(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return String(value);
}

const isMatrix = (value: Value | Matrix): value is Matrix => Array.isArray(value);

/** A value on lines of its own: a spill's rows, its columns with tabs between. */
const onLines = (value: Value | Matrix): string =>
  isMatrix(value) ? value.map((row) => row.map(written).join('\t')).join('\n') : written(value);

const item = (value: Value): string =>
  typeof value === 'string' ? `"${value.replaceAll('"', '""')}"` : isFault(value) ? value.code : written(value);

/** A value on one line: a spill as an array constant, a line's end inside a text as \n. */
const onOneLine = (value: Value | Matrix): string =>
  (isMatrix(value) ? `{${value.map((row) => row.map(item).join(',')).join(';')}}` : written(value)).replace(
    /\r?\n/g,
    '\\n',
  );

const firstFault = (value: Value | Matrix): boolean =>
  isMatrix(value) ? value.some((row) => row.some(isFault)) : isFault(value);

/** Whole lines of a stream of text, in the pieces in which they come. */
async function* lineGroups(input: NodeJS.ReadStream): AsyncGenerator<string[]> {
  input.setEncoding('utf8');
  let rest = '';
  for await (const piece of input) {
    const lines = `${rest}${String(piece)}`.split('\n');
    rest = lines.pop() ?? '';
    if (lines.length > 0) yield lines;
  }
  if (rest !== '') yield [rest];
}

const drained = (): Promise<void> => new Promise((resolve) => process.stdout.once('drain', resolve));

/** The value of a formula; of a text that is none, the text. */
type Answer = (formula: string) => Value | Matrix;

const noNames: ReadonlySet<string> = new Set();

/** By the named values alone, of now or of earlier versions. */
function byNamedValues(units: UnitSystem): Answer {
  const engine = namedValueEngine(units);
  return (formula) => engine.evaluate(isFormula(formula) ? presentFormula(formula, 'Formula', noNames).text : formula);
}

/** By a book's named values and cells, and its columns between brackets; loaded only when a book is named. */
async function byBook(file: string, units: UnitSystem | undefined): Promise<Answer> {
  const { listBook } = await import('./list-book.ts');
  const { withCellsOfColumns } = await import('../workbook/column-references.ts');
  const { book } = listBook(file, { choices: units === undefined ? {} : { units }, set: [], variants: [] });
  const names = namesOf(book.state);
  // The formula stands in no sheet, so a column says which sheet it is of.
  const nowhere = { sheet: '', record: 0, column: 0 };
  return (formula) =>
    book.evaluate(
      isFormula(formula) ? presentFormula(withCellsOfColumns(formula, nowhere, book.state), '', names).text : formula,
    );
}

/** One line a formula, in its order; answers come as the formulas do, so that another program may ask and wait. */
async function answerLines(answer: Answer): Promise<void> {
  for await (const lines of lineGroups(process.stdin)) {
    const answers = lines.map((line) => {
      const formula = line.replace(/^\uFEFF/, '').trim();
      return formula === '' ? '' : onOneLine(answer(formula));
    });
    if (!process.stdout.write(`${answers.join('\n')}\n`)) await drained();
  }
}

export async function run(typed: Given): Promise<number> {
  const [formula = ''] = typed.words;
  if (formula.trim() === '') throw new UsageError('formula needs FORMULA; it is empty');
  const units = optionWord(typed, 'units', ['metric', 'us']);
  const file = optionValue(typed, 'book');
  const answer = file === undefined ? byNamedValues(units ?? 'metric') : await byBook(file, units);
  if (formula === '-') {
    await answerLines(answer);
    return 0;
  }
  const value = answer(formula);
  process.stdout.write(`${onLines(value)}\n`);
  return firstFault(value) ? 1 : 0;
}
