import { keySection } from '../page/key-section.ts';
import { Desk } from '../page/desk.ts';
import type { Entry, Group, Section } from '../reference/entry.ts';
import { referenceSections } from '../reference/sections.ts';
import { demoBook } from '../workbook/demo.ts';
import { Workbook } from '../workbook/workbook.ts';
import { markdownTable } from './marked-text.ts';

/** The whole reference as a Markdown text. */

/** A desk at which a belt is selected and no panel on show, so that actions bear the names of what they bring. */
function bareDesk(): Desk {
  const desk = new Desk(new Workbook(demoBook('metric')));
  desk.view = undefined;
  desk.findingsShown = false;
  return desk;
}

/** Entries as a table with a column for each label; columns in which nothing stands are left out. */
function entryTable(entry: string, entries: readonly Entry[]): string {
  const labels = [...new Set(entries.flatMap(({ facts }) => facts.map(({ label }) => label)))];
  const textOf = ({ facts }: Entry, label: string): string => facts.find((fact) => fact.label === label)?.text ?? '';
  const filled = labels.filter((label) => entries.some((item) => textOf(item, label) !== ''));
  return markdownTable(
    [entry, 'what', ...filled],
    entries.map((item) => [item.name, item.says, ...filled.map((label) => textOf(item, label))]),
  );
}

const block = ({ name, says, facts }: Entry): string =>
  [`${name}: ${says}`, '', ...facts.map(({ label, text }) => `- ${label}: ${text}`)].join('\n').trim();

const groupText = ({ entry, layout }: Section, { title, about, entries }: Group): string =>
  [
    ...(title === '' ? [] : [`### ${title}`]),
    ...(about === undefined ? [] : [about]),
    ...(layout === 'table' ? [entryTable(entry, entries)] : entries.map(block)),
  ].join('\n\n');

const sectionText = (title: string, section: Section): string =>
  [`## ${title}`, ...section.about, ...section.groups.map((group) => groupText(section, group))].join('\n\n');

/**
 * How a heading is linked to: as readers of Markdown do, in lower case with hyphens. For tests: links are followed.
 */
export const anchor = (title: string): string =>
  title
    .toLowerCase()
    .replaceAll(/[^\w -]/g, '')
    .replaceAll(' ', '-');

export function referenceText(): string {
  const sections = [...referenceSections, { title: 'Keys', section: () => keySection(bareDesk()) }];
  return (
    [
      '# Reference',
      'Made by `npm run docs` from what the program declares; a test fails when it is not what the program declares ' +
        'now. The page has the same under Help, where you can search it.',
      sections.map(({ title }) => `- [${title}](#${anchor(title)})`).join('\n'),
      ...sections.map(({ title, section }) => sectionText(title, section())),
      '',
    ]
      .join('\n\n')
      .trimEnd() + '\n'
  );
}
