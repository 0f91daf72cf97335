import { belts } from '../../sheets/belts/index.ts';
import { Belt } from '../records/belt.ts';
import { anyFactor } from '../what-if/any-factor.ts';
import type { AskedRange, Factor } from '../what-if/factor.ts';
import { factorNamed } from '../what-if/known-factors.ts';
import { typedGoal } from '../what-if/goal.ts';
import { solvedBelt } from '../what-if/solved-belt.ts';
import { isSolvable, presentLine, solvedLines } from '../what-if/solved-words.ts';
import { typedRange } from '../what-if/typed-range.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { orUsageError } from './refused-change.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** Which values of an input or an assumption make belts meet a goal. */

/** Stands for every belt of a list. */
const everyBelt = '*';

function records(book: Workbook, file: string, name: string): readonly number[] {
  return name === everyBelt ? [...book.sheet(belts.name).rows.keys()] : [beltRecord(book, file, name)];
}

const range = (typed: Given, factor: Factor, book: Workbook): AskedRange =>
  orUsageError(() => {
    const [from, to, step] = (['from', 'to', 'step'] as const).map((end) => optionValue(typed, end));
    return typedRange(factor, book, { from, to, step }, (end) => `--${end}`);
  });

/** Prints the values that meet the goal; the exit code is 1 when a belt has none. */
export async function run(typed: Given): Promise<number> {
  const [file = '', name = '', wanted = ''] = typed.words;
  const { book, supposed } = listBook(file, listOptions(typed));
  const by = typed.options.get('by') ?? [];
  const { goal, factors } = orUsageError(() => ({
    goal: typedGoal(book, wanted),
    factors: by.map((one) => factorNamed(book, one)),
  }));
  if (factors.length === 0 && ['from', 'to', 'step'].some((option) => typed.options.has(option)))
    throw new UsageError('--from, --to and --step need --by: the input that they are of');
  const lines: string[] = [];
  let unsolved = 0;
  for (const record of records(book, file, name)) {
    const belt = new Belt(book, record);
    const solved =
      factors.length === 0
        ? anyFactor(belt, goal)
        : factors.map((factor) => solvedBelt(belt, goal, factor, range(typed, factor, book)));
    const [first] = solved;
    if (!solved.some(isSolvable)) unsolved += 1;
    lines.push(
      ...(first === undefined ? [`${belt.name}: no input alone gives ${goal.words}.`] : [presentLine(first)]),
      ...solved.flatMap(solvedLines).map((line) => `  ${line}`),
    );
  }
  process.stdout.write(visibleLines([...supposed, ...lines]));
  return unsolved > 0 ? 1 : 0;
}
