import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { evaluation, inPlant } from '../../src/page/grid/grid-terms.json';
import { legalNotice } from '../../src/workbook/legal-notice.ts';
import { goTo, rewriteKeyedPage, shot, TestBrowser, told } from './opened-page.ts';

/** On what terms the page and its parts are used, and what it says of a key that one of them refuses. */

describe('a page without keys', () => {
  let browser: TestBrowser;
  beforeAll(async () => {
    browser = await TestBrowser.start();
  });
  afterAll(() => browser.stop());

  const opened = async (context: BrowserContext, page: Page, name: string): Promise<string> => {
    const [tab] = await Promise.all([
      context.waitForEvent('page'),
      page.locator('.help-dialog a', { hasText: name }).click(),
    ]);
    await tab.waitForLoadState();
    expect(new URL(tab.url()).pathname).toBe(`/${name}`);
    return tab.innerText('body');
  };

  it.each([1440, 1024])('says at %i pixels that its grid is on trial, and in Help what that means', async (width) => {
    const { page, context, complaints } = await browser.open({ width, height: 768 });
    const mark = page.locator('.top .evaluation');
    expect(await mark.getAttribute('title')).toBe(`${evaluation} ${inPlant}`);
    // The mark leaves room for the bar's last button.
    const help = await page.locator('.top .button', { hasText: 'Help' }).boundingBox();
    expect((help?.x ?? Infinity) + (help?.width ?? Infinity)).toBeLessThanOrEqual(width);
    expect((await page.locator('.top .title').boundingBox())?.width).toBeGreaterThan(80);
    await shot(page, `evaluation-${width}`);
    await mark.click();
    const said = await page.locator('.help-dialog [role=tabpanel]').innerText();
    for (const text of [...legalNotice, evaluation, inPlant]) expect(said).toContain(text);
    await shot(page, `licences-${width}`);
    expect(await opened(context, page, 'LICENSE')).toContain('GNU GENERAL PUBLIC LICENSE');
    expect(await opened(context, page, 'THIRD-PARTY.txt')).toContain('handsontable 18');
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe('a page built with keys', () => {
  let browser: TestBrowser;
  beforeAll(async () => {
    browser = await TestBrowser.start({ SKEWBOOK_HYPERFORMULA_KEY: 'xx', SKEWBOOK_HANDSONTABLE_KEY: 'xx' });
  });
  afterAll(() => browser.stop());

  it('that are refused says so once for each, naming where the key was set, and goes on computing', async () => {
    const { page, context, complaints } = await browser.open();
    await page.locator('.notice').first().waitFor();
    const notices = await page.locator('.notice span').allInnerTexts();
    expect(notices).toHaveLength(2);
    expect(notices[0]).toMatch(/SKEWBOOK_HYPERFORMULA_KEY.*HyperFormula, refuses.*GNU GPL/);
    expect(notices[1]).toMatch(/SKEWBOOK_HANDSONTABLE_KEY.*Handsontable, refuses/);
    expect(await page.locator('.top .evaluation').count()).toBe(0);
    await goTo(page, 'D3');
    await page.fill('#formula', '=1000+200');
    await page.keyboard.press('Enter');
    await goTo(page, 'D3');
    expect(await told(page)).toContain('1200');
    // The grid's own word to developers.
    expect(complaints.filter((text) => !text.startsWith('warning: The license key for Handsontable'))).toEqual([]);
    await context.close();
  });

  it('that are blank is as one without', async () => {
    // Where a build puts its keys is plain text; a second build takes longer than all the rest of these tests.
    const inBuild = /(SKEWBOOK_(HYPERFORMULA|HANDSONTABLE)_KEY:)(["'`])xx\3/g;
    const blank = (_: string, start: string, of: string, quote: string): string =>
      start + quote + (of === 'HYPERFORMULA' ? ' ' : '') + quote;
    expect(rewriteKeyedPage((script) => script.replaceAll(inBuild, blank))).toBeGreaterThan(1);
    const { page, context, complaints } = await browser.open();
    expect(await page.locator('.top .evaluation').count()).toBe(1);
    await goTo(page, 'D3');
    expect(await page.locator('.notice').count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
