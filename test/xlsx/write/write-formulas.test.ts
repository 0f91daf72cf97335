import { SaxesParser } from 'saxes';
import { beforeAll, describe, expect, test } from 'vitest';
import { functions } from '../../../src/functions/index.ts';
import { columnPosition } from '../../../src/formula/address.ts';
import { inputTables } from '../../../sheets/belts/completeness.ts';
import { fileTables } from '../../../sheets/values/file-tables.ts';
import { lineTables } from '../../../sheets/values/tables.ts';
import { isComputed } from '../../../src/sheet/declaration.ts';
import { compiledSheets } from '../../../src/workbook/declared.ts';
import type { Workbook } from '../../../src/workbook/workbook.ts';
import { fileFunction } from '../../../src/xlsx/write/file-functions.ts';
import type { RawBook } from '../../../src/xlsx/read/raw-book.ts';
import { spills, trials, unwritable } from './exported-book.ts';
import { belts, cellAt, type ExportedFile, exportedFile, sheetPart, text } from './exported-file.ts';

/** Formulas as the file spells them, prefixes and all. */
function formulas(part: string): string[] {
  const found: string[] = [];
  let open = false;
  const parser = new SaxesParser();
  parser.on('opentag', ({ name }) => {
    open = name === 'f';
    if (open) found.push('');
  });
  parser.on('closetag', () => (open = false));
  parser.on('text', (piece) => {
    if (open) found.push(`${found.pop() ?? ''}${piece}`);
  });
  parser.write(part).close();
  return found.filter((formula) => formula !== '');
}

let exported: ExportedFile;
let parts: ExportedFile['parts'];
let raw: RawBook;
let book: Workbook;

beforeAll(async () => {
  exported = await exportedFile();
  ({ parts, raw, book } = exported);
}, 60_000);

