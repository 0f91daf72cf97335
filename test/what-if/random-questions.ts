import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { isWords } from '../../src/units/quantities.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { Belt, type Change } from '../../src/records/belt.ts';
import type { Factor } from '../../src/what-if/factor.ts';
import { factorsFor } from '../../src/what-if/known-factors.ts';
import { passes, typedGoal } from '../../src/what-if/goal.ts';
import { changeTo, type Solved, solvedBelt } from '../../src/what-if/solved-belt.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { Value } from '../../src/formula/values.ts';

/**
 * Random questions to the demo's belts, and whether the answers are right: each solution is entered into the book, as a
 * planner would, and the book's own cell is read.
 */

const book = new Workbook(demoBook('metric'));
const computed = belts.columns.filter(isComputed);

/** What the book's own cell comes to with a value entered. */
function entered(belt: Belt, factor: Factor, header: BeltHeader, value: Value): Value {
  const { inputs = {} }: Change = changeTo(belt, factor, value);
  const cells = Object.entries(inputs).map(([name, content]) => ({
    ...belt.place(name as BeltHeader),
    content: content as Exclude<Value, object>,
  }));
  const own = factor.of === 'belt' ? cells : [{ ...factor.place(belt), content: value as Exclude<Value, object> }];
  const before = belt.book.undoable;
  belt.book.edit(own, 'tried');
  const read = belt.value(header);
  if (belt.book.undoable === 'tried') belt.book.undo();
  if (belt.book.undoable !== before) throw new Error('the book was not put back');
  return read;
}

/** What is wrong with an answer, a text each. */
function wrongIn({ belt, factor, goal, answer }: Solved, random: () => number): string[] {
  const distance = (value: Value): number | undefined => goal.distance(entered(belt, factor, goal.header, value));
  const mark = `${belt.name}, ${goal.words} by ${factor.name}`;
  if (answer.of === 'choices')
    return answer.tried.flatMap((name) =>
      (distance(name) === 0) === answer.found.includes(name) ? [] : [`${mark}: ${name} is told wrongly`],
    );
  if (answer.of !== 'numbers') return [];
  const { steps, solutions } = answer;
  const { stretches, roots } = solutions;
  const isTold = (at: number): boolean => stretches.some(({ from, to }) => at >= from && at <= to);
  const wrong = stretches
    .slice(0, 3)
    .flatMap(({ from, to, exactFrom, exactTo }) =>
      [from, to, exactFrom, exactTo].filter((at) => distance(at) !== 0).map((at) => `${mark}: ${at} does not meet it`),
    );
  for (const root of roots.slice(0, 3)) {
    const value = entered(belt, factor, goal.header, root);
    const off = goal.difference?.(value);
    if (off === undefined || Math.abs(off) > 1e-6 * Math.max(1, Math.abs(Number(value))))
      wrong.push(`${mark}: ${root} gives ${String(value)}`);
  }
  // Steps that were tried one by one are told rightly, wherever they lie.
  for (let trial = 0; solutions.everyStep && trial < 3; trial += 1) {
    const last = Math.floor(steps.to / steps.step + 1e-9);
    const first = Math.ceil(steps.from / steps.step - 1e-9);
    const at = Number(((first + Math.floor(random() * (last - first + 1))) * steps.step).toPrecision(14));
    if ((distance(at) === 0) !== isTold(at)) wrong.push(`${mark}: the step ${at} is told wrongly`);
  }
  return wrong;
}

/** A goal that a belt may well reach: a check, or about what the figure comes to with another value of the factor. */
function randomGoal(belt: Belt, factor: Factor, random: () => number): ReturnType<typeof typedGoal> | undefined {
  const following = computed.filter(({ header }) => factor.columns.has(book.column(belts.name, header)));
  const column = following[Math.floor(random() * following.length)];
  if (column === undefined) return undefined;
  const { header, kind } = column;
  if (header.endsWith(' check') || header === 'Verdict') return passes(header);
  const value = belt.value(header);
  if (isWords(kind) || kind === 'date' || typeof value !== 'number') return undefined;
  const operator = (['<=', '>=', '<', '>', '=', '='] as const)[Math.floor(random() * 6)] ?? '=';
  return typedGoal(book, `${header}${operator}${Number((value * (0.5 + random())).toPrecision(6))}`);
}

/** A question by its number and what is wrong with its answer; what it asked where nothing is. */
export function randomQuestion(number: number): { readonly asked: string; readonly wrong: readonly string[] } {
  const random = randomNumbers(number);
  for (let attempt = 0; attempt < 50; attempt += 1) {
    const belt = new Belt(book, Math.floor(random() * book.sheet(belts.name).rows.length));
    const factors = factorsFor(belt);
    const factor = factors[Math.floor(random() * factors.length)];
    const goal = factor === undefined ? undefined : randomGoal(belt, factor, random);
    if (factor === undefined || goal === undefined) continue;
    const solved = solvedBelt(belt, goal, factor, {}, 400);
    return { asked: solved.answer.of, wrong: wrongIn(solved, random) };
  }
  return { asked: 'none', wrong: [] };
}
