import { describe, expect, test } from 'vitest';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { declarations, namedSheets } from '../../sheets/index.ts';
import { functions } from '../../src/functions/index.ts';
import { commandWords } from '../../src/reference/commands.ts';
import type { Entry, Section } from '../../src/reference/entry.ts';
import { referenceSections } from '../../src/reference/sections.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { type Explanation, explained } from '../../src/workbook/explanation.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** The reference leaves nothing out that the program declares. */

const sections: ReadonlyMap<string, Section> = new Map(
  referenceSections.map(({ title, section }) => [title, section()]),
);

/** The entries of a section, of one group where it is named. */
const entries = (title: string, group?: string): readonly Entry[] =>
  (sections.get(title)?.groups ?? [])
    .filter((item) => group === undefined || item.title === group)
    .flatMap((item) => item.entries);

const names = (title: string, group?: string): string[] =>
  entries(title, group).map(({ name }) => name.replaceAll('`', ''));

const fact = ({ facts }: Entry, label: string): string => facts.find((item) => item.label === label)?.text ?? '';

describe('the reference lists', () => {
  test('every function with its parameters, example, source and plain equivalent', () => {
    expect(names('Functions').toSorted()).toEqual(functions.map(({ signature }) => signature).toSorted());
    for (const entry of entries('Functions')) {
      const declared = functions.find(({ signature }) => entry.name === `\`${signature}\``);
      expect(entry.facts.map(({ label }) => label)).toEqual([
        ...Object.keys(declared?.parameters ?? {}),
        'gives',
        'example',
        'source',
        'in standard functions',
      ]);
    }
    expect(
      entries('Functions')
        .find(({ name }) => name.includes('SKEWLENGTH'))
        ?.facts.map(({ text }) => text),
    ).toEqual([
      "a length, more than 0; the belt's width",
      expect.stringContaining('an angle in degrees, from 0 to 60; '),
      'length of the cut: a length',
      '`=SKEWLENGTH(650,45)` is `919.2388155425118`',
      'trigonometry of the right triangle (derived)',
      expect.stringContaining('width/COS(RADIANS(skew))'),
    ]);
  });

  test('every column of every sheet, with its unit, what it holds and where it has it from', () => {
    for (const { name, columns } of declarations)
      expect(names('Columns', name), name).toEqual(columns.map(({ header }) => header));
    const belts = new Map(entries('Columns', 'Belts').map((entry) => [entry.name, entry]));
    const told = (header: string): string[] =>
      (belts.get(header)?.facts ?? []).flatMap(({ text }) => (text === '' ? [] : [text]));
    expect(told('Width')).toEqual(['by you', 'mm; in', 'a number, more than 0', 'entered']);
    expect(told('Cut length')).toEqual(['computed', 'mm; in', 'a number', '`SKEWLENGTH`']);
    expect(told('Pulley centres').slice(-2)).toEqual(['Pulley centers', 'Centres']);
    expect(told('Tension method').slice(-2)).toEqual(['Tension route', '"permitted" is "belt rating"']);
    expect(fact(belts.get('Plate series') ?? { name: '', says: '', facts: [] }, 'holds')).toBe(
      'a name in the sheet Plate series, Series',
    );
  });

  test('every check, named value, command and option', () => {
    expect(names('Checks')).toEqual(beltChecks.map(({ word }) => word));
    expect(entries('Checks').map((entry) => fact(entry, 'column of its verdict'))).toEqual(
      checkColumns.map(({ header }) => header),
    );
    for (const { declaration, values } of namedSheets)
      expect(names('Named values', declaration.name)).toEqual(values.map(({ name }) => name));
    const commandLine = JSON.stringify(sections.get('Command line'));
    for (const { name, options } of commandWords) {
      const command = entries('Command line', 'Commands').find((entry) => entry.name.startsWith(`\`${name} `));
      expect(command, name).toBeDefined();
      for (const option of options) {
        expect(JSON.stringify(command), `${name} --${option.name}`).toContain(`--${option.name}`);
        expect(commandLine).toContain(JSON.stringify(option.doc).slice(1, -1));
      }
    }
  });

  test('standard functions with a line each, and none of our own among them', () => {
    expect(names('Standard functions').length).toBeGreaterThan(350);
    expect(entries('Standard functions').filter(({ says }) => says === '')).toEqual([]);
    expect(names('Standard functions')).toContain('SUMIF(range, criterion, [summed])');
    const own = new Set(functions.map(({ name }) => name));
    expect(names('Standard functions').filter((signature) => own.has(signature.split('(')[0] ?? ''))).toEqual([]);
  });

  test('nothing that says nothing', () => {
    for (const [title] of sections)
      expect(
        entries(title).filter(({ name, says }) => name === '' || says === ''),
        title,
      ).toEqual([]);
  });
});

describe('the figures to confirm', () => {
  const confirmed = entries('Figures to confirm first');
  const count = (entry: Entry): number => Number.parseInt(fact(entry, 'carries'), 10);

  test('are twelve from memory, those first that carry the most verdicts', () => {
    expect(confirmed).toHaveLength(12);
    expect(confirmed.filter((entry) => !fact(entry, 'source').includes('from memory'))).toEqual([]);
    const counts = confirmed.map(count);
    expect(counts).toEqual(counts.toSorted((one, other) => other - one));
    expect(Math.min(...counts)).toBeGreaterThan(0);
  });

  test('carry what the trees of the verdicts show, each tree on its own', () => {
    const book = new Workbook(demoBook('metric'));
    const holds = ({ origin, header, parts }: Explanation, name: string): boolean =>
      (origin === 'named value' && header === name) || parts.some((part) => holds(part, name));
    const trees = book
      .sheet('Belts')
      .rows.flatMap((_, record) =>
        checkColumns.map(({ header }) =>
          explained(book, { sheet: 'Belts', record, column: book.column('Belts', header) }),
        ),
      );
    for (const entry of confirmed) {
      const name = entry.name.replaceAll('`', '');
      expect(trees.filter((tree) => holds(tree, name)).length, name).toBe(count(entry));
    }
  });
});