describe('formulas', () => {
  test('are live in every computed cell, one row like the other, and plain', () => {
    for (const { declaration, columns } of compiledSheets.values()) {
      const rows = book.sheet(declaration.name).rows.length;
      for (const [index, column] of columns.entries()) {
        if (!isComputed(column)) continue;
        const texts = Array.from({ length: rows }, (_, record) =>
          book.overridden({ sheet: declaration.name, record, column: index })
            ? []
            : [cellAt(raw, declaration.name, record + 2, index + 1)?.formula ?? 'none'],
        ).flat();
        const first = texts[0] ?? 'none';
        if (rows === 0) continue;
        expect(first, `${declaration.name}, ${column.header}`).not.toBe('none');
        const own = functions.filter(({ name }) => first.includes(`${name}(`)).map(({ name }) => name);
        expect(own, `${declaration.name}, ${column.header}`).toEqual([]);
        expect(first.length, `${declaration.name}, ${column.header}`).toBeLessThanOrEqual(8_192);
        expect(first).not.toContain('{Plate series');
      }
    }
  });

  test('leave no computed column as values', () => {
    expect(exported.otherwise.filter(({ place }) => place.includes(', column '))).toEqual([]);
  });

  test('look for a name as it stands, whatever signs are in it', () => {
    expect(cellAt(raw, 'Belts', 2, belts(book, 'Series row'))?.formula).toContain(
      'MATCH(IF(ISTEXT(W2),SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(W2,"~","~~"),"*","~*"),"?","~?"),W2),\'Plate ' +
        "series'!$A:$A,0)",
    );
    const [, cell = ''] =
      /COUNTIFS\(Pulleys!\$A:\$A,([A-Z]+)2\)/.exec(
        cellAt(raw, 'Belts', 2, belts(book, 'Pulleys listed'))?.formula ?? '',
      ) ?? [];
    expect(cellAt(raw, 'Belts', 2, columnPosition(cell) + 1)?.formula).toBe(
      '"="&SUBSTITUTE(SUBSTITUTE(SUBSTITUTE(A2,"~","~~"),"*","~*"),"?","~?")',
    );
  });

  test('come with their results: numbers, texts and error codes', () => {
    expect(cellAt(raw, 'Belts', 2, belts(book, 'Cut length'))).toMatchObject({
      // In the 15 digits that programs write.
      value: Number((800 / Math.cos(Math.PI / 4)).toPrecision(15)),
      formula: expect.stringMatching(/^[A-Z]+2\/[A-Z]+2$/),
    });
    expect(cellAt(raw, 'Belts', 2, belts(book, 'Verdict'))?.value).toBe(book.read('Belts', 0, 'Verdict'));
    expect(cellAt(raw, 'Belts', 5, belts(book, 'Cut length'))).toMatchObject({ value: null, error: '#VALUE!' });
    expect(cellAt(raw, 'Belts', 5, belts(book, 'Plates'))?.error).toBe('#VALUE!');
    expect(cellAt(raw, 'Trials', trials.findIndex(({ says }) => says === 'zero') + 2, 1)).toMatchObject({
      value: 0,
      formula: '0',
    });
    expect(cellAt(raw, 'Trials', trials.findIndex(({ says }) => says === 'false') + 2, 1)).toMatchObject({
      value: false,
      formula: '1=2',
    });
  });

  test("are the user's in an override, and a number is a number", () => {
    expect(cellAt(raw, 'Belts', 3, belts(book, 'Plates'))).toMatchObject({ value: 30 });
    expect(cellAt(raw, 'Belts', 3, belts(book, 'Plates'))?.formula).toBeUndefined();
    expect(cellAt(raw, 'Belts', 3, belts(book, 'Edge clearance'))).toMatchObject({ formula: 'D3/100' });
  });

  test('name only functions that files know, the newer with their prefix', () => {
    const named = Object.entries(parts).flatMap(([path, bytes]) =>
      path.startsWith('xl/worksheets/sheet') ? formulas(text(bytes)) : [],
    );
    expect(named.length).toBeGreaterThan(200);
    const used = new Set(
      named.flatMap((formula) =>
        [...formula.replace(/"[^"]*"|'[^']*'/g, '').matchAll(/((?:_xlfn\.)?[A-Z][A-Z0-9.]*)\(/g)].map(
          ([, name = '']) => name,
        ),
      ),
    );
    // By it findings lead to their cells; no formula of a user's is written with it.
    expect(used.delete('HYPERLINK')).toBe(true);
    expect([...used].filter((name) => fileFunction(name.replace('_xlfn.', '')) !== name)).toEqual([]);
    expect([...used].filter((name) => name.startsWith('_xlfn.')).toSorted()).toEqual([
      '_xlfn.AGGREGATE',
      '_xlfn.CEILING.MATH',
      '_xlfn.FORECAST.LINEAR',
      '_xlfn.IFS',
      '_xlfn.MINIFS',
      '_xlfn.NORM.S.INV',
      '_xlfn.NUMBERVALUE',
      '_xlfn.RANK.EQ',
      '_xlfn.STDEV.S',
      '_xlfn.TEXTJOIN',
    ]);
  });

  test('of users are all written that files can hold', () => {
    trials.forEach(({ formula, says }, record) =>
      expect(cellAt(raw, 'Trials', record + 2, 1)?.formula, `${formula}: ${says}`).toBeDefined(),
    );
    expect(exported.otherwise.filter(({ place }) => place.startsWith('Trials'))).toEqual([]);
    expect(
      cellAt(raw, 'Trials', trials.findIndex(({ says }) => says === 'a sheet name that files refuse') + 2, 1)?.formula,
    ).toBe("'In   Out'!A2+1");
    expect(
      cellAt(raw, 'Trials', trials.findIndex(({ says }) => says.startsWith('a named value')) + 2, 1)?.formula,
    ).toBe('TightMargin*100');
  });

  test.each(unwritable.map((item, index) => ({ ...item, row: 2 * index + 2 })))(
    'that files cannot hold are values, and the user is told: $because',
    ({ because, row }) => {
      const cell = cellAt(raw, 'Values', row, 1);
      const value = book.value({ sheet: 'Values', record: row - 2, column: 0 });
      expect(cell?.formula).toBeUndefined();
      expect(cell?.error ?? cell?.value).toBe(
        typeof value === 'object' && value !== null
          ? /^#(?:CYCLE|ERROR|SPILL)!$/.test(value.code)
            ? '#N/A'
            : value.code
          : value,
      );
      expect(exported.otherwise.find(({ place }) => place === `Values!A${row}`)?.why).toContain(because);
      expect(
        [...(raw.sheets.find(({ name }) => name === 'About')?.rows.values() ?? [])].some(
          (cells) => cells[0]?.value === 'Exported differently' && cells[1]?.value === `Values!A${row}`,
        ),
      ).toBe(true);
    },
  );

  test('that fill several cells stand in each of them, or in one array formula', () => {
    const spill = (column: number): (string | undefined)[] =>
      Array.from({ length: 5 }, (_, row) => cellAt(raw, 'Spills', row + 2, column)?.formula);
    expect(spill(1).map((formula) => formula !== undefined)).toEqual([true, true, true, false, false]);
    expect(new Set(spill(1).slice(0, 3)).size).toBe(3);
    expect(spill(3).map((formula) => formula !== undefined)).toEqual([true, true, true, true, false]);
    expect(sheetPart(exported, 'Spills')).toContain('<f t="array" ref="E2:E4">Belts!D2:D4*2</f>');
    expect(sheetPart(exported, 'Spills')).toContain('<f t="array" ref="F2:G2">TRANSPOSE(Belts!D2:D3)</f>');
    expect([2, 3, 4].map((row) => cellAt(raw, 'Spills', row, 8)?.value)).toEqual([1, 2, 3]);
    expect(spills.rows[0]?.cells[7]).toBe('=SEQUENCE(3)');
  });

  test('over names find them', () => {
    expect(raw.names.find(({ name }) => name === 'TightMargin')?.reference).toBe('Assumptions!$F$2');
    expect(cellAt(raw, 'Assumptions', 2, 6)?.formula).toBe('B2/(MEDIAN(0,B2,1)=B2)');
    expect(raw.names.filter(({ name }) => !name.startsWith('_xlnm')).length).toBe(
      ['Assumptions', 'Tables', 'Units'].reduce((sum, name) => sum + book.sheet(name).rows.length, 0) +
        lineTables.length * 3 +
        [...fileTables, ...inputTables].reduce(
          (sum, { columns }) => sum + 1 + columns.filter((list) => list.name !== undefined).length,
          0,
        ),
    );
  });
});
