import { join } from 'node:path';
import assert from 'node:assert/strict';
import { demoRows, listFile, type Row } from '../../cli/lists.ts';
import { letters } from '../../workbook/books.ts';
import { formula, told } from '../opened-page.ts';
import type { Step, Visit } from './day.ts';

/**
 * A planner's day: from the demo to the site's own list, what is missing and refused put right, what fails cured, and
 * the next outage planned, down to the crew's cards.
 */

const width = letters('Width');

/** The site's list: its own headers, no skive, a width that nobody measured. */
function siteList(): Row[] {
  const [heads = [], ...belts] = demoRows({ Belt: 'Conveyor', Width: 'Belt width (mm)', Area: 'Where' });
  const skive = heads.findIndex((header) => String(header).startsWith('Skive depth'));
  const size = heads.indexOf('Belt width (mm)');
  return [heads, ...belts.slice(0, 16)].map((row, at) => [
    ...row
      .map((cell, column) => (at === 0 ? cell : column === 0 ? `CV-${cell}` : cell))
      .map((cell, column) => (at === 3 && column === size ? 'see drawing' : cell))
      .toSpliced(skive, 1),
    at === 0 ? 'Job no' : `W-${1000 + at}`,
  ]);
}

/** The menu of the column of verdicts, with none of its values ticked but the one that is wanted. */
async function onlyFails({ page, hand }: Visit): Promise<void> {
  const fails = page.locator('.htUIMultipleSelectHot .ht_master td', { hasText: 'fails' });
  if (hand.by === 'mouse') {
    await page.locator('.ht_clone_top th:has(.header-name:text-is("Verdict")) .changeType').click();
    await page.locator('.htUIClearAll a').click();
    await fails.locator('label').click();
  } else {
    await page.keyboard.press('Alt+Shift+ArrowDown');
    await fails.waitFor();
    await hand.press(page.locator('.htUIClearAll a'));
    await hand.reach(page.locator('.htUIMultipleSelectSearch input'));
    const values = await page.locator('.htUIMultipleSelectHot .ht_master td').allInnerTexts();
    for (let at = -1; at < values.findIndex((value) => value.trim() === 'fails'); at += 1)
      await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Space');
  }
  assert.ok(await fails.locator('input').isChecked());
}

