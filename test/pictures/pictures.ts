import { writeFileSync } from 'node:fs';
import { setup } from '../browser/built-page.ts';
import { TestBrowser } from '../browser/opened-page.ts';
import { packed } from './png.ts';

/**
 * `npm run pictures`: the page with the demo, at a belt that fails, as the README shows it. Needs Chromium, so no test
 * holds the picture to the page.
 */
setup();
const browser = await TestBrowser.start();
const { page, context } = await browser.open({ width: 1180, height: 680 });
await page.locator('.count-button', { hasText: 'fails' }).click();
await page.locator('button.finding').first().click();
await page.locator('.side-panel svg').first().waitFor();
await page.waitForTimeout(500);
writeFileSync('exports/tern-quay-page.png', packed(await page.screenshot()));
await context.close();
await browser.stop();
process.stdout.write('exports/tern-quay-page.png\n');
