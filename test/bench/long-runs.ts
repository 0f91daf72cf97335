import { fileURLToPath } from 'node:url';
import { setup } from '../browser/built-page.ts';
import { everyDay } from '../browser/days/days.ts';
import { killedPages } from '../browser/killed-pages.ts';
import { comparedVerdicts, toBeMet } from '../checks/plain-verdicts.ts';
import { worsenedBelts } from '../checks/worsened-belts.ts';
import { solverRuntime } from '../../src/cli/planning-options.ts';
import { killedRuns } from '../cli/killed-runs.ts';
import { randomLists } from '../cli/lists-in-parts.ts';
import { grammarCases } from '../formula/formula-grammar.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { replacedCuts } from '../oracles/replaced-cuts.ts';
import { triedOrder } from '../oracles/tried-orders.ts';
import { everythingBook } from '../workbook/everything-book.ts';
import { randomQuestion } from '../what-if/random-questions.ts';
import { randomSession } from '../workbook/random-session.ts';
import { roundTripDifferences } from '../xlsx/file-and-back.ts';
import { mutantCases } from '../xlsx/mutants.ts';
import { grownByEdits, grownByImports, grownByOpenings } from './growth.ts';
import { answerCases, type Cases, type Watched, watchedRuns } from './watched-runs.ts';

/**
 * `npm run long -- PART … [--seed N]`: what tests try a few times, tried until it can be called proven. Prints what was
 * found and ends with 1 when anything was; takes hours for all of it, so its parts can be named.
 */

const ended = (wrong: readonly string[]): string => (wrong.length === 0 ? 'the same' : `wrong: ${wrong.join('; ')}`);

/** What is tried in processes of its own, by its name. */
const cases: Readonly<Record<string, (seed: number) => Promise<Cases>>> = {
  mutants: mutantCases,
  formulas: (seed) => Promise.resolve(grammarCases(seed)),
  books: (seed) =>
    Promise.resolve({
      named: (number) => `book ${seed + number}`,
      tried: async (number) => ended(await roundTripDifferences(everythingBook(seed + number))),
    }),
  questions: (seed) =>
    Promise.resolve({
      named: (number) => `question ${seed + number}`,
      tried(number) {
        const { asked, wrong } = randomQuestion(seed + number);
        return wrong.length === 0 ? asked : ended(wrong);
      },
    }),
  orders: async (seed) => {
    const solver = await loadSolver(() => solverRuntime);
    return {
      named: (number) => `order ${seed + number}`,
      tried: async (number) => {
        const tried = triedOrder(seed + number, solver);
        return ended([...(tried === undefined ? [] : [tried]), ...(await replacedCuts(seed + number, solver))]);
      },
    };
  },
  sessions: (seed) =>
    Promise.resolve({
      named: (number) => `session ${seed + number}`,
      tried: (number) => ended(randomSession(seed + number).wrong),
    }),
};

/** What grows with use, in this process and a browser. */
const growth: Readonly<Record<string, () => ReturnType<typeof grownByEdits>>> = {
  'growth-edits': () => grownByEdits(),
  'growth-imports': grownByImports,
  'growth-openings'() {
    setup();
    return grownByOpenings();
  },
};

const randomListCount = 300;

/** This program as it is built. */
const program = fileURLToPath(import.meta.url);

const parts: Readonly<Record<string, (seed: number) => Promise<Watched>>> = {
  'killed-runs': async (seed) => {
    const { wrong, ...counts } = await killedRuns({ count: 150, seed });
    return { counts, wrong };
  },
  'killed-pages': async (seed) => {
    setup();
    const { wrong, ...counts } = await killedPages({ count: 150, seed });
    return { counts, wrong };
  },
  // So are the steps of a day.
  days() {
    setup();
    return everyDay();
  },
  // The same uses in the same order: nothing about them is by chance.
  ...growth,
  mutants: (seed) => watchedRuns({ program, kind: 'mutants', seed, count: 10_000, longest: 20_000 }),
  formulas: (seed) => watchedRuns({ program, kind: 'formulas', seed, count: 50_000, longest: 1_000 }),
  books: (seed) => watchedRuns({ program, kind: 'books', seed, count: 2_000, longest: 20_000 }),
  questions: (seed) => watchedRuns({ program, kind: 'questions', seed, count: 10_000, longest: 20_000 }),
  orders: (seed) => watchedRuns({ program, kind: 'orders', seed, count: 200, longest: 60_000 }),
  sessions: (seed) => watchedRuns({ program, kind: 'sessions', seed, count: 500, longest: 60_000 }),
  lists: async (seed) => {
    const lists = await randomLists();
    const wrong: string[] = [];
    for (let number = seed; number < seed + randomListCount; number += 1) {
      const found = await lists.difference(number);
      if (found !== '') wrong.push(`${lists.named(number)}: ${found}`);
    }
    return { counts: { lists: randomListCount }, wrong };
  },
  verdicts(seed) {
    const books = Array.from({ length: 50 }, (_, index) => comparedVerdicts(seed + index, 400));
    const met = new Set(books.flatMap((book) => [...book.met]));
    const unmet = toBeMet.filter((what) => !met.has(what)).map((what) => `${what} was never met`);
    return Promise.resolve({
      counts: { belts: 50 * 400, 'verdicts and branches met': toBeMet.length - unmet.length },
      wrong: [...books.flatMap(({ better, worse }) => [...better, ...worse]), ...unmet],
    });
  },
  monotony(seed) {
    const books = Array.from({ length: 25 }, (_, index) => worsenedBelts(seed + index, 400));
    const sum = (of: (book: (typeof books)[number]) => number): number =>
      books.reduce((total, book) => total + of(book), 0);
    return Promise.resolve({
      counts: { belts: 25 * 400, worsened: sum(({ tried }) => tried), 'verdicts worse': sum(({ worse }) => worse) },
      wrong: books.flatMap(({ improved }) => improved),
    });
  },
};

const args = process.argv.slice(2);
if (args[0] === '--cases') {
  const [own = 0, from = 0, to = 0] = args.slice(2).map(Number);
  const made = await cases[args[1] ?? '']?.(own);
  if (made === undefined) throw new Error(`there are no cases ${args[1]}`);
  await answerCases(made, from, to);
  process.exit();
}
const place = args.indexOf('--seed');
const seed = place < 0 ? 20_261_126 : Number(args[place + 1]);
const asked = place < 0 ? args : args.toSpliced(place, 2);
const unknown = asked.filter((name) => parts[name] === undefined);
if (unknown.length > 0 || !Number.isSafeInteger(seed)) {
  process.stderr.write(`The parts are ${Object.keys(parts).join(', ')}; --seed is a whole number.\n`);
  process.exit(2);
}
for (const [name, part] of Object.entries(parts)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const begun = performance.now();
  const { counts, wrong } = await part(seed);
  const seconds = Math.round((performance.now() - begun) / 1000);
  const told = Object.entries(counts).map(([what, count]) => `${what} ${count.toLocaleString('en-US')}`);
  process.stdout.write(`${name}, seed ${seed}: ${told.join(', ')}, wrong ${wrong.length}; ${seconds} s\n`);
  for (const line of wrong.slice(0, 50)) process.stdout.write(`  ${line}\n`);
  if (wrong.length > 0) process.exitCode = 1;
}
