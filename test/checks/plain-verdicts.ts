import { checkColumns, checkHeader } from '../../sheets/belts/check-columns.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { notAsked } from '../../src/functions/checks.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { enteredBelts, isBetter, plainVerdicts, worstOf } from '../oracles/plain-verdicts.ts';
import { columnOf } from '../workbook/books.ts';
import { verdictBook } from './verdict-belts.ts';

/** The book's verdicts on random belts beside those of the plain second implementation. */

export interface Compared {
  /** Where the book is better: each is a fault. */
  readonly better: readonly string[];
  /** Where it is worse: each wants an explanation. */
  readonly worse: readonly string[];
  /** What each check said, and each method, default and limit that was met. */
  readonly met: ReadonlySet<string>;
}

/** Columns whose words and numbers are the branches of what lies behind the checks, each with those to be met. */
const branches: Readonly<Partial<Record<BeltHeader, readonly (string | number)[]>>> = {
  'Tension from': ['entered', 'resistances', 'power', 'belt rating', 'not known'],
  'Carcass from': ['entered', 'thickness less covers', 'designation', 'not known'],
  'Carcass material': ['EP', 'E', 'NN', 'P', 'B', 'St'],
  'Belt rating from': ['entered', 'designation', 'not known'],
  'Belt mass from': ['entered', 'thickness', 'not known'],
  'Drive friction from': ['entered', 'drive pulley surface', 'not known'],
  'Take-up used': ['automatic', 'screw'],
  'Replaced joint': ['new belt', 'square joint', 'same skew', 'other skew'],
  'Drive position': [0, 1],
  'Second drive position': [0, 1],
  'Drive faults': [
    '',
    'a weight hangs on a screw take-up',
    'the second drive is in the same place as the first',
    'the second drive has figures and no place',
    'the drive has a distance and is not on the return run',
    'the second drive has a distance and is not on the return run',
  ],
  'Life used from': ['hours', 'passes'],
  'Rated skew below': [0, 15, 22, 30, 45, 60],
  'Rated skew above': [15, 22, 30, 45, 60, 90],
  'Carcass steps': [1, 0, -1, -2, -3],
};

/** The words that a check can say, by its declaration. */
function sayable(check: CheckDeclaration): string[] {
  const always = ['fits', 'not known'];
  // Silent while there is no fault: it has nothing good to say, and no fault is found in what can't be read.
  if (check.word === 'drive') return ['fails', notAsked];
  if ('verdict' in check) return [...always, check.atWorst ?? 'fails'];
  return [
    ...always,
    'tight',
    ...(check.atWorst === undefined ? ['fails'] : []),
    ...(check.silentWithout === undefined ? [] : [notAsked]),
  ];
}

/** All that random belts are to meet. */
export const toBeMet: readonly string[] = [
  ...beltChecks.flatMap((check) => sayable(check).map((word) => `${checkHeader(check.word)}: ${word}`)),
  ...Object.entries(branches).flatMap(([header, words]) => words.map((word) => `${header}: ${word}`)),
];

export function comparedVerdicts(seed: number, count: number): Compared {
  const book = new Workbook(verdictBook(seed, count));
  const better: string[] = [];
  const worse: string[] = [];
  const met = new Set<string>();
  const branched = Object.keys(branches).map((header) => ({ header, column: columnOf(book, 'Belts', header) }));
  enteredBelts(book).forEach((entered, record) => {
    const plain = plainVerdicts(entered);
    const pairs = [
      ...checkColumns.map(({ header }) => [header, String(book.read('Belts', record, header)), plain[header]] as const),
      ['Verdict', String(book.read('Belts', record, 'Verdict')), worstOf(plain)] as const,
    ];
    for (const [header, own, second] of pairs) {
      met.add(`${header}: ${own}`);
      const words = `seed ${seed}, B${record}, ${header}: ${own} in the book, ${second} in plain code`;
      if (isBetter(own, second)) better.push(words);
      else if (own !== second) worse.push(words);
    }
    for (const { header, column } of branched)
      met.add(`${header}: ${String(book.value({ sheet: 'Belts', record, column }))}`);
  });
  return { better, worse, met };
}
