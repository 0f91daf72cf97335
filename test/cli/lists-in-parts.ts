import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checked } from '../../src/cli/check.ts';
import { calculated } from '../../src/cli/calc.ts';
import { importLines } from '../../src/cli/import-report.ts';
import type { ListOptions } from '../../src/cli/list-options.ts';
import { type Dealing, longList } from '../../src/cli/long/long-list.ts';
import type { Wanted } from '../../src/cli/long/part-model.ts';
import { withoutThreads } from '../../src/cli/long/part-workers.ts';
import { FileError } from '../../src/cli/usage-error.ts';
import { joinedBytes } from '../../src/xlsx/write/packing.ts';
import type { RawCell } from '../../src/xlsx/read/raw-book.ts';
import { readLimits } from '../../src/xlsx/read/read-limits.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { demoFile, demoRows, listFile, type Row, rowsText, testFolder, textFile, type TextStyle } from './lists.ts';

/** Lists read in parts against the same lists read whole. */

const whole: Dealing = { from: Infinity, sizes: () => 0, workers: withoutThreads, formBytes: 0 };
const isText = (file: string): boolean => !file.endsWith('.xlsx');

/** Parts of some five belts, behind a first one of some ten; a text's header is as long as ten belts. */
const inParts = (file: string): Dealing => ({
  from: 0,
  sizes: (part) => (part > 0 ? 3000 : isText(file) ? 16_000 : 7000),
  workers: withoutThreads,
  formBytes: 16_000,
});

export const plain: ListOptions = { choices: {}, date: 46_000, set: [], variants: [] };

/** Whether a list is one that is read in parts. */
export async function isInParts(file: string, options: ListOptions = plain): Promise<boolean> {
  const results = await longList(file, options, 'lines', inParts(file));
  if (typeof results !== 'object') return false;
  results.close();
  return true;
}

async function refusedOr<Answer>(answer: () => Promise<Answer>): Promise<Answer | string> {
  try {
    return await answer();
  } catch (error) {
    if (error instanceof FileError) return error.message;
    throw error;
  }
}

/** What `check` answers. */
export const answered = (file: string, options: ListOptions, wanted: Wanted, dealing: Dealing): Promise<string> =>
  refusedOr(async () => {
    const { answer, fails, close } = await checked(file, options, wanted, dealing);
    const text = [...answer].join('');
    close();
    return `${fails ? 'fails' : 'passes'}\n${text}`;
  });

const cellText = (cell: RawCell): string => {
  const { shared, formula, ...rest } = cell;
  return JSON.stringify({ ...rest, formula: shared?.at(cell) ?? formula });
};

/** What `calc` tells and writes, as lines. */
const written = (file: string, options: ListOptions, dealing: Dealing): Promise<readonly string[] | string> =>
  refusedOr(async () => {
    const {
      report,
      counts,
      compared,
      found,
      day,
      why,
      hasSeries,
      file: book,
      close,
    } = await calculated(file, options, dealing);
    const read = readBook(joinedBytes([...book.pieces]), readLimits, true);
    close();
    return [
      ...importLines(file, report),
      JSON.stringify({ counts, compared, found, day, why, hasSeries, otherwise: book.otherwise }),
      ...read.sheets.flatMap(({ name, rows, look }) => [
        `${name}: ${JSON.stringify({
          ...look,
          // A text has no widths of its own: columns are as wide as the first part of the belts asks for.
          columns: isText(file) ? [] : look?.columns,
          hiddenRows: [...(look?.hiddenRows ?? [])],
        })}`,
        // The mark by which a file is known again is another each time.
        ...(name === 'About' ? [] : [...rows].flatMap(([, cells]) => cells.map((cell) => `${name} ${cellText(cell)}`))),
      ]),
    ];
  });

/** The first thing in which both ways differ; '' where they come to the same. */
export async function difference(
  file: string,
  options: ListOptions,
  wanted: readonly (Wanted | 'book')[],
): Promise<string> {
  for (const wantedOne of wanted) {
    const way = async (dealing: Dealing): Promise<readonly string[]> => {
      const found = await (wantedOne === 'book'
        ? written(file, options, dealing)
        : answered(file, options, wantedOne, dealing));
      return typeof found === 'string' ? found.split('\n') : found;
    };
    const [parts, all] = [await way(inParts(file)), await way(whole)];
    const at = all.findIndex((line, index) => line !== parts[index]);
    if (at >= 0 || parts.length !== all.length) {
      const [one, other] = [parts[at] ?? parts.at(-1) ?? '', all[at] ?? ''];
      const from = Math.max(0, [...other].findIndex((letter, index) => letter !== one[index]) - 60);
      const shown = (line: string): string => line.slice(from, from + 200);
      return `${wantedOne}, line ${at + 1}: "${shown(one)}" in parts, "${shown(other)}" whole`;
    }
  }
  return '';
}

const [head = [], ...belts] = demoRows();
const at = (header: string): number => head.findIndex((text) => String(text).startsWith(header));
const every =
  (count: number, rest: number, change: (row: Row, index: number) => readonly Row[]) =>
  (rows: readonly Row[]): readonly Row[] =>
    rows.flatMap((row, index) => (index % count === rest && row.length >= head.length ? change(row, index) : [row]));
const slips = ['??', '#N/A', -4, 'x"y', 1e9, '12,5', '1.234', '3/4/2026'];

