import type { EngineeringFunction } from '../formula/define.ts';
import { boundsInWords, timesInWords } from '../formula/parameter.ts';
import { refusedFunctions } from '../formula/spreadsheet/refused-functions.ts';
import { standardGroups } from '../formula/standard-functions.ts';
import { functions, subjects } from '../functions/index.ts';
import { optionText, optionUsage, program } from '../reference/options.ts';
import { exampleWords } from '../functions/function-words.ts';
import type { Given } from './arguments.ts';
import type { Command } from './command.ts';
import { UsageError } from './usage-error.ts';

/** Rows of two columns, the first as wide as its widest. */
function columns(rows: readonly (readonly [string, string])[]): string[] {
  const width = Math.max(...rows.map(([left]) => left.length));
  return rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`.trimEnd());
}

const usage = ({ name, words, options }: Command): string =>
  [name, ...(options.length === 0 ? [] : ['[OPTIONS]']), ...words].join(' ');

const generalHelp = (commands: readonly Command[]): string =>
  [
    'Skewbook plans the bolted-plate joints (splices) of conveyor belts. It computes and reminds; it does not ' +
      'authorise work.',
    '',
    `Usage: ${program} COMMAND`,
    '',
    ...columns(commands.map((command) => [usage(command), command.summary])),
    '',
    `Help for a command: ${program} help calc. For a function: ${program} help SKEWLENGTH. Version: ${program} ` +
      `--version.`,
  ].join('\n');

const commandHelp = (command: Command): string =>
  [
    `${command.name}: ${command.summary}`,
    '',
    `Usage: ${program} ${usage(command)}`,
    ...(command.options.length === 0
      ? []
      : ['', ...columns(command.options.map((option) => [optionUsage(option), optionText(option)]))]),
    ...(command.notes.length === 0 ? [] : ['', ...command.notes]),
  ].join('\n');

function functionHelp(definition: EngineeringFunction): string {
  const { signature, summary, parameters, result, source, example } = definition;
  return [
    signature,
    summary,
    '',
    ...columns(
      Object.entries(parameters).map(([name, parameter]) => {
        const bounds = parameter.choices === undefined ? boundsInWords(parameter) : '';
        return [name, [parameter.doc, bounds, timesInWords(parameter)].filter((part) => part !== '').join('; ')];
      }),
    ),
    '',
    `Returns: ${result.doc}`,
    `Example: ${example[0]} is ${exampleWords(definition)}`,
    `Source: ${source}`,
  ].join('\n');
}

const functionList = (): string =>
  [
    ...subjects.map(({ subject, functions: list }) =>
      [subject, ...columns(list.map(({ signature, summary }) => [signature, summary]))].join('\n'),
    ),
    'The functions of spreadsheets',
    ...standardGroups.map(({ title, functions: list }) =>
      [title, ...columns(list.map(({ signature, says }) => [signature, says]))].join('\n'),
    ),
  ].join('\n\n');

/** What a function of spreadsheets does, or what to write instead of one that there is not; undefined for no name. */
function standardHelp(name: string): string | undefined {
  const found = standardGroups.flatMap(({ functions: list }) => list).find((item) => item.name === name);
  if (found !== undefined) return `${found.signature}\n${found.says}`;
  return Object.hasOwn(refusedFunctions, name)
    ? `There is no function ${name} here: ${refusedFunctions[name] ?? ''}.`
    : undefined;
}

function helpOn(subject: string, commands: readonly Command[]): string {
  const command = commands.find(({ name }) => name === subject.toLowerCase());
  if (command !== undefined) return commandHelp(command);
  if (subject.toLowerCase() === 'functions') return functionList();
  const definition = functions.find(({ name }) => name === subject.toUpperCase());
  if (definition !== undefined) return functionHelp(definition);
  const standard = standardHelp(subject.toUpperCase());
  if (standard !== undefined) return standard;
  throw new UsageError(
    `there is no command or function ${subject}. Commands: ${commands.map(({ name }) => name).join(', ')}. ` +
      `Functions: ${program} help functions`,
  );
}

export async function run(typed: Given, commands: readonly Command[]): Promise<number> {
  const [subject] = typed.words;
  process.stdout.write(`${subject === undefined ? generalHelp(commands) : helpOn(subject, commands)}\n`);
  return 0;
}
