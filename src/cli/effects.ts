import { isWords } from '../units/quantities.ts';
import { Belt, beltColumn, beltTitle } from '../records/belt.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { isFault, type Value } from '../formula/values.ts';
import { amount, capital, rounded } from '../sheet/words.ts';
import { type Effect, effects, type Tolerances, turns } from '../what-if/effects.ts';
import { factorWords, rangeWords } from '../what-if/factor.ts';
import { typedTolerances } from '../what-if/simulation-task.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { aligned } from './aligned.ts';
import type { Given } from './arguments.ts';
import { beltHeader } from './belt-column.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { orUsageError } from './refused-change.ts';
import { visibleLines } from './visible-text.ts';

/** Which inputs and assumptions a belt's figure depends on, the one with the largest effect first. */

/** Tolerances as they were typed, else as they are proposed. */
const tolerancesGiven = (typed: Given, book: Workbook): Tolerances =>
  orUsageError(() => typedTolerances(book, typed.options.get('tolerance') ?? []), '--tolerance');

function shown(belt: Belt, header: BeltHeader, value: Value): string {
  if (typeof value === 'number') return amount(value, beltColumn(header), belt.units);
  return value === null || value === ''
    ? 'empty'
    : isFault(value)
      ? value.code
      : value === true
        ? 'TRUE'
        : String(value);
}

const signed = (value: number): string => `${value < 0 ? '' : '+'}${rounded(value, 2)} %`;

function effectRow(belt: Belt, header: BeltHeader, { factor, present, tried, growth }: Effect): string[] {
  const [first] = tried;
  const last = tried.at(-1);
  const words = (value: Value): string => factorWords(factor, belt, value);
  const range =
    typeof first?.at === 'number' && typeof last?.at === 'number'
      ? rangeWords(factor, belt, first.at, last.at)
      : 'exact';
  const choices = tried.length > 2 || typeof first?.at === 'string';
  return [
    factor.name,
    words(present),
    choices ? `${tried.length} choices` : range,
    first === undefined || last === undefined
      ? ''
      : choices
        ? ''
        : `${shown(belt, header, first.figure)} to ${shown(belt, header, last.figure)}`,
    growth?.elasticity === undefined ? '' : signed(growth.elasticity),
  ];
}

/** Rows that are printed without --all. */
const usualRows = 20;

function figureLines(belt: Belt, header: BeltHeader, tolerances: Tolerances, all: boolean): string[] {
  const found = effects(belt, header, tolerances);
  const told = all ? found : found.slice(0, usualRows);
  return found.length === 0
    ? [`No input and no named value changes ${header} by itself.`]
    : [
        ...aligned([
          ['Changed alone', 'Now', 'Within', header, '1 % more'],
          ...told.map((one) => effectRow(belt, header, one)),
        ]),
        ...(told.length < found.length ? [`${found.length - told.length} more with smaller effects: --all.`] : []),
      ];
}

function turnLines(belt: Belt, header: BeltHeader, tolerances: Tolerances, all: boolean): string[] {
  const found = turns(belt, header, tolerances);
  const told = all ? found : found.slice(0, usualRows);
  return found.length === 0
    ? [`No input and no named value turns ${header} by itself.`]
    : [
        ...aligned([
          ['Changed alone', 'Now', 'Turns at', `${header} then`, 'Tolerances away'],
          ...told.map(({ factor, present, at, verdict, tolerances: away }) => [
            factor.name,
            factorWords(factor, belt, present),
            factorWords(factor, belt, at, 4),
            String(verdict),
            rounded(away, 1),
          ]),
        ]),
        ...(told.length < found.length ? [`${found.length - told.length} more that are farther: --all.`] : []),
      ];
}

export async function run(typed: Given): Promise<number> {
  const [file = '', name = '', wanted = ''] = typed.words;
  const { book, supposed } = listBook(file, listOptions(typed));
  const header = beltHeader(book, wanted);
  const belt = new Belt(book, beltRecord(book, file, name));
  const tolerances = tolerancesGiven(typed, book);
  const all = typed.options.has('all');
  const lines = isWords(beltColumn(header).kind)
    ? turnLines(belt, header, tolerances, all)
    : figureLines(belt, header, tolerances, all);
  process.stdout.write(
    visibleLines([
      ...supposed,
      `${capital(beltTitle(belt.name))}: ${header} is ${shown(belt, header, belt.value(header))}.`,
      ...lines,
    ]),
  );
  return 0;
}
