import { beltColumn, beltTitle } from '../records/belt.ts';
import { capital, amount, digitsOf, listed } from '../sheet/words.ts';
import { factorInput, factorWords, standardSizes } from './factor.ts';
import type { Solutions, Steps } from './solutions.ts';
import { figureAt, type Solved } from './solved-belt.ts';

/** What was found for a belt and a factor, in sentences for a planner. */

type Numbers = Extract<Solved['answer'], { readonly of: 'numbers' }>;

/** Stretches and roots that are named; of more, how many there are. */
const mostNamed = 8;

/** Digits that a step needs: 0.5 shows one, 0.0625 four. */
const stepDigits = (step: number): number => Math.max(0, Math.min(9, (String(step).split('.')[1] ?? '').length));

const figureWords = ({ belt, goal, factor }: Solved, at: number | string): string => {
  const value = figureAt(belt, factor, goal)(at);
  if (typeof value !== 'number') return value === null || value === '' ? 'empty' : String(value);
  const column = beltColumn(goal.header);
  return amount(value, { ...column, digits: Math.max(digitsOf(column, belt.units) ?? 0, 2) }, belt.units);
};

function stretchWords(solved: Solved, { steps }: Numbers, stretch: Solutions['stretches'][number]): string {
  const { belt, factor } = solved;
  const words = (value: number): string => factorWords(factor, belt, value, stepDigits(steps.step));
  const fine = (value: number): string => factorWords(factor, belt, value, stepDigits(steps.step) + 3);
  const { from, to, exactFrom, exactTo } = stretch;
  const inner = [
    ...(from - exactFrom > steps.step / 1000 ? [`from ${fine(exactFrom)}`] : []),
    ...(exactTo - to > steps.step / 1000 ? [`up to ${fine(exactTo)}`] : []),
  ];
  const range = from === to ? words(from) : `${words(from)} to ${words(to)}`;
  return inner.length === 0 ? range : `${range} (exactly ${inner.join(' ')})`;
}

const rangeWords = ({ belt, factor }: Solved, { from, to, step }: Steps): string =>
  `from ${factorWords(factor, belt, from, stepDigits(step))} to ` +
  `${factorWords(factor, belt, to, stepDigits(step))} in ` +
  `steps of ${factorWords(factor, belt, step, stepDigits(step))}`;

/** Diameters that can be had and do, told by the first where all larger ones do too. */
function standardWords({ belt, factor }: Solved, standard: readonly number[]): string {
  const [first] = standard;
  const usual = belt.units === 'metric' ? 'standard' : 'usual inch';
  if (first === undefined) return `No ${usual} pulley does.`;
  const larger = standardSizes(factor, belt)?.filter((size) => size >= first) ?? [];
  const words = standard.map((size) => factorWords(factor, belt, size));
  return larger.length === standard.length && standard.length > 1
    ? `${capital(usual)} pulleys: ${words[0] ?? ''} and larger.`
    : `${capital(usual)} pulleys: ${listed(words, 'and', 40)}.`;
}

function numberLines(solved: Solved, answer: Numbers): string[] {
  const { belt, factor, goal } = solved;
  const { solutions, steps, standard } = answer;
  const exact = (value: number): string => factorWords(factor, belt, value, 6);
  const named = solutions.stretches.map((stretch) => stretchWords(solved, answer, stretch));
  const roots = solutions.roots.filter(
    (root) => !solutions.stretches.some(({ from, to }) => root >= from && root <= to),
  );
  const every = solutions.everyStep ? '' : ' Not every step was tried: a narrow solution may be missed.';
  const tried = rangeWords(solved, steps);
  if (named.length === 0 && roots.length === 0) {
    const { nearest } = solutions;
    const best =
      nearest === undefined
        ? ''
        : ` Nearest: ${goal.header} is ${figureWords(solved, nearest.at)} at ` +
          `${factorWords(factor, belt, nearest.at, stepDigits(steps.step))}.`;
    return [`${factor.name}: no value ${tried} gives ${goal.words}.${best}${every}`];
  }
  const found = [
    ...(named.length === 0 ? [] : [listed(named, 'or', mostNamed)]),
    ...(roots.length === 0 ? [] : [`exactly ${listed(roots.map(exact), 'or', mostNamed)}`]),
  ];
  return [
    `${factor.name}: ${goal.words} with ${found.join(', and ')}. Tried ${tried}.${every}`,
    ...(standard === undefined ? [] : [`  ${standardWords(solved, standard)}`]),
  ];
}

/** The answer for one factor; one line, or two for a pulley. */
export function solvedLines(solved: Solved): string[] {
  const { belt, factor, goal, answer } = solved;
  switch (answer.of) {
    case 'no influence':
      return [`${factor.name}: ${goal.header} does not depend on it.`];
    case 'no range':
      return [
        `${factor.name}: ` +
          `${factorInput(factor, belt) === undefined ? 'it takes any text' : 'no value to start from'}. ` +
          `Give --from and --to.`,
      ];
    case 'choices':
      return answer.found.length > 0
        ? [`${factor.name}: ${goal.words} with ${listed(answer.found.map(String), 'or', 12)}.`]
        : [
            `${factor.name}: none of ${listed(answer.tried.map(String), 'and', 12)} gives ${goal.words}.` +
              (answer.nearest === undefined
                ? ''
                : ` Nearest: ${goal.header} is ${figureWords(solved, answer.nearest)} with ${answer.nearest}.`),
          ];
    case 'numbers':
      return numberLines(solved, answer);
  }
}

/** The belt as it is: "Q3 now: Skew 45°, Verdict passes: yes". */
export const presentLine = ({ belt, goal, met }: Solved): string => {
  const value = belt.value(goal.header);
  const shown = typeof value === 'number' ? belt.shown(goal.header) : String(value ?? 'empty');
  return `${beltTitle(belt.name)}: ${goal.words}? Now ${met ? 'yes' : 'no'}: ${goal.header} is ${shown}.`;
};

/** Whether an answer has any solution. */
export const isSolvable = ({ answer }: Solved): boolean =>
  answer.of === 'choices'
    ? answer.found.length > 0
    : answer.of === 'numbers' && (answer.solutions.stretches.length > 0 || answer.solutions.roots.length > 0);