export const plannerDay: readonly Step[] = [
  {
    screen: 'welcome',
    async does({ page }) {
      await page.locator('.welcome', { hasText: 'This is a demo.' }).waitFor();
      await page.locator('.finding').first().waitFor();
    },
  },
  {
    screen: 'tour',
    async does({ page, hand }) {
      await hand.command('Tours', 'A verdict and its cure');
      await page.locator('.tour').waitFor();
    },
  },
  {
    screen: 'import, choose',
    async does({ page, hand }) {
      await page.keyboard.press('Escape');
      await page.locator('.tour').waitFor({ state: 'detached' });
      await hand.press(page.locator('.welcome').getByRole('button', { name: 'Import a list …' }));
      await page.locator('.import-dialog .drop').waitFor();
    },
  },
  {
    screen: 'import, looked at',
    async does({ page, hand, folder }) {
      const file = await listFile(join(folder, 'site belts.xlsx'), { Belts: siteList() });
      const drop = page.locator('.import-dialog .drop');
      await hand.hand(hand.by === 'mouse' ? drop : drop.locator('input'), [file]);
      await page.locator('.import-summary', { hasText: '16 rows of Belts' }).waitFor();
      await page.getByRole('heading', { name: 'Cells that could not be understood: 1' }).waitFor();
    },
  },
  {
    screen: 'import, answered',
    async does({ page, hand }) {
      await hand.choose(page.getByLabel('Column B is'), 'Area');
      await page.locator('.import-table tr', { hasText: 'you chose it' }).waitFor();
      await hand.press(page.getByLabel("Use the demo's invented plate figures"));
      await hand.press(page.getByRole('button', { name: /^Fill Skive depth with 0/ }));
      await page.getByText('16 blank cells filled with 0').waitFor();
    },
  },
  {
    screen: 'own list',
    async does({ page, hand }) {
      await hand.press(page.locator('.import-dialog .button.primary'));
      await page.locator('.count', { hasText: '16 rows' }).waitFor();
      await page.locator('.finding').first().waitFor();
    },
  },
  {
    screen: 'refused cell',
    async does({ page, hand }) {
      await hand.goTo(`${width}4`);
      await page.locator('.told', { hasText: '"see drawing": it does not begin with a number' }).waitFor();
    },
  },
  {
    screen: 'refused cell corrected',
    async does({ page, hand }) {
      await hand.enter(`${width}4`, '0.8 m');
      await hand.goTo(`${width}4`);
      assert.equal(await formula(page), '800');
      assert.match(await told(page), /800 mm/);
    },
  },
  {
    screen: 'column menu',
    async does(visit) {
      await visit.hand.goTo(`${letters('Verdict')}2`);
      await onlyFails(visit);
    },
  },
  {
    screen: 'fails only',
    async does({ page, hand }) {
      await hand.press(page.locator('.htUIButtonOK input'));
      await page.locator('.chip-filter', { hasText: 'Verdict: ' }).waitFor();
      await page.locator('.count', { hasText: / of 16 rows/ }).waitFor();
    },
  },
  {
    screen: 'cures',
    async does({ page, hand }) {
      await hand.press(page.getByRole('button', { name: /^Try a cure/ }).first());
      await page.locator('.cure-dialog .cure-list .button.primary').first().waitFor();
    },
  },
  {
    screen: 'cured',
    async does({ page, hand }) {
      await hand.press(page.locator('.cure-dialog .cure-list .button.primary').first());
      await page.locator('.notice', { hasText: 'The cure is entered.' }).waitFor();
      assert.ok(await page.getByRole('button', { name: 'Undo cure' }).isEnabled());
    },
  },
  {
    screen: 'filter cleared',
    async does({ page, hand }) {
      await hand.press(page.locator('.chip-filter').first());
      await page.locator('.count', { hasText: /^16 rows/ }).waitFor();
    },
  },
  {
    screen: 'window entered',
    async does({ page, hand }) {
      await hand.show('Windows');
      await hand.enter('A6', 'Winter stop');
      await hand.enter('B6', '2027-01-09 06:00');
      await hand.enter('C6', '2027-01-12 18:00');
      await page.locator('.count', { hasText: '5 rows' }).waitFor();
    },
  },
  {
    screen: 'outage plan',
    async does({ page, hand }) {
      await hand.command('Book', 'Outage plan …', 'Alt+Shift+U');
      const windows = page.locator('.outage-kind[aria-label=Windows]');
      await hand.press(windows.getByRole('button', { name: 'None', exact: true }));
      await hand.press(windows.getByLabel('Winter stop'));
      await page.locator('.outage-table', { hasText: 'Winter stop' }).waitFor();
      await page.locator('.planning-search').waitFor({ state: 'detached' });
    },
  },
  {
    screen: 'outage picture',
    async does({ page, hand }) {
      await hand.press(page.locator('.outage-dialog').getByRole('tab', { name: 'Picture' }));
      await page.locator('.outage-picture svg').waitFor();
    },
  },
  {
    screen: 'outage, not planned',
    async does({ page, hand }) {
      await hand.press(page.locator('.outage-dialog').getByRole('tab', { name: 'Not planned' }));
      await page.locator('.outage-left').waitFor();
    },
  },
  {
    screen: 'cards of the plan',
    async does({ page, hand }) {
      await hand.press(page.locator('.outage-files').getByRole('button', { name: 'Job cards …' }));
      await page.frameLocator('.card-paper').locator('h2', { hasText: 'Steps' }).first().waitFor();
    },
  },
  {
    screen: 'cards on one sheet each',
    async does({ page, hand, folder }) {
      await hand.choose(page.getByLabel('Form', { exact: true }), 'One sheet, both sides');
      const file = page.waitForEvent('download');
      await hand.press(page.locator('.card-files').getByRole('button', { name: 'PDF', exact: true }));
      await (await file).saveAs(join(folder, 'cards.pdf'));
      await page.locator('.card-said', { hasText: 'was written' }).waitFor();
    },
  },
  {
    screen: 'versions',
    async does({ page, hand }) {
      await hand.leave();
      await hand.leave();
      await hand.command('Book', 'Versions …', 'Alt+Shift+H');
      await page.locator('.versions-dialog tr', { hasText: 'import of site belts.xlsx' }).first().waitFor();
    },
  },
  {
    screen: 'books',
    async does({ page, hand }) {
      await hand.leave();
      await hand.command('Book', 'Books …', 'Alt+Shift+Y');
      await page.locator('.books-dialog td', { hasText: 'site belts' }).first().waitFor();
    },
  },
  {
    screen: 'saved',
    async does({ page, hand }) {
      await hand.leave();
      await page.locator('.saved', { hasText: /^Saved / }).waitFor();
      await page.reload();
      await page.waitForSelector('.ht_master td');
      await page.locator('.count', { hasText: /\d rows/ }).waitFor();
      await hand.goTo(`Belts!${width}4`);
      assert.equal(await formula(page), '800');
    },
  },
];
