import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { commandWords } from '../reference/commands.ts';
import { safetyPurpose, safetyReminders } from '../workbook/safety.ts';
import { markdownTable } from './marked-text.ts';

/** The parts of the README that the program declares; everything else of that kind is in the reference. */

const commandTable = (): string =>
  markdownTable(
    ['command', 'does'],
    commandWords.map(({ name, words, summary }) => [`\`${[name, ...words].join(' ')}\``, summary]),
  );

const checkTable = (): string =>
  markdownTable(
    ['check', 'compares'],
    beltChecks.map(({ word, doc }) => [word, doc]),
  );

const safetyText = (): string =>
  [`**${safetyPurpose}**`, '', ...safetyReminders.map(({ text, rules }) => `- ${text} (${rules})`)].join('\n');

export const readmeParts = (): Readonly<Record<string, string>> => ({
  commands: commandTable(),
  checks: checkTable(),
  safety: safetyText(),
});
