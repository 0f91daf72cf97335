import type { CommandWords } from '../reference/options.ts';
import { UsageError } from './usage-error.ts';

/** What was typed after a command's name. */
export interface Given {
  readonly words: readonly string[];
  /** Values by option; one without a value has ''. */
  readonly options: ReadonlyMap<string, readonly string[]>;
}

const listed = (names: readonly string[]): string => names.map((name) => `--${name}`).join(', ');

/** Splits what was typed into words and options; refuses what the command does not take. */
export function given(
  args: readonly string[],
  { name, words: wanted, options: known, freeWords }: CommandWords,
): Given {
  const words: string[] = [];
  const options = new Map<string, string[]>();
  const rest = [...args];
  for (let argument = rest.shift(); argument !== undefined; argument = rest.shift()) {
    const [, optionName, written] = /^--([a-z][a-z-]*)(?:=([^]*))?$/.exec(argument) ?? [];
    if (optionName === undefined) {
      if (freeWords !== true && argument.startsWith('-')) {
        throw new UsageError(
          `${name} has no option ${argument}. For a file of that name, write ./${argument}. Help: help ${name}`,
        );
      }
      words.push(argument);
      continue;
    }
    const option = known.find((item) => item.name === optionName);
    if (option === undefined) {
      throw new UsageError(
        `${name} has no option ` +
          `--${optionName}${known.length === 0 ? '' : `; it has ` + `${listed(known.map((item) => item.name))}`}. ` +
          `Help: help ${name}`,
      );
    }
    if (option.value === undefined && written !== undefined)
      throw new UsageError(`${name}: --${optionName} takes no value`);
    const value = option.value === undefined ? '' : (written ?? rest.shift());
    if (value === undefined)
      throw new UsageError(`${name}: --${optionName} needs a value: --${optionName} ${option.value ?? ''}`);
    const before = options.get(optionName) ?? [];
    if (before.length > 0 && option.repeats !== true)
      throw new UsageError(`${name}: --${optionName} is given twice; give it once`);
    options.set(optionName, [...before, value]);
  }
  const usage = `Usage: ${[name, ...wanted].join(' ')}`;
  const needed = wanted.filter((word) => !word.startsWith('['));
  if (words.length < needed.length)
    throw new UsageError(`${name} needs ${needed.slice(words.length).join(' and ')}. ${usage}`);
  // The word that ends so stands for any number of them.
  if (words.length > wanted.length && !wanted.some((word) => word.endsWith(' …]'))) {
    throw new UsageError(
      `${name}: unexpected argument "${words[wanted.length] ?? ''}". Put names or formulas with spaces or brackets ` +
        `in quotes. ${usage}`,
    );
  }
  return { words, options };
}

/** The value of an option that is given at most once. */
export const optionValue = ({ options }: Given, name: string): string | undefined => options.get(name)?.[0];

/** An option's value as one of some words. */
export function optionWord<Word extends string>(
  typed: Given,
  name: string,
  allowed: readonly Word[],
): Word | undefined {
  const value = optionValue(typed, name);
  if (value === undefined) return undefined;
  const word = allowed.find((item) => item === value.toLowerCase());
  if (word === undefined) throw new UsageError(`--${name} must be one of ${allowed.join(', ')}; "${value}" was given`);
  return word;
}
