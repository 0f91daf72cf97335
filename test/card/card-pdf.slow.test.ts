import { inPdfFonts } from '../../src/drawing/paper-pdf.ts';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { fittingLines } from '../../src/card/card-lines.ts';
import { cardPapers } from '../../src/card/card-pages.ts';
import { cardsPdf } from '../../src/card/card-pdf.ts';
import { spans } from '../../src/card/card-rows.ts';
import { holePairs } from '../../src/card/hole-sections.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { onPaper, scaleOf } from '../../src/drawing/paper.ts';
import { tapeNumber } from '../../src/drawing/tape.ts';
import { textWidth } from '../../src/drawing/text-width.ts';
import { spelt } from '../../src/units/spelling.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { printedPages } from '../drawing/pdf-operators.ts';
import { columnOf } from '../workbook/books.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(join(tmpdir(), 'skewbook-card-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const books = { metric: new Workbook(demoBook('metric')), us: new Workbook(demoBook('us')) };

/** Pages of a PDF as another program reads them. */
function pagesOf(bytes: Uint8Array): string[] {
  const path = join(folder, 'card.pdf');
  writeFileSync(path, bytes);
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
}

test('a card names this program as the one that made it', async () => {
  const file = await PDFDocument.load(await cardsPdf([jobCard(books.metric, 0)], 'A4'), { updateMetadata: false });
  expect(file.getCreator()).toBe('Skewbook');
});

describe.each([
  ['metric', 'A4'],
  ['us', 'Letter'],
] as const)('a card of the %s book on %s', (units, paper) => {
  const book = books[units];

  test('is read by another program: every step, figure and caution in order, heads and numbers a page', async () => {
    const card = jobCard(book, 0);
    const pages = pagesOf(await cardsPdf([card], paper));
    expect(pages.length).toBeLessThanOrEqual(8);
    pages.forEach((page, index) =>
      expect(page).toMatch(
        new RegExp(`Job card: Belt Q1, Tern Quay, invented figures +page ${index + 1} of ${pages.length}`),
      ),
    );
    const all = pages.join('\n').replaceAll(/\s+/g, ' ');
    for (const { title, text } of card.dimensions.map(({ name, text: shown }) => ({ title: name, text: shown })))
      expect(all, title).toContain(spelt(text, units));
    for (const { title, number } of card.steps) expect(all).toContain(`${number} ${spelt(title, units)}`);
    expect(all.indexOf('Cautions, before step 1')).toBeLessThan(all.indexOf('1 Read and check'));
    for (const page of pages)
      if (
        card.steps.some(({ title }) => new RegExp(`^ *\\d+ +${title.replaceAll(/[().,]/g, '.')}( |$)`, 'm').test(page))
      )
        expect(page).toMatch(/Step +Work +Tools +Done by, time/);
  });

  test('prints what no card may lack, whatever the service of the belt', async () => {
    const record = book.sheet('Belts').rows.findIndex((_, at) => book.read('Belts', at, 'Belt') === 'Q3');
    const card = jobCard(book, record);
    expect(book.read('Belts', record, 'Service')).toBe('none');
    const path = join(folder, 'running.pdf');
    writeFileSync(path, await cardsPdf([card], paper));
    const text = execFileSync('pdftotext', ['-raw', path, '-'], { encoding: 'utf8' }).replaceAll(/\s+/g, ' ');
    for (const words of [
      'Hot-work permit number',
      'Hot work and combustible dust',
      '29 CFR 1910.272(f)',
      'respiratory protection',
      'only then open the joint',
      'let the take-up down slowly until it holds the belt; only then remove the clamps',
      'give the start warning, and watch a test run',
      'Invented figures: not for real work.',
    ])
      expect(text).toContain(words);
  });

  test('prints every hole of the table and every plate of both passes in its order', async () => {
    for (const record of [0, 8, 20]) {
      const card = jobCard(book, record);
      const pages = pagesOf(await cardsPdf([card], paper))
        .join('\n')
        .split('\n')
        .filter((line) => !line.startsWith('Job card: '));
      const place = (words: string): number => pages.findIndex((line) => line.startsWith(words));
      const holes = pages
        .slice(place('Holes, in'), place('Steps'))
        .map((line) => line.trim().split(/\s{2,}/))
        .filter((cells) => cells.length === 9 && /^\d+$/.test(cells[0] ?? ''));
      const tape = (value: number): string => tapeNumber(value, card.unit);
      expect(holes).toEqual(
        holePairs(card.holes).map(({ plate, trailing, leading }) => [
          String(plate),
          tape(trailing?.run.tape ?? Number.NaN),
          tape(trailing?.step ?? Number.NaN),
          ...[trailing, leading].flatMap((hole) => [
            String(hole?.number),
            tape(hole?.along.tape ?? Number.NaN),
            tape(hole?.across.tape ?? Number.NaN),
          ]),
        ]),
      );
      for (const [from, to] of [
        ['First pass, snug', 'Second pass, clamp'],
        ['Second pass, clamp', 'Signed'],
      ] as const) {
        expect(
          pages
            .slice(place(from) + 1, place(to))
            .join(' ')
            .trim()
            .split(/\s+/)
            .map(Number),
        ).toEqual(card.tightening);
      }
    }
  });

  test('draws every hole where the joint has it, on both views', async () => {
    const card = jobCard(book, 3);
    const drawnPage = cardPapers(card, paper).findIndex(({ width, height }) => width > height);
    const views =
      cardPapers(card, paper)[drawnPage]?.marks.flatMap((mark) => (mark.type === 'view' ? [mark] : [])) ?? [];
    const asked = views.flatMap(({ matrix, outlines }) =>
      outlines.flatMap((outline) =>
        outline.type === 'circle'
          ? [{ ...onPaper(matrix, outline.centre), diameter: outline.diameter * scaleOf(matrix) }]
          : [],
      ),
    );
    const circles = (await printedPages(await cardsPdf([card], paper)))[drawnPage]?.circles ?? [];
    expect(asked.length).toBeGreaterThan(card.holes.length);
    expect(circles).toHaveLength(asked.length);
    circles.forEach(({ x, y, diameter }, index) => {
      expect(Math.hypot(x - (asked[index]?.x ?? Number.NaN), y - (asked[index]?.y ?? Number.NaN))).toBeLessThan(1e-3);
      expect(diameter).toBeCloseTo(asked[index]?.diameter ?? Number.NaN, 3);
    });
  });

  test('keeps everything on its sheet, and no text over the one below it', () => {
    for (const record of [0, 3, 8, 20, 33]) {
      for (const { width, height, marks } of cardPapers(jobCard(book, record), paper)) {
        for (const mark of marks) {
          if (mark.type === 'text' && mark.turned === 0) {
            const breadth = textWidth(mark.text, mark.size, mark.bold);
            const left =
              mark.anchor === 'start'
                ? mark.at.x
                : mark.anchor === 'middle'
                  ? mark.at.x - breadth / 2
                  : mark.at.x - breadth;
            expect(left, mark.text).toBeGreaterThan(8);
            expect(left + breadth, mark.text).toBeLessThan(width - 8);
            expect(mark.at.y).toBeGreaterThan(8);
            expect(mark.at.y).toBeLessThan(height - 6);
          }
          if (mark.type === 'box') expect(mark.box.y + mark.box.height).toBeLessThan(height - 10);
        }
      }
    }
  });
});

