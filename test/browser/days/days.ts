import { screenshots, TestBrowser } from '../opened-page.ts';
import { buyerDay } from './buyer-day.ts';
import { type Step, walked, type Way, wayName } from './day.ts';
import { engineerDay } from './engineer-day.ts';
import { plannerDay } from './planner-day.ts';

/** The days of the three users, and the ways to walk them. */

export const days = { planner: plannerDay, buyer: buyerDay, engineer: engineerDay } satisfies Readonly<
  Record<string, readonly Step[]>
>;

export type User = keyof typeof days;

const [large, small] = [
  { width: 1366, height: 768 },
  { width: 800, height: 600 },
];

const byMouse: Way = { by: 'mouse', ...large, scheme: 'light' };
const byKeyboard: Way = { by: 'keyboard', ...small, scheme: 'dark' };

/**
 * The ways of each day that are always walked: they meet each hand, each window and each scheme, and the planner's day,
 * which has most screens of the grid, meets them all; of its second walk only what these change of a screen is asked.
 * `everyDay` walks the others.
 */
export const shortWays: Readonly<Record<User, readonly Way[]>> = {
  planner: [byMouse, { ...byKeyboard, rules: ['color-contrast', 'scrollable-region-focusable'] }],
  buyer: [byMouse],
  engineer: [byKeyboard],
};

const allWays = (['mouse', 'keyboard'] as const).flatMap((by) =>
  [large, small].flatMap((size) => (['light', 'dark'] as const).map((scheme): Way => ({ by, ...size, scheme }))),
);

/** Every day in every way, with a picture of each screen to be looked at. */
export async function everyDay(): Promise<{ counts: Readonly<Record<string, number>>; wrong: readonly string[] }> {
  const browser = await TestBrowser.start();
  const wrong: string[] = [];
  let [walks, screens] = [0, 0];
  try {
    for (const [name, steps] of Object.entries(days))
      for (const way of allWays) {
        const pictures = `${screenshots}/days/${name}-${way.by}-${way.width}-${way.scheme}`;
        const seen = await walked(browser, steps, way, pictures).catch((error: unknown) => [String(error)]);
        wrong.push(...seen.map((what) => `the ${name}'s day ${wayName(way)}: ${what}`));
        walks += 1;
        screens += steps.length;
      }
  } finally {
    await browser.stop();
  }
  return { counts: { walks, screens }, wrong };
}