/** What lists have that are no plain lists, by name. */
export const damages: Readonly<Record<string, (rows: readonly Row[]) => readonly Row[]>> = {
  'names twice': (rows) => [...rows, ...rows.slice(3, 30)],
  'names in another case': (rows) => [
    ...rows,
    ...rows.filter(({ length }) => length > 1).map((row) => row.with(0, ` ${String(row[0]).toLowerCase()} `)),
  ],
  'no name': every(5, 2, (row) => [row.with(0, null)]),
  'a total': (rows) => [...rows, ['Total', rows.length], [], ['Prepared by the planner of the shift']],
  headings: every(9, 4, (row, index) => [[`Area ${'abcdefgh'[index % 7] ?? ''}`], row]),
  'blank lines': every(4, 3, (row) => [[], row]),
  'a lone name': every(17, 11, (row) => [[row[0] ?? null], row]),
  slips: every(1, 0, (row, index) => [
    row.with(1 + ((index * 5) % (row.length - 1)), slips[index % slips.length] ?? ''),
  ]),
  'a day that is none': every(40, 30, (row) => [row.with(at('Last joint'), 'soon')]),
  'units in late cells': (rows) =>
    rows.map((row, index) => (index > 25 && row.length >= head.length ? row.with(at('Width'), '36 in') : row)),
  'unknown series': every(3, 1, (row) => [row.with(at('Plate series'), 'None such')]),
  'a blank column': every(1, 0, (row) => [row.with(at('Thickness'), null)]),
  'fields of several lines': every(7, 3, (row) => [row.with(0, `${String(row[0])}\n"${'x,;'.repeat(9)}"\n\ny`)]),
  'a column without header': every(6, 4, (row) => [[...row, 'beside']]),
};

/** The demo's belts with some of these. */
export const damagedRows = (names: readonly string[]): readonly Row[] => [
  head,
  ...names.reduce((rows, name) => damages[name]?.(rows) ?? rows, belts as readonly Row[]),
];

/** Lists with some of these, by a seed: as many as one wants. */
export async function randomLists(): Promise<{
  readonly named: (seed: number) => string;
  readonly difference: (seed: number) => Promise<string>;
}> {
  const folder = await testFolder();
  const series = await demoFile(join(folder, 'plates.xlsx'));
  const chosen = (seed: number): readonly string[] => {
    const random = randomNumbers(seed);
    return Object.keys(damages).filter(() => random() < 0.3);
  };
  return {
    named: (seed) => `list ${seed}: ${chosen(seed).join(', ')}`,
    async difference(seed) {
      const rows = damagedRows(chosen(seed));
      const file =
        seed % 3 === 0
          ? textFile(join(folder, 'list.csv'), rows, textStyles[seed % textStyles.length]?.style)
          : await listFile(join(folder, 'list.xlsx'), { Fleet: rows });
      return difference(file, seed % 2 === 0 ? { ...plain, series } : plain, ['json', 'book']);
    },
  };
}

/** Texts that are read in parts, by how they are written. */
export const textStyles: readonly { readonly title: string; readonly style: Partial<TextStyle> }[] = [
  { title: 'commas, a byte order mark', style: { start: '\uFEFF' } },
  {
    title: 'semicolons, decimal commas, Windows-1252',
    style: { delimiter: ';', decimal: ',', newline: '\r\n', encoding: 'latin1' },
  },
  { title: 'tabs', style: { delimiter: '\t' } },
  { title: 'a line that says semicolons', style: { delimiter: ';', start: 'sep=;\n' } },
];

/** Texts that may be cut at a wrong place: they are read whole. */
export const uncutTexts: Readonly<Record<string, (folder: string) => string>> = {
  'two bytes a letter': (folder) =>
    textFile(join(folder, 'wide.csv'), [head, ...belts], { encoding: 'utf16le', start: '\uFEFF' }),
  'two bytes a letter, without a mark': (folder) =>
    textFile(join(folder, 'wide.csv'), [head, ...belts], { encoding: 'utf16le' }),
  'quotes that end within a field': (folder) => textWith(folder, (text) => text.replace(/\n([^,\n]+),/g, '\n"$1" x,')),
  'quotes without an end': (folder) => textWith(folder, (text) => `${text}"late`),
  'ends of lines of two kinds': (folder) => textWith(folder, (text) => text.replace(/\n(?=[^\n]*\n$)/, '\r\n')),
  'marks that repeat': (folder) => textWith(folder, (text) => text.replaceAll(/(?<=\n[^,\n]*),[^,"\n]*(?=,)/g, ',"')),
};

function textWith(folder: string, change: (text: string) => string): string {
  const file = join(folder, 'uncut.csv');
  writeFileSync(file, change(rowsText([head, ...belts])));
  return file;
}

const sums = [3, 4].map((at) => belts.reduce((sum, row) => sum + Number(row[at] ?? 0), 0));

/** Lists whose rows mean something only together: they are read whole. */
export const togetherLists: Readonly<Record<string, Readonly<Record<string, readonly Row[]>>>> = {
  'another list below': {
    Fleet: [head, ...belts, [], ['Plate series', 'Plate width', 'Pitch', 'Rated tension'], ['A', 50, 40, 200]],
  },
  'sums in the last row': { Fleet: [head, ...belts, [null, null, null, ...sums]] },
  'marks that repeat': { Fleet: [head, ...belts.map((row, index) => (index % 3 === 2 ? row.with(2, '"') : row))] },
  'belts in two sheets': {
    Fleet: [head, ...belts],
    More: [head, ...belts.slice(0, 3).map((row) => row.with(0, `${String(row[0])}x`))],
  },
};
