import { expect, test } from 'vitest';
import { presentColumns, storedFormat } from '../../../src/workbook/adapted-book.ts';
import { demoBook } from '../../../src/workbook/demo.ts';
import { emptyBook } from '../../../src/workbook/declared.ts';
import type { BookState } from '../../../src/workbook/state.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import type { ImportResult } from '../../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { copyText } from '../../../src/page/book-copy.ts';
import { fleet } from '../../bench/fleet.ts';
import { everythingBook } from '../../workbook/everything-book.ts';

/** The file that the page hands out of a store that it can't read comes back as the book, as far as it goes. */

const runLength = 10;

/** What the page hands out for a book, in shorter runs. */
const handedOut = ({ sheets, ...rest }: BookState, version = storedFormat): string =>
  JSON.stringify({
    head: {
      version,
      columns: presentColumns(),
      ...rest,
      sheets: sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length })),
      at: '2026-11-26T20:00:00.000Z',
    },
    runs: sheets.flatMap(({ rows }, sheet) =>
      Array.from({ length: Math.ceil(rows.length / runLength) }, (_, run) => ({
        key: [sheet, run],
        rows: rows.slice(run * runLength, (run + 1) * runLength),
      })),
    ),
  });

function taken(text: string): ImportResult {
  const raw = readBook(new TextEncoder().encode(text));
  return acceptImport(raw, proposeImport(raw), emptyBook('metric'));
}

test.each(['metric', 'us'] as const)('a whole one is the book that was stored, %s', (units) => {
  const free = { name: 'Own', userColumns: [{ header: 'One', kind: 'text' as const }], rows: [{ cells: ['=1+1'] }] };
  const state = { ...demoBook(units), sheets: [...demoBook(units).sheets, free] };
  const result = taken(handedOut(state));
  expect(result.state).toEqual(state);
  expect(result.report.assumed).toEqual([]);
});

test('of one with rows lost the others come back, and what is lost is told', () => {
  const stored = JSON.parse(handedOut(demoBook('metric'))) as { runs: { key: number[] }[] };
  const text = JSON.stringify({ ...stored, runs: stored.runs.filter(({ key }) => key[0] !== 0 || key[1] !== 1) });
  const { state, report } = taken(text);
  const count = demoBook('metric').sheets[0]?.rows.length ?? 0;
  expect(state.sheets[0]?.rows.length).toBe(count - runLength);
  expect(report.assumed).toEqual([
    `the sheet Belts was stored with ${count} rows, of which ${count - runLength} are in the file`,
  ]);
});

test.each([
  ['{', /no stored book: it is cut off or damaged\. Choose an \.xlsx/],
  ['{"head":5}', /it does not say what it holds/],
  [handedOut(demoBook('metric'), 99), /a later version of Skewbook stored it, in format 99; this one reads format 2/],
])('one that is cut off, says nothing or is of a later version is refused in words', (text, words) => {
  expect(() => taken(text)).toThrow(words);
});

test('how its columns were shown comes back with it, as far as it is that', () => {
  const layout = {
    view: '',
    headers: 'all',
    intermediate: true,
    folded: [],
    widths: { Belt: 120 },
    frozen: 1,
  } as const;
  const look = { layouts: { Belts: layout }, views: [] };
  expect(taken(handedOut({ ...demoBook('metric'), look })).state.look).toEqual(look);
  const damaged = handedOut({ ...demoBook('metric'), look }).replace('"frozen":1', '"frozen":"1"');
  expect(taken(damaged).state.look).toEqual({ ...look, layouts: { Belts: { ...layout, frozen: 0 } } });
});

test('a copy for another browser is such a file, and comes back as the book that it was made of', () => {
  for (const book of [fleet(230), ...[1, 2, 3].map(everythingBook)]) {
    const pieces = [...copyText(book)];
    expect(pieces.at(-1)?.share).toBe(1);
    expect(taken(pieces.map(({ text }) => text).join('')).state).toEqual(book);
  }
});

test.each([
  ['lists', `{"head":{},"runs":[${'[],'.repeat(11_000_000)}[]]}`, /more than 10,000,000 values/],
  [
    'short rows in runs of their own',
    `{"head":{"sheets":[{"name":"Belts","rows":110000}]},"runs":[${Array.from(
      { length: 110_000 },
      (_, run) => `{"key":[0,${run}],"rows":[{"cells":["B"]}]}`,
    ).join()}]}`,
    /The sheet Belts of the stored book has 110,000 rows of \d+ columns, more than a book can hold/,
  ],
])('too many %s are refused before they take memory', (_name, text, words) => {
  expect(() => taken(text)).toThrow(words);
});

test.each([
  '{"head":{}}',
  '{"head":{"sheets":[{"name":"__proto__","userColumns":[{"kind":"constructor"}],"rows":1}]},"runs":[{"key":[0,0],' +
    '"rows":[5]}]}',
  '{"head":{"sheets":{"name":1},"columns":{"Belts":[7]}},"runs":7}',
  '{"head":{"sheets":[{"name":"Belts"}]},"runs":[{"key":[0,0],"rows":[{"cells":[{},[],"B1"],"notes":{"x":"y",' +
    '"1":"z"}}]}]}',
])('%s does no harm', (text) => {
  expect(taken(text).state.sheets.length).toBeGreaterThan(10);
});
