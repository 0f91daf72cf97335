import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { strips } from '../../sheets/series/strips.ts';
import { checkDoc, checkHeader } from '../../sheets/belts/check-columns.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { type Option, optionText } from '../cli/arguments.ts';
import { commands } from '../cli/commands.ts';
import { notAsked } from '../functions/checks.ts';
import { subjects } from '../functions/index.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { isComputed, type NamedValue, type SheetDeclaration } from '../sheet/declaration.ts';
import { valueIn } from '../sheet/named-values.ts';
import { quantities, unitOf, type UnitSystem } from '../units/quantities.ts';
import { safetyPurpose, safetyReminders } from '../workbook/safety.ts';
import { markdownTable } from './marked-text.ts';

/** The README's tables, each from the one place where the program declares what it says. */

const commandTable = (): string =>
  markdownTable(
    ['command', 'does'],
    commands.map(({ name, words, summary, notes }) => [
      `\`${[name, ...words].join(' ')}\``,
      [`${summary}.`, ...notes].join(' '),
    ]),
  );

/** Options with the same words belong together, whichever commands take them. */
function optionTable(): string {
  const rows = new Map<string, { readonly option: Option; readonly of: string[] }>();
  for (const { name, options } of commands) {
    for (const option of options) {
      const key = `${option.name} ${option.doc}`;
      const row = rows.get(key) ?? { option, of: [] };
      row.of.push(name);
      rows.set(key, row);
    }
  }
  return markdownTable(
    ['option', 'of', 'says'],
    [...rows.values()].map(({ option, of }) => [
      `\`--${option.name}${option.value === undefined ? '' : ` ${option.value}`}\``,
      of.join(', '),
      optionText(option),
    ]),
  );
}

const functionTables = (): string =>
  subjects
    .map(({ subject, functions }) =>
      [
        `**${subject}**`,
        markdownTable(
          ['function', 'value', 'example', 'source'],
          functions.map(({ signature, summary, example, source }) => [
            `\`${signature}\``,
            summary,
            `\`${example[0]}\``,
            source,
          ]),
        ),
      ].join('\n\n'),
    )
    .join('\n\n');

const unitText = (kind: keyof typeof quantities): string => {
  const [metric, us] = [unitOf(kind, 'metric'), unitOf(kind, 'us')];
  return metric === us ? metric : `${metric}; ${us}`;
};

const columnTable = ({ columns }: SheetDeclaration): string =>
  markdownTable(
    ['column', 'unit: metric; US customary', '', 'what'],
    columns.map((column) => [
      column.header,
      unitText(column.kind),
      isComputed(column) ? 'computed' : 'input',
      [column.doc, column.source].filter((part) => part !== undefined).join(' (') +
        (column.source === undefined ? '' : ')'),
    ]),
  );

const figure = (named: NamedValue, units: UnitSystem): string =>
  [String(valueIn(named, units)), unitOf(named.kind, units)].filter((part) => part !== '').join(' ');

const assumptionTable = (): string =>
  markdownTable(
    ['name', 'metric', 'US customary', 'meaning', 'source'],
    assumptionValues.map((named) => [
      named.name,
      figure(named, 'metric'),
      figure(named, 'us'),
      named.doc,
      named.source,
    ]),
  );

function checkTable(): string {
  const declared: readonly CheckDeclaration[] = beltChecks;
  const table = markdownTable(
    ['check', 'compares', 'column of its verdict', 'input to look at first', 'source'],
    declared.map((check) => [check.word, checkDoc(check), checkHeader(check.word), check.look, check.source]),
  );
  const isSilent = declared.some(({ silentWithout }) => silentWithout !== undefined);
  return isSilent ? `${table}\n\nA check that is **${notAsked}** counts as one that fits, and is no finding.` : table;
}

const safetyText = (): string =>
  [safetyPurpose, '', ...safetyReminders.map(({ text, rules }) => `- ${text} (${rules})`)].join('\n');

export const readmeParts = (): Readonly<Record<string, string>> => ({
  commands: commandTable(),
  options: optionTable(),
  checks: checkTable(),
  functions: functionTables(),
  belts: columnTable(belts),
  'plate series': columnTable(plateSeries),
  strips: columnTable(strips),
  assumptions: assumptionTable(),
  safety: safetyText(),
});
