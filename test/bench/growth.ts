import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { Page } from 'playwright-core';
import { imported } from '../../src/cli/list-book.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { goTo, TestBrowser } from '../browser/opened-page.ts';

/**
 * What a book, a page and its panels hold after they were used thousands of times, against what they held after a few:
 * what is kept of each use by mistake shows as a line that rises.
 */

interface Growth {
  readonly counts: Readonly<Record<string, number>>;
  /** What must not be, in words. */
  readonly wrong: readonly string[];
}

const looks = 12;
/** Looks left out at the beginning: steps to undo, caches and compiled code fill up. */
const unsettled = 4;
/** Kilobytes that the later looks may hold more than the earlier ones, by chance: less than a kilobyte for each use. */
const leeway = 2_000;

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Uses a thing so often, and tells by how many kilobytes the later looks exceed the earlier ones. */
async function grown(
  what: string,
  count: number,
  use: (number: number) => unknown,
  held: () => number | Promise<number>,
): Promise<Growth> {
  const seen: number[] = [];
  for (let number = 0; number < count; number += 1) {
    await use(number);
    if ((number + 1) % Math.ceil(count / looks) === 0) seen.push(Math.round((await held()) / 1024));
  }
  const settled = seen.slice(unsettled);
  const half = Math.floor(settled.length / 2);
  const more = Math.round(mean(settled.slice(half)) - mean(settled.slice(0, half)));
  return {
    counts: { [what]: count, 'kB at the end': seen.at(-1) ?? 0, 'kB more in the later half': more },
    wrong: more > leeway ? [`${count} ${what} hold ${more} kB more in their later half: ${seen.join(', ')} kB`] : [],
  };
}

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
function heapHeld(): number {
  collect();
  return process.memoryUsage().heapUsed;
}

/** Numbers and formulas typed into the same cells over and over, rows added and removed, steps taken back, units. */
export function grownByEdits(count = 5_000): Promise<Growth> {
  const book = new Workbook(demoBook('metric'));
  const column = book.column('Belts', 'Width');
  const use = (number: number): void => {
    const [record, width] = [number % 20, 500 + (number % 700)];
    book.edit([{ sheet: 'Belts', record, column, content: number % 3 === 0 ? `=${width}+0*D23` : width }]);
    if (number % 7 === 0) {
      book.undo();
      book.redo();
    }
    if (number % 50 === 0) {
      book.addRecords('Belts', 5);
      book.removeRecords('Belts', 5, 1);
    }
    if (number % 500 === 0) book.convert(book.units === 'metric' ? 'us' : 'metric');
    book.whatIf('Belts', record, { Width: width });
    book.evaluate(`=SUM(D2:D20)+${number % 100}`);
  };
  return grown('edits', count, use, heapHeld);
}

/** Files read and put in the place of an open book. */
export function grownByImports(): Promise<Growth> {
  const book = new Workbook(demoBook('metric'));
  const file = fileURLToPath(new URL('../../exports/tern-quay-us.xlsx', import.meta.url));
  const use = (): void => book.replace(imported(file, {}, book.state, 'the open book').state, 'import');
  return grown('imports', 200, use, heapHeld);
}

/** What there is to open: its key, what shows it, and the key that closes it. */
const openings: readonly (readonly [key: string, sign: string, closing: string])[] = [
  ['Alt+Shift+W', '.working-panel', 'Alt+Shift+W'],
  ['Alt+Shift+K', '.skew-panel', 'Alt+Shift+K'],
  ['Alt+Shift+P', '.pull-panel', 'Alt+Shift+P'],
  ['Alt+Shift+V', '.what-if-panel', 'Alt+Shift+V'],
  ['Alt+Shift+J', '.joint-panel', 'Alt+Shift+J'],
  ['Alt+Shift+L', '.findings-panel', 'Alt+Shift+L'],
  ['F1', 'dialog[open]', 'Escape'],
  ['Control+o', 'dialog[open]', 'Escape'],
  ['Alt+Shift+Q', '.order-dialog', 'Escape'],
  ['Alt+Shift+U', '.outage-dialog', 'Escape'],
  ['Alt+Shift+C', '.card-dialog', 'Escape'],
  ['Alt+Shift+X', '.pictures-dialog', 'Escape'],
  ['Alt+Shift+Y', '.books-dialog', 'Escape'],
  ['Alt+Shift+H', '.versions-dialog', 'Escape'],
];

async function openAndClose(page: Page, number: number): Promise<void> {
  await goTo(page, `D${2 + (number % 20)}`);
  for (const [key, sign, closing] of openings) {
    await page.keyboard.press(key);
    await page.locator(sign).waitFor();
    await page.keyboard.press(closing);
    await page.locator(sign).waitFor({ state: 'detached' });
  }
}

/** Every panel and dialog opened and closed again, for one belt after the other. */
export async function grownByOpenings(count = 500): Promise<Growth> {
  const browser = await TestBrowser.start();
  try {
    const { page, context, complaints } = await browser.open();
    // These two stand open at the start.
    await page.keyboard.press('Alt+Shift+J');
    await page.keyboard.press('Alt+Shift+L');
    const tools = await context.newCDPSession(page);
    const nodes: number[] = [];
    const held = async (): Promise<number> => {
      await tools.send('HeapProfiler.collectGarbage');
      nodes.push((await tools.send('Memory.getDOMCounters')).nodes);
      return (await tools.send('Runtime.getHeapUsage')).usedSize;
    };
    const { counts, wrong } = await grown('openings', count, (number) => openAndClose(page, number), held);
    // Elements lie outside the heap that is measured.
    const [early, late] = [nodes[unsettled] ?? 0, nodes.at(-1) ?? 0];
    return {
      counts: { ...counts, 'elements at the end': late },
      wrong: [...wrong, ...complaints, ...(late > 1.5 * early ? [`elements: ${nodes.join(', ')}`] : [])],
    };
  } finally {
    await browser.stop();
  }
}
