import { execFile } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { printedCode } from '../card/printed-code.ts';
import { goTo, screenshots, shot, TestBrowser } from './opened-page.ts';

/** The job card in the page: opened, printed, taken along as files. */

const run = promisify(execFile);
let browser: TestBrowser;
let folder = '';

beforeAll(async () => {
  browser = await TestBrowser.start();
  folder = await mkdtemp(join(tmpdir(), 'skewbook-card-'));
});

afterAll(async () => {
  rmSync(folder, { recursive: true, force: true });
  await browser.stop();
});

async function openCard(page: Page): Promise<void> {
  await page.keyboard.press('Alt+Shift+C');
  await page.frameLocator('.card-paper').locator('h2', { hasText: 'Steps' }).first().waitFor();
}

async function taken(page: Page, button: string): Promise<{ readonly path: string; readonly name: string }> {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.click(`.card-files button:text-is("${button}")`),
  ]);
  const path = join(folder, file.suggestedFilename());
  await file.saveAs(path);
  return { path, name: file.suggestedFilename() };
}

describe('the job card', () => {
  it('is opened by key, shows cautions before steps, gives every kind of file, leaves the page as it was', async () => {
    const { page, context, complaints } = await browser.open();
    await goTo(page, 'A4');
    await openCard(page);
    const text = await page.frameLocator('.card-paper').locator('body').innerText();
    expect(text).toContain('Belt Q3');
    expect(text.indexOf('Cautions, before step 1')).toBeLessThan(text.indexOf('Read and check'));
    await page.keyboard.press('Control+z');
    await shot(page, 'job-card');
    const pdf = await taken(page, 'PDF');
    expect(pdf.name).toBe('Belt Q3 job card.pdf');
    expect((await run('pdftotext', ['-layout', pdf.path, '-'])).stdout).toContain('Belt Q3');
    const sheet = await taken(page, '.xlsx');
    expect(readBook(new Uint8Array(readFileSync(sheet.path))).sheets.map(({ name }) => name)).toEqual(['Q3']);
    expect((await run('pdfinfo', [(await taken(page, 'Template 1:1')).path])).stdout).toMatch(/Pages: +[1-9]/);
    expect(readFileSync((await taken(page, 'DXF')).path, 'utf8')).toContain('Joint of belt Q3');
    expect(readFileSync((await taken(page, 'SVG')).path, 'utf8')).toMatch(/^<svg/);
    await page.keyboard.press('Escape');
    await page.locator('.card-dialog').waitFor({ state: 'detached' });
    expect(await page.locator('.ht_master td.current').count()).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('is one for each selected belt, and a joint that can not be drawn is refused as a file', async () => {
    const { page, context } = await browser.open({ width: 1024, height: 768, scheme: 'dark' });
    await goTo(page, 'A2');
    await page.keyboard.press('Shift+ArrowDown');
    await openCard(page);
    expect(await page.frameLocator('.card-paper').locator('h1 b').allInnerTexts()).toEqual(['Belt Q1', 'Belt Q2']);
    expect(await page.locator('.card-files button:text-is("DXF")').isDisabled()).toBe(true);
    await shot(page, 'job-card-dark-1024');
    expect(await page.inputValue('.card-bar select[aria-label=Joints]')).toBe('selected');
    await page.selectOption('.card-bar select[aria-label=Joints]', 'due');
    await page.fill('.card-bar input[type=date]', '2026-12-31');
    const due = page.frameLocator('.card-paper').locator('h1 b', { hasText: 'Belt S5' });
    await due.waitFor();
    expect(await page.frameLocator('.card-paper').locator('h1 b', { hasText: 'Belt Q1' }).count()).toBe(0);
    await page.selectOption('.card-bar select[aria-label=Joints]', 'all');
    await page.locator('.card-dialog h2:text-is("Job card: 36 belts")').waitFor();
    await page.keyboard.press('Escape');
    await goTo(page, 'D2');
    await page.keyboard.press('Delete');
    await openCard(page);
    await page.click('.card-files button:text-is("DXF")');
    await page
      .locator('.card-said.why', { hasText: 'was not written: The joint cannot be drawn: enter Width' })
      .waitFor();
    await context.close();
  });

  it.each(['A4', 'Letter'] as const)(
    'prints on %s with the drawing broadside, tables with their heads on every page, a code that another program reads',
    async (paper) => {
      const { page, context } = await browser.open();
      await goTo(page, 'A2');
      await openCard(page);
      await page.selectOption('.card-bar select[aria-label=Paper]', paper);
      const text = await page.locator('.card-paper').getAttribute('srcdoc');
      const print = await context.newPage();
      await print.setContent(text ?? '');
      const path = join(folder, `print-${paper}.pdf`);
      writeFileSync(path, await print.pdf({ preferCSSPageSize: true }));
      const { stdout: pages } = await run('pdfinfo', ['-f', '1', '-l', '20', path]);
      const sizes = [...pages.matchAll(/Page +\d+ size: +([\d.]+) x ([\d.]+)/g)].map(
        ([, width, height]) => Number(width) > Number(height),
      );
      expect(sizes.filter((broadside) => broadside)).toHaveLength(1);
      expect(printedCode(readFileSync(path))).toBe('Q1');
      const { stdout: printed } = await run('pdftotext', ['-layout', path, '-']);
      expect(printed.split('\f').filter((one) => /Step +Work +Tools/.test(one)).length).toBeGreaterThan(1);
      await run('pdftoppm', ['-gray', '-r', '70', '-png', path, join(screenshots, `job-card-print-${paper}`)]);
      await context.close();
    },
  );
});
