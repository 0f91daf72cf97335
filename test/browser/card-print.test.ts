import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cardsHtml } from '../../src/card/card-html.ts';
import { footText } from '../../src/card/card-sections.ts';
import { jobCard } from '../../src/card/job-card.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { TestBrowser } from './opened-page.ts';

/** Cards as a browser prints them, page by page. */

let browser: TestBrowser;
let folder = '';

beforeAll(async () => {
  browser = await TestBrowser.start();
  folder = mkdtempSync(join(tmpdir(), 'skewbook-print-'));
});

afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await browser.stop();
});

describe('printed cards', () => {
  it.each([
    ['metric', 'A4', 36],
    ['us', 'Letter', 8],
  ] as const)(
    'of the %s book have no page on %s with nothing but its foot (%i cards)',
    async (units, paper, count) => {
      const book = new Workbook(demoBook(units));
      const cards = [...book.sheet('Belts').rows.keys()].slice(0, count).map((record) => jobCard(book, record));
      const { page, context } = await browser.open();
      const print = await context.newPage();
      await print.setContent(cardsHtml(cards, paper));
      const path = join(folder, `${units}.pdf`);
      writeFileSync(path, await print.pdf({ preferCSSPageSize: true }));
      const pages = execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8', maxBuffer: 1e8 })
        .split('\f')
        .slice(0, -1);
      const feet = new Set(cards.map(footText));
      const bare = pages.filter((text) => {
        const lines = text
          .split('\n')
          .map((line) => line.trim())
          .filter((line) => line !== '' && !/^page \d+ of \d+$/.test(line));
        return lines.every((line) => feet.has(line));
      });
      expect(pages.length).toBeGreaterThan(5 * cards.length);
      expect(bare).toEqual([]);
      await page.close();
      await context.close();
    },
    120_000,
  );
});