describe('a card with unusual contents', () => {
  const changed = (contents: Readonly<Record<string, string>>): Workbook => {
    const book = new Workbook(demoBook('metric'));
    book.edit(
      Object.entries(contents).map(([header, content]) => ({
        sheet: 'Belts',
        record: 0,
        column: columnOf(book, 'Belts', header),
        content,
      })),
    );
    return book;
  };

  test('says which letters the fonts of the PDF lack; the card itself keeps them', async () => {
    const card = jobCard(changed({ Belt: 'Лента 7' }), 0);
    const text = pagesOf(await cardsPdf([card], 'A4'))
      .join(' ')
      .replaceAll(/\s+/g, ' ');
    expect(text).toContain('Belt ????? 7');
    expect(text).toContain(
      'The fonts of this PDF lack 5 letters of this card (U+041B, U+0435, U+043D, U+0442, U+0430)',
    );
    expect(pagesOf(await cardsPdf([jobCard(books.metric, 0)], 'A4')).join(' ')).not.toContain(
      'The fonts of this PDF lack',
    );
    expect(card.belt).toBe('Лента 7');
  });

  test('prints a long name whole, smaller and in more lines: its end may be what tells two belts apart', async () => {
    const belt =
      `${'Reclaim tunnel four of the tertiary crushing and screening plant, lower deck, '.repeat(3)}north ` + `side`;
    const [page = ''] = pagesOf(await cardsPdf([jobCard(changed({ Belt: belt }), 0)], 'A4'));
    expect(page.replaceAll(/\s+/g, ' ')).toContain(`Belt ${belt} Area`);
  });

  test('parts a step longer than a page, and loses none of its words', async () => {
    const book = new Workbook(demoBook('metric'));
    const words = Array.from({ length: 2500 }, (_, index) => `w${index}`);
    book.edit([{ sheet: 'Steps', record: 4, column: book.column('Steps', 'Text'), content: words.join(' ') }]);
    const text = new Set(
      pagesOf(await cardsPdf([jobCard(book, 0)], 'A4'))
        .join(' ')
        .split(/\s+/),
    );
    expect(words.filter((word) => !text.has(word))).toEqual([]);
  });

  test('breaks a word that is wider than its column', () => {
    const lines = fittingLines(`a ${'W'.repeat(60)} b`, 3, 30);
    expect(lines.join('').replaceAll(/[^W]/g, '')).toHaveLength(60);
    for (const line of lines) expect(textWidth(line, 3)).toBeLessThanOrEqual(30);
    expect(fittingLines('', 3, 30)).toEqual(['']);
  });
});

test('the letters called printable are those that the library has', async () => {
  const file = await PDFDocument.create();
  for (const name of [StandardFonts.Helvetica, StandardFonts.HelveticaBold]) {
    const held = new Set((await file.embedFont(name)).getCharacterSet());
    const wrong = Array.from({ length: 0x2fff }, (_, code) => code).filter(
      (code) => code >= 0x20 && inPdfFonts(String.fromCodePoint(code)) && !held.has(code),
    );
    expect(wrong.map((code) => code.toString(16))).toEqual([]);
  }
});

test('columns of a table take the whole grid of the sheet, each some of it', () => {
  for (const widths of [
    [10, 106, 38, 32],
    [12, 20, 20, 22, 20, 20, 22, 20, 20],
    [1, 1000],
    [45, 24, 24, 45, 24, 24],
  ]) {
    expect(spans(widths).reduce((sum, span) => sum + span, 0)).toBe(24);
    expect(Math.min(...spans(widths))).toBeGreaterThan(0);
  }
});
