import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mapped, parsed, printed } from '../../src/formula/syntax.ts';
import { fileFunction } from '../../src/xlsx/write/file-functions.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { designationFormulas, differencesFrom, placeOf } from './designation-columns.ts';
import { anyDesignation } from './designation-texts.ts';

/** The columns by which a file reads a designation as LibreOffice computes them; wrong results stand beside them. */

const inFile = (formula: string): string =>
  printed(
    mapped(parsed(formula), (node) =>
      node.type === 'call' ? { ...node, name: fileFunction(node.name) ?? node.name } : undefined,
    ),
  );

test('reads what the functions read', { timeout: 120_000 }, async () => {
  // A carriage return is lost in a file.
  const texts = fc.sample(anyDesignation, { seed: 300, numRuns: 300 }).map((text) => text.replaceAll('\r', ''));
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet('Texts');
  for (const [index, text] of texts.entries())
    sheet.addRow([
      text,
      ...designationFormulas.map((formula) => ({ formula: inFile(formula(index + 1)), result: 987654.321 })),
    ]);
  const read = await recalculated(new Uint8Array(await book.xlsx.writeBuffer()));
  const rows = read.sheets.find(({ name }) => name === 'Texts')?.rows;
  expect(rows?.size).toBe(texts.length);
  const found = differencesFrom(texts, (index, header) => {
    const cell = rows?.get(index + 1)?.find(({ column }) => column === placeOf(header) + 2);
    return cell?.error ?? cell?.value ?? '';
  });
  expect(found).toEqual([]);
});
