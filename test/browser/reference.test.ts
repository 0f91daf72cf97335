import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenedPage, TestBrowser } from './opened-page.ts';

/** The reference in Help: loaded when it is first opened, and searched. */

describe('the reference', () => {
  let browser: TestBrowser;
  let opened: OpenedPage;
  let page: Page;
  const loaded: string[] = [];

  beforeAll(async () => {
    browser = await TestBrowser.start();
    opened = await browser.open({ width: 1024, height: 768 });
    ({ page } = opened);
    page.on('request', (request) => loaded.push(new URL(request.url()).pathname));
  });
  afterAll(() => browser.stop());

  const shown = async (): Promise<string[]> =>
    (await page.locator('.reference-text summary > span:first-child').allInnerTexts()).map((text) => text.trim());
  const find = (words: string): Promise<void> => page.fill('.reference input', words);

  it('is loaded when Help is opened at it, and not again', async () => {
    expect(loaded).toEqual([]);
    await page.keyboard.press('F1');
    await page.locator('.reference summary').first().waitFor();
    await page.locator('.reference input:focus').waitFor();
    const first = [...loaded];
    expect(first.length).toBeGreaterThan(0);
    await page.keyboard.press('Escape');
    await page.keyboard.press('F1');
    await page.locator('.reference summary').first().waitFor();
    expect(loaded).toEqual(first);
  });

  it('shows a section at a time; what is opened in one is shut in the next', async () => {
    await page.locator('.reference summary', { hasText: 'SKEWLENGTH' }).click();
    expect(await page.locator('.reference details[open]').innerText()).toContain('919.2388155425118');
    await page.locator('.reference-nav button', { hasText: 'Columns' }).click();
    await expect.poll(shown).toContain('Smallest pulley');
    expect(await page.locator('.reference details[open]').count()).toBe(0);
    await page.locator('.reference-nav button', { hasText: 'Figures to confirm' }).click();
    // It takes a second to work out; until then the section before may still be there, or nothing.
    await expect.poll(shown, { timeout: 20_000 }).toHaveLength(12);
  });

  it('finds functions by a part of their name, anything else by how its words begin, in all sections', async () => {
    await find('pulley min');
    await expect.poll(async () => (await shown())[0]).toBe('MINPULLEY(square, skew)');
    await find('--template');
    await expect.poll(shown).toEqual(['card IN.xlsx [BELT] OUT.(pdf|xlsx|svg|dxf)']);
    await find('sag');
    await expect.poll(shown).toContain('SAGTENSION(spacing, beltMass, loadMass, sag, [gravity])');
    expect((await shown()).filter((name) => name.startsWith('card '))).toEqual([]);
    await find('nothing like it');
    await page.locator('.reference-text', { hasText: 'Nothing in the reference holds these words' }).waitFor();
    await find('');
    await expect.poll(shown).toHaveLength(12);
    expect(opened.complaints).toEqual([]);
  });
});
