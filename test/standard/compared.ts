import { HyperFormula } from 'hyperformula';
import { Engine } from '../../src/formula/engine.ts';
import { engineOnly, refusedFunctions } from '../../src/formula/spreadsheet/refused-functions.ts';
import { functions } from '../../src/functions/index.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { type Answer, answered, knownDifferences, type Verdict, verdict } from './comparison.ts';
import { callKinds, operatorCall, standardCall } from './standard-calls.ts';

/** Every standard function compared with LibreOffice, and what is said of those that it can't be compared with. */

/** Why a function is not compared; each has its tests in standard-functions.test.ts. */
export const notCompared: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    (
      `CHOOSECOLS CHOOSEROWS DROP FILTER HSTACK LET SEQUENCE SORT SORTBY TAKE TEXTAFTER TEXTBEFORE TOCOL TOROW ` +
      `UNIQUE ` +
      `VSTACK
     WRAPCOLS WRAPROWS XLOOKUP XMATCH`
    )
      .trim()
      .split(/\s+/)
      .map((name) => [name, 'LibreOffice 7.4 has it not']),
  ),
  ...Object.fromEntries(
    ['IMCOSH', 'IMCOT', 'IMCSC', 'IMCSCH', 'IMSEC', 'IMSECH', 'IMSINH', 'IMTAN'].map((name) => [
      name,
      'LibreOffice does not read it from .xlsx',
    ]),
  ),
  FORMULATEXT: 'gives the text of a formula, which programs write each in its way',
  HYPERLINK: 'gives a link',
  ISFORMULA: 'asks of a cell, not of a value',
  NOW: 'gives the time',
  OFFSET: 'takes written numbers only',
  RAND: 'gives random numbers',
  RANDBETWEEN: 'gives random numbers',
  SHEET: 'counts the sheets of the book',
  SHEETS: 'counts the sheets of the book',
  TODAY: 'gives the day',
};

/** Names under which the engine knows a function that has an official one: no file has them. */
export const otherNames =
  `VARS STDEVS COVARIANCEP COVARIANCES SKEWP WEIBULLDIST TINV2T TDISTRT TDIST2T FINVRT FDISTRT CHIDISTRT CHIINVRT
   LOGNORMINV POISSONDIST`
    .trim()
    .split(/\s+/);

/** Every function that a formula may call and that is not one of ours for belts. */
export function standardNames(): string[] {
  Engine.build(functions, [{ name: 'None', rows: [] }], []).destroy();
  const without = new Set([
    ...functions.map(({ name }) => name),
    ...Object.keys({ ...refusedFunctions, ...engineOnly }),
    ...otherNames,
    'NO.SHEET',
    'TABLE.FIGURES',
  ]);
  return HyperFormula.getRegisteredFunctionNames('enGB')
    .filter((name) => !without.has(name))
    .toSorted();
}

export interface Compared {
  readonly name: string;
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly differences: readonly Answer[];
}

/** Some random calls of every function, in both programs. */
export async function compared(count: number, seed: number): Promise<Compared[]> {
  const draw = randomNumbers(seed);
  const calls = Object.keys(callKinds).flatMap((name) => Array.from({ length: count }, () => standardCall(name, draw)));
  for (let index = 0; index < 10 * count; index += 1) calls.push(operatorCall(draw));
  const found = new Map<string, { counts: Record<Verdict, number>; differences: Answer[] }>();
  for (const answer of await answered(calls, seed)) {
    const said = verdict(answer);
    const one = found.get(answer.name) ?? {
      counts: { equal: 0, 'both refuse': 0, 'refused here': 0, known: 0, differs: 0 },
      differences: [],
    };
    found.set(answer.name, one);
    one.counts[said] += 1;
    if (said === 'differs') one.differences.push(answer);
  }
  return [...found].map(([name, one]) => ({ name, ...one }));
}

const reasons = (name: string): string =>
  knownDifferences.flatMap(({ names, why }) => (names.includes(name) ? [why] : [])).join('; ');

/** The table of a comparison. */
export function comparisonTable(results: readonly Compared[], count: number): string {
  const total = results.reduce((sum, { counts }) => sum + counts.differs, 0);
  return [
    '# Standard functions, compared with LibreOffice 7.4',
    '',
    `Made by \`npm run bench functions\`: ${count} random calls of each function, some with wrong arguments, and ` +
      `${10 * count} of the operators. Numbers agree to 1e-9. "Refused by both": an error in both programs, ` +
      `whichever. ` +
      `"Refused here": LibreOffice answers, this program says what is wrong. "Otherwise": for the reason given. ` +
      `Differences without a reason: ${total}.`,
    '',
    '| function | equal | refused by both | refused here | otherwise | differs | why otherwise |',
    '|---|--:|--:|--:|--:|--:|---|',
    ...results.map(
      ({ name, counts }) =>
        `| ${name} | ${counts.equal} | ${counts['both refuse']} | ${counts['refused here']} | ${counts.known} | ` +
        `${counts.differs} | ${counts.known > 0 ? reasons(name) : ''} |`,
    ),
    '',
    'Not compared, and held to published examples and definitions instead:',
    '',
    '| function | why |',
    '|---|---|',
    ...Object.entries(notCompared).map(([name, why]) => `| ${name} | ${why} |`),
    '',
    'Refused by name, with what to write instead:',
    '',
    '| function | instead |',
    '|---|---|',
    ...Object.entries({ ...refusedFunctions, ...engineOnly }).map(([name, instead]) => `| ${name} | ${instead} |`),
    '',
  ].join('\n');
}
