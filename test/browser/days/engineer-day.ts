import assert from 'node:assert/strict';
import { letters } from '../../workbook/books.ts';
import { formula, told } from '../opened-page.ts';
import type { Step } from './day.ts';
import type { Page } from 'playwright-core';

/**
 * An engineer's day: a column of one's own, formulas pointed at and put right, an assumption changed and its effect
 * followed, what if asked, pictures, a sheet of one's own, and the book as a file.
 */

const editor = (page: Page): ReturnType<Page['locator']> =>
  page.locator('.grid-sheet:not([hidden]) textarea.handsontableInput');
const field = (page: Page, name: string): ReturnType<Page['locator']> => page.locator(`dialog [name=${name}]`);

export const engineerDay: readonly Step[] = [
  {
    screen: "engineer's view",
    async does({ page, hand }) {
      await page.locator('.finding').first().waitFor();
      await hand.command('View', 'Engineer view', 'Alt+Shift+3');
      await page.locator('.view-strip', { hasText: 'View: Engineer' }).waitFor();
    },
  },
  {
    screen: 'list of columns',
    async does({ page, hand }) {
      await hand.command('View', 'Columns …', 'Alt+Shift+N');
      await page.keyboard.type('known tension');
      await hand.press(page.getByRole('checkbox', { name: 'Known tension' }));
      await page.locator('.view-strip', { hasText: 'changed' }).waitFor();
    },
  },
  {
    screen: 'own column refused',
    async does({ page, hand }) {
      await hand.leave();
      await hand.goTo('D2');
      await hand.command('Edit', 'Add a column of your own …', 'Alt+Shift+A');
      await hand.write(field(page, 'header'), 'Twice');
      await hand.choose(field(page, 'kind'), 'length (mm)');
      await hand.choose(field(page, 'digits'), '1');
      await hand.write(field(page, 'doc'), 'twice the width');
      await hand.choose(field(page, 'after'), 'Belt');
      await hand.write(field(page, 'formula'), '=[Widht]*2');
      await hand.press(page.locator('dialog .primary'));
      await page.locator('dialog .why', { hasText: 'Belts has no column Widht' }).waitFor();
    },
  },
  {
    screen: 'own column',
    async does({ page, hand }) {
      await hand.write(field(page, 'formula'), '=[Width]*2');
      await hand.press(page.locator('dialog .primary'));
      await page.locator('dialog').waitFor({ state: 'detached' });
      assert.equal(await formula(page), '=[Width]*2');
      assert.match(await told(page), /mm/);
    },
  },
  {
    screen: 'a sheet of one’s own',
    async does({ page, hand }) {
      await hand.press(page.getByRole('button', { name: 'Add a blank sheet' }));
      await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Sheet 1' }).waitFor();
      await hand.enter('A2', 'Trial');
      await hand.enter('A3', '12.5');
      await hand.enter('B3', '10%');
      await hand.goTo('B3');
      assert.equal(await formula(page), '10%');
    },
  },
  {
    screen: 'pointing',
    async does({ page, hand }) {
      await hand.goTo('C4');
      await page.keyboard.type('=');
      if (hand.by === 'mouse')
        await page.locator('.grid-sheet:not([hidden]) .ht_master tbody tr:nth-child(2) td').first().click();
      else for (const key of ['ArrowLeft', 'ArrowLeft', 'ArrowUp']) await page.keyboard.press(key);
      assert.equal(await editor(page).inputValue(), '=A3');
      await page.keyboard.press('F4');
      assert.equal(await editor(page).inputValue(), '=$A$3');
      await page.keyboard.type('*MAX(Belts[Wid');
      await page.locator('.hint-name', { hasText: 'Width' }).first().waitFor();
    },
  },
  {
    screen: 'a wrong formula',
    async does({ page }) {
      await page.keyboard.press('Tab');
      await page.keyboard.type(';1');
      await page.keyboard.press('Enter');
      await page.locator('.hint-fault').waitFor();
    },
  },
  {
    screen: 'its fix',
    async does({ page, hand }) {
      if (hand.by === 'mouse') await page.locator('.hint-fix').click();
      else await page.keyboard.press('Tab');
      await page.keyboard.press('Enter');
      await hand.goTo('C4');
      assert.equal(await formula(page), '=$A$3*MAX(Belts[Width],1)');
    },
  },
  {
    screen: 'calculation',
    async does({ page, hand }) {
      await hand.goTo(`Belts!${letters('Working tension')}4`);
      await hand.command('View', 'Show calculation', 'Alt+Shift+W');
      await page.locator('[role=treeitem]').first().waitFor();
      await hand.press(page.locator('.working-panel').getByRole('button', { name: 'Pin', exact: true }));
    },
  },
  {
    screen: 'an assumption changed',
    async does({ page, hand }) {
      await hand.goTo('RollingFriction');
      await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Assumptions' }).waitFor();
      await page.keyboard.type('0.03');
      await page.keyboard.press('Enter');
      await page.locator('.working-former', { hasText: 'was' }).first().waitFor();
    },
  },
  {
    screen: 'taken back',
    async does({ page, hand }) {
      await hand.press(page.getByRole('button', { name: 'Back to' }));
      await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Belts' }).waitFor();
      await page.keyboard.press('Control+z');
      await hand.press(page.getByRole('button', { name: 'Follow the selection' }));
    },
  },
  {
    screen: 'skew',
    async does({ page, hand }) {
      await hand.press(page.locator('.panel-tabs').getByRole('tab', { name: 'Skew' }));
      await page.locator('.skew-table[aria-busy=false]').waitFor();
    },
  },
  {
    screen: 'tension',
    async does({ page, hand }) {
      await hand.press(page.locator('.panel-tabs').getByRole('tab', { name: 'Tension' }));
      await page.locator('.pull-panel table').first().waitFor();
    },
  },
  {
    screen: 'what if',
    async does({ page, hand }) {
      await hand.press(page.locator('.panel-tabs').getByRole('tab', { name: 'What if' }));
      await hand.write(page.locator('#what-if-goal'), 'Cut length <= 1.2 m');
      await hand.choose(page.locator('#what-if-by'), 'Skew');
      await hand.press(page.getByRole('button', { name: 'Solve', exact: true }));
      await page.locator('.what-if-answer', { hasText: 'Skew: Cut length at most 1200 mm with 0° to 33.5°' }).waitFor();
    },
  },
  {
    screen: 'what if, variants',
    async does({ page, hand }) {
      await hand.press(page.locator('.what-if-answer').getByRole('button', { name: 'Keep as a variant' }));
      await page.locator('.foot .tab', { hasText: 'Variants' }).waitFor();
      await hand.press(page.locator('.what-if-panel').getByRole('button', { name: /^Compare with the book/ }));
      await page.locator('.what-if-variants', { hasText: 'Belts that differ: Q3.' }).waitFor();
    },
  },
  {
    screen: 'what if, effects and chances',
    async does({ page, hand }) {
      await hand.goTo(`Belts!${letters('Working tension')}4`);
      await hand.press(page.getByRole('button', { name: /^Rank the inputs of/ }));
      await page.locator('.what-if-effects').waitFor();
      await hand.press(page.getByRole('button', { name: /^Draw 1000 times/ }));
      await page.locator('.what-if-line', { hasText: /^Belt Q3 passes in/ }).waitFor();
    },
  },
  {
    screen: 'pictures',
    async does({ page, hand }) {
      await hand.command('Book', 'Pictures …', 'Alt+Shift+X');
      await page.locator('[data-picture=verdicts] svg').waitFor();
      await page.locator('[data-picture=expected] svg').waitFor();
    },
  },
  {
    screen: 'pictures, columns',
    async does({ page, hand }) {
      await hand.press(page.getByRole('tab', { name: 'Column against column' }));
      await hand.choose(page.getByLabel('Across'), 'Width');
      await hand.press(page.locator('[data-picture=columns] [data-part="0"]'));
      await page.locator('.picture-chosen').waitFor();
    },
  },
  {
    screen: 'pictures, map',
    async does({ page, hand }) {
      await hand.press(page.getByRole('tab', { name: 'Verdict map' }));
      await page.locator('[data-picture=map] [data-part="0"]').waitFor();
    },
  },
  {
    screen: 'pictures, tables',
    async does({ page, hand }) {
      await hand.press(page.getByRole('button', { name: 'Tables' }));
      await page.locator('[data-picture=map] .picture-table').waitFor();
    },
  },
  {
    screen: 'help',
    async does({ page, hand }) {
      await hand.leave();
      await page.keyboard.press('F1');
      await hand.write(page.locator('.reference input'), 'pulley min');
      await page.locator('.reference-text summary', { hasText: 'MINPULLEY' }).waitFor();
    },
  },
  {
    screen: 'exported',
    async does({ page, hand }) {
      await hand.leave();
      const file = page.waitForEvent('download');
      await hand.command('Book', 'Export .xlsx', 'Control+s');
      assert.equal((await file).suggestedFilename(), 'Tern Quay.xlsx');
      await page.locator('.notice', { hasText: 'was written' }).waitFor();
    },
  },
];
