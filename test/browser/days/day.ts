import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import type { TestBrowser } from '../opened-page.ts';
import { type By, Hand } from './hand.ts';
import { outOfReach, violations } from './screen.ts';

/**
 * A user's day at the page: a list of steps, said once, and walked by mouse or by keyboard, in a large or a small
 * window, in light or dark colours. Each step ends at a screen that is looked at.
 */

export interface Visit {
  readonly page: Page;
  readonly hand: Hand;
  /** For the files that come and go, emptied at the end. */
  readonly folder: string;
}

export interface Step {
  /** The screen that it ends at. */
  readonly screen: string;
  readonly does: (visit: Visit) => Promise<void>;
}

export interface Way {
  readonly by: By;
  readonly width: number;
  readonly height: number;
  readonly scheme: 'light' | 'dark';
  /** The rules of axe-core that are asked for; all when absent. */
  readonly rules?: readonly string[];
}

export const wayName = ({ by, width, height, scheme }: Way): string => `by ${by}, ${width} x ${height}, ${scheme}`;

const fileName = (screen: string): string => `${screen.replaceAll(/[^\w]+/g, '-')}.png`;

/** What was wrong on the way: at which screen, and what. With a folder for pictures each screen is put there. */
export async function walked(
  browser: TestBrowser,
  steps: readonly Step[],
  way: Way,
  pictures?: string,
): Promise<string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-day-'));
  const { page, context, complaints } = await browser.open(way);
  page.setDefaultTimeout(30_000);
  const hand = new Hand(page, way.by);
  if (pictures !== undefined) mkdirSync(pictures, { recursive: true });
  const wrong: string[] = [];
  try {
    for (const [number, { screen, does }] of steps.entries()) {
      try {
        await does({ page, hand, folder });
      } catch (error) {
        throw new Error(`${screen}: ${error instanceof Error ? error.message : String(error)}`, { cause: error });
      } finally {
        if (pictures !== undefined) {
          const path = join(pictures, `${String(number + 1).padStart(2, '0')}-${fileName(screen)}`);
          await page.screenshot({ path });
        }
      }
      const seen = [
        ...complaints.splice(0),
        ...(await page.locator('.notice-problem').allInnerTexts()),
        ...hand.wrong.splice(0),
        ...(await outOfReach(page)),
        ...(await violations(page, way.rules)),
      ];
      wrong.push(...seen.map((what) => `${screen}: ${what}`));
    }
  } finally {
    await context.close();
    rmSync(folder, { recursive: true, force: true });
  }
  return wrong;
}
