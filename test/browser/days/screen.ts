import axe, { type Result } from 'axe-core';
import type { Page } from 'playwright-core';

/** What holds of every screen: no rule of axe-core is broken, and no control is out of reach, covered or cut off. */

declare global {
  interface Window {
    readonly axe: typeof axe;
  }
}

/**
 * What is excused of a rule, by element, so that others still count. The menu of a column, which the grid's package
 * draws as a table of items, is not looked at: its roles are not the page's to give.
 */
const excused: Readonly<Record<string, RegExp>> = {
  // The grid's package puts guards that catch the focus between the grid and its rows.
  'aria-required-children': /class="ht-wrapper/,
  // A branch of the calculation is read out as a sentence, in which its figures stand otherwise than on the line.
  'label-content-name-mismatch': /role="treeitem"/,
};

/** Rules of axe-core (WCAG 2.0 to 2.2, A and AA, and its best practices) that are broken. */
export async function violations(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  // A job card in its frame is paper: it has landmarks of its own.
  const found: Result[] = await page.evaluate(
    async (runOnly) =>
      (
        await window.axe.run(
          { exclude: ['.htMenu'] },
          { resultTypes: ['violations'], iframes: false, ...(runOnly === undefined ? {} : { runOnly: [...runOnly] }) },
        )
      ).violations,
    rules,
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.filter(({ html }) => excused[id]?.test(html) !== true).map(({ html }) => `${id}: ${html.slice(0, 150)}`),
  );
}

/** Controls that no scrolling brings on show, that lie under something else, or whose text is cut off. */
export const outOfReach = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    interface Edges {
      readonly left: number;
      readonly right: number;
      readonly top: number;
      readonly bottom: number;
    }
    const within = (inner: Edges, outer: Edges): boolean =>
      inner.left >= outer.left - 2 &&
      inner.right <= outer.right + 2 &&
      inner.top >= outer.top - 2 &&
      inner.bottom <= outer.bottom + 2;
    const whole: Edges = { left: 0, top: 0, right: window.innerWidth, bottom: window.innerHeight };
    const root = [...document.querySelectorAll('dialog:modal')].at(-1) ?? document.body;
    const named = (element: Element): string =>
      `${element.tagName}.${element.className} ${(element.getAttribute('aria-label') ?? element.textContent ?? '')
        .trim()
        .slice(0, 40)}`;
    const shown = (element: Element): boolean =>
      element.getClientRects().length > 0 &&
      element.closest('.grid-sheet, .htMenu, .unseen, [hidden]') === null &&
      element.checkVisibility({ visibilityProperty: true });

    function reach(element: Element): string | undefined {
      let edges: Edges = element.getBoundingClientRect();
      let scrolled = false;
      for (let around = element.parentElement; around !== null; around = around.parentElement) {
        const { overflowX, overflowY, position } = getComputedStyle(around);
        const box = around.getBoundingClientRect();
        if (!within(edges, box) && (overflowX !== 'visible' || overflowY !== 'visible')) {
          if (!/auto|scroll/.test(overflowX + overflowY)) return `is cut by ${named(around)}`;
          edges = box;
          scrolled = true;
        }
        if (position === 'fixed' || around === root) break;
      }
      if (!within(edges, whole)) return 'stands outside the window';
      if (scrolled) return undefined;
      const hit = document.elementFromPoint((edges.left + edges.right) / 2, (edges.top + edges.bottom) / 2);
      // What goes by itself, or with the next key, may lie over other things until then.
      if (hit === null || hit.closest('label, .notices, .hint, .tour, .htMenu') !== null) return;
      if (element.contains(hit) || hit.contains(element)) return;
      return `lies under ${named(hit)}`;
    }

    const controls = [
      ...root.querySelectorAll('button, input, select, textarea, a[href], summary, [role=tab], [role=menuitem]'),
    ].filter(shown);
    const texts = [
      ...root.querySelectorAll<HTMLElement>('button, th, td, label, h1, h2, h3, h4, p, li, summary, select'),
    ].filter(shown);
    const bodies = [...root.querySelectorAll('.dialog-body, .panel-body')].filter(shown);
    const across = document.documentElement.scrollWidth - window.innerWidth;
    return [
      ...controls.flatMap((control) => {
        const why = reach(control);
        return why === undefined ? [] : [`${named(control)} ${why}`];
      }),
      ...texts
        .filter((element) => {
          if (element.scrollWidth <= element.clientWidth + 1 || element.clientWidth === 0) return false;
          const { overflowX, textOverflow, display } = getComputedStyle(element);
          if (display === 'inline' || /auto|scroll/.test(overflowX)) return false;
          return textOverflow !== 'ellipsis' || element.closest('[title]') === null;
        })
        .map((element) => `${named(element)} has no room for its text`),
      ...bodies
        .filter(({ clientHeight }) => clientHeight < 40)
        .map((body) => `${named(body)} has ${body.clientHeight} px for what is in it`),
      ...(document.documentElement.scrollTop > 0 ? ['the page is scrolled out of its window'] : []),
      ...(across > 0 ? [`the page is ${across} px wider than the window`] : []),
    ];
  });
