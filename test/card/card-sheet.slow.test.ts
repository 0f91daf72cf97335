import ExcelJS from 'exceljs';
import { describe, expect, test, vi } from 'vitest';
import { cardSheet } from '../../src/card/card-rows.ts';
import { type JobCard, jobCard } from '../../src/card/job-card.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';
import { recalculated } from '../xlsx/libreoffice.ts';

vi.setConfig({ testTimeout: 120_000 });

const cards = (units: 'metric' | 'us', records: readonly number[]): JobCard[] => {
  const book = new Workbook(demoBook(units));
  return records.map((record) => jobCard(book, record));
};
const written = (given: readonly JobCard[]): Promise<Uint8Array> =>
  laidBook(
    given.map((card) => cardSheet(card)),
    { title: 'Job cards', paper: 9 },
  );

describe("a card's .xlsx", () => {
  test.each(['metric', 'us'] as const)('has every value where another program reads it, %s', async (units) => {
    const given = cards(units, [0, 3, 20]);
    const { sheets } = await recalculated(await written(given));
    expect(sheets.map(({ name }) => name)).toEqual(given.map(({ belt }) => belt));
    given.forEach((card, index) => {
      const read = sheets[index];
      cardSheet(card).rows.forEach((cells, at) => {
        let column = 1;
        for (const { value, span } of cells) {
          const found = read?.rows.get(at + 1)?.find((cell) => cell.column === column)?.value ?? null;
          if (value !== null && value !== '')
            expect(
              typeof found === 'number' ? found : String(found),
              `${card.belt}, row ${at + 1}, column ${column}`,
            ).toBe(value);
          column += span;
        }
      });
      const holes = [...(read?.rows.values() ?? [])].filter(
        (cells) =>
          cells.filter(({ value }) => value !== null && value !== '').length === 9 &&
          cells.every(({ value }) => value !== 'Plate'),
      );
      expect(holes).toHaveLength(card.holes.length / 2);
    });
  });

  test('keeps a figure at the end of its column clear of the words in the next one', async () => {
    const file = new ExcelJS.Workbook();
    await file.xlsx.load((await written(cards('metric', [0]))).buffer as ArrayBuffer);
    let ends = 0;
    file.worksheets[0]?.eachRow((row) =>
      row.eachCell(({ alignment }) => {
        if (alignment?.horizontal !== 'right') return;
        ends += 1;
        expect(alignment.indent).toBeGreaterThan(0);
      }),
    );
    expect(ends).toBeGreaterThan(100);
  });

  test('sets titles of steps and hold points in bold', async () => {
    const file = new ExcelJS.Workbook();
    await file.xlsx.load((await written(cards('metric', [0]))).buffer as ArrayBuffer);
    const bold: string[] = [];
    file.worksheets[0]?.eachRow((row) =>
      row.eachCell(({ value }) => {
        if (typeof value === 'object' && value !== null && 'richText' in value)
          bold.push(
            value.richText
              .filter(({ font }) => font?.bold === true)
              .map(({ text }) => text)
              .join(''),
          );
      }),
    );
    expect(bold.some((text) => text.startsWith('Isolate and try\nHOLD POINT: stop until this step is signed.'))).toBe(
      true,
    );
    expect(bold.join('')).not.toContain('Run belt Q1 empty');
  });
});
