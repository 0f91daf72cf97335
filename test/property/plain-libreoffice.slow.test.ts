import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { EngineeringFunction } from '../../src/formula/define.ts';
import type { Node } from '../../src/formula/syntax.ts';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { close } from '../evaluation.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { calls, type Case } from './arguments.ts';
import { hasPlain, plainText } from './spreadsheet.ts';

/**
 * The plain equivalents as LibreOffice computes them, over random calls whose arguments stand in cells.
 *
 * Every formula is stored with a wrong value beside it, so that a program which trusts stored values cannot pass.
 */

const wrongValue = 987654.321;
const formulaColumn = 20;

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);
const columnName = (column: number): string => String.fromCharCode(64 + column);

function written(value: Value): ExcelJS.CellValue {
  if (isFault(value)) return { formula: 'NA()', result: { error: '#N/A' } };
  return typeof value === 'boolean' ? { formula: value ? 'TRUE()' : 'FALSE()', result: value } : value;
}

/** Puts one call's arguments into the sheet from a row on: single values side by side, ranges below them. */
function placed(
  sheet: ExcelJS.Worksheet,
  top: number,
  args: Case['args'],
): { nodes: (Node | undefined)[]; bottom: number } {
  let below = top;
  const nodes = args.map((argument, index): Node | undefined => {
    if (argument === undefined) return undefined;
    if (!isMatrix(argument)) {
      if (argument !== null) sheet.getCell(top, index + 1).value = written(argument);
      return { type: 'reference', text: `${columnName(index + 1)}${top}` };
    }
    const first = below + 1;
    below += argument.length;
    argument.forEach((row, down) =>
      row.forEach((item, right) => {
        if (item !== null) sheet.getCell(first + down, right + 1).value = written(item);
      }),
    );
    return { type: 'reference', text: `A${first}:${columnName(argument[0]?.length ?? 1)}${below}` };
  });
  return { nodes, bottom: below + 1 };
}

interface Placed {
  readonly sheet: string;
  readonly row: number;
  readonly ours: Value;
  readonly call: Case;
  readonly text: string;
}

function sheetOf(book: ExcelJS.Workbook, definition: EngineeringFunction): Placed[] {
  const sheet = book.addWorksheet(definition.name);
  let row = 1;
  return fc.sample(calls(definition), { numRuns: 40, seed: 20 }).map((call) => {
    const { nodes, bottom } = placed(sheet, row, call.args);
    const value = definition.evaluate(call.args);
    // Of a spill the last cell: it depends on all that decides the size.
    const place = isMatrix(value) ? { row: value.length, column: value.at(-1)?.length ?? 1 } : { row: 1, column: 1 };
    const text = plainText(definition.name, nodes, place);
    if (text === undefined) throw new Error(`${definition.name} has no plain equivalent`);
    sheet.getCell(row, formulaColumn).value = { formula: text, result: wrongValue };
    const found = {
      sheet: definition.name,
      row,
      ours: isMatrix(value) ? (value.at(-1)?.at(-1) ?? null) : value,
      call,
      text,
    };
    row = bottom;
    return found;
  });
}

test('LibreOffice computes the same from the plain equivalents', { timeout: 240_000 }, async () => {
  const book = new ExcelJS.Workbook();
  const cases = functions.filter(hasPlain).flatMap((definition) => sheetOf(book, definition));
  const canary = book.addWorksheet('Canary');
  canary.getCell('A1').value = { formula: '2+3', result: wrongValue };

  const read = await recalculated(new Uint8Array(await book.xlsx.writeBuffer()));
  const cell = (sheet: string, row: number, column: number) =>
    read.sheets
      .find(({ name }) => name === sheet)
      ?.rows.get(row)
      ?.find((item) => item.column === column);
  expect(cell('Canary', 1, 1)?.value, 'stored values are computed anew').toBe(5);

  const differences = cases.flatMap(({ sheet, row, ours, call, text }) => {
    const found = cell(sheet, row, formulaColumn);
    const theirs = found?.error ?? found?.value ?? '';
    // True in a cell is a number to LibreOffice alone.
    if (call.args.includes(true)) return [];
    const size = Math.max(0, ...call.args.filter((argument) => typeof argument === 'number').map(Math.abs));
    const same = isFault(ours)
      ? found?.error !== undefined && (call.oddities > 1 || found.error === ours.code)
      : typeof ours === 'number'
        ? typeof theirs === 'number' && close(ours, theirs, 1e-9, size)
        : ours === theirs;
    return same
      ? []
      : [`${sheet} row ${row}: ${String(ours)} here, ${String(theirs)} there; ${JSON.stringify(call.args)}; =${text}`];
  });
  expect(differences).toEqual([]);
  expect(cases.filter(({ ours }) => !isFault(ours)).length).toBeGreaterThan(cases.length / 2);
});
