import { type CheckHeader, checkColumns } from '../../sheets/belts/check-columns.ts';
import { notAsked } from '../../src/functions/checks.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { Cells } from '../workbook/books.ts';
import { verdictBook } from './verdict-belts.ts';

/** Random belts made worse in one thing: no check may call them better for it. */

interface Worsening {
  readonly name: string;
  /** The belt, worse by a share from 0 to 1; undefined where its record does not say what is to be worse. */
  readonly worse: (cells: Cells, share: number) => Cells | undefined;
  /** Checks that it may help, each with its reason. */
  readonly mayHelp: Readonly<Partial<Record<CheckHeader, string>>>;
}

const changed =
  (header: string, by: (value: number, share: number) => number) =>
  (cells: Cells, share: number): Cells | undefined => {
    const value = cells[header];
    return typeof value === 'number' ? { ...cells, [header]: by(value, share) } : undefined;
  };

const closer = 'methods of the tension that come nearer to each other are less in doubt';

const loose = 'a belt that hangs looser has less tension; what it needs is held by the check of the weight';

export const worsenings: readonly Worsening[] = [
  { name: 'less travel', worse: changed('Take-up travel', (travel, share) => travel * share), mayHelp: {} },
  {
    name: 'a thinner cover',
    worse: changed('Top cover', (cover, share) => cover * share),
    mayHelp: {
      'Top cover check': 'a cover thicker than the designation says is in doubt as well as a thinner one',
      'Layers check': 'a cover that does not go into the belt may go into it when it is thinner',
      'Carcass thickness check': 'it compares ways to the carcass, one of which is the thickness less the covers',
    },
  },
  { name: 'a smaller pulley', worse: changed('Smallest pulley', (pulley, share) => pulley * share), mayHelp: {} },
  {
    name: 'more tension',
    worse: changed('Known tension', (tension, share) => tension * (1 + 2 * share)),
    mayHelp: { 'Larger tension check': closer },
  },
  {
    name: 'more power',
    worse: changed('Power', (power, share) => power * (1 + 2 * share)),
    mayHelp: { 'Larger tension check': closer },
  },
  {
    name: 'more skive',
    worse: changed('Skive depth', (skive, share) => skive + 3 * share),
    mayHelp: {
      'Thickness check': 'a skive is what makes too thick a belt thin enough',
      'Scraper check': 'plates let into the cover stand out less',
    },
  },
  {
    name: 'a lighter take-up weight',
    worse: changed('Take-up weight', (weight, share) => weight * (0.01 + 0.98 * share)),
    mayHelp: {
      'Tension check': loose,
      'Belt tension check': loose,
      'Load per plate check': loose,
      'Carcass check': loose,
      'Other pulley check': loose,
      'Larger tension check': loose,
    },
  },
  {
    name: 'a heavier take-up weight',
    worse: changed('Take-up weight', (weight, share) => weight * (1 + 4 * share)),
    mayHelp: { 'Take-up weight check': 'more weight gives what grip and sag need', 'Larger tension check': closer },
  },
  { name: 'a larger cut-out', worse: changed('Cut-out', (cutOut, share) => cutOut + 400 * share), mayHelp: {} },
];

export interface Worsened {
  readonly tried: number;
  /** Pairs of verdicts in which the worse belt was called worse: the trial is of something. */
  readonly worse: number;
  /** Where the worse belt is called better: each is a fault. */
  readonly improved: readonly string[];
}

const passes = ['fits', 'tight'];

/** How bad a verdict is: what is refused is refused, whether it fails or can't be told. */
const badness = (verdict: string): number => (verdict === notAsked ? 0 : (passes.indexOf(verdict) + 3) % 3);

export function worsenedBelts(seed: number, count: number): Worsened {
  const random = randomNumbers(seed + 1_000_000);
  const made: { readonly by: Worsening | undefined }[] = [];
  const state = verdictBook(seed, count, (cells) => {
    made.push({ by: undefined });
    const variants = worsenings.flatMap((by, index) => {
      const worse = by.worse(cells, random());
      if (worse === undefined) return [];
      made.push({ by });
      return [{ ...worse, Belt: `${String(cells['Belt'])} ${index}` }];
    });
    return [cells, ...variants];
  });
  const book = new Workbook(state);
  const said = (record: number, header: CheckHeader): string => String(book.read('Belts', record, header));
  const improved: string[] = [];
  let [base, tried, worse] = [0, 0, 0];
  made.forEach(({ by }, record) => {
    if (by === undefined) {
      base = record;
      return;
    }
    tried += 1;
    for (const { header } of checkColumns) {
      const [before, after] = [said(base, header), said(record, header)];
      // What could not be told before may be told after: a wrong input may become a right one.
      if (before === 'not known' || by.mayHelp[header] !== undefined) continue;
      if (badness(after) > badness(before)) worse += 1;
      if (badness(after) < badness(before))
        improved.push(
          `seed ${seed}, ${String(book.read('Belts', record, 'Belt'))}, ${by.name}: ${header} ${before}, ${after}`,
        );
    }
  });
  return { tried, worse, improved };
}
