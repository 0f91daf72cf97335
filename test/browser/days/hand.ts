import type { Locator, Page } from 'playwright-core';
import { arrivedAt } from '../opened-page.ts';

/**
 * What somebody does at the page, by mouse or by keyboard alone. By mouse every control is clicked where it stands, and
 * only texts are typed; the list of a native choice is the browser's, so its options are set. By keyboard each control
 * is reached as a user reaches it, with F6, Tab and arrows, and its focus has to be seen.
 */

export type By = 'mouse' | 'keyboard';

/** Keys until a control has to be reached: more than any dialog has controls. */
const mostKeys = 250;
/** Parts of the page that F6 goes round, at most. */
const mostAreas = 12;

/** Where the focus is, seen from a control: on it, among its like that arrows go through, in its part of the page. */
const focusFrom = (control: Locator): Promise<'on it' | 'row' | 'list' | 'part' | 'elsewhere'> =>
  control.evaluate((element) => {
    const focused = document.activeElement;
    if (focused === element) return 'on it';
    const group = element.closest('[role=tablist], .menu-list, [role=tree], [data-picture] svg');
    if (group?.contains(focused) === true && element instanceof HTMLElement && element.tabIndex < 0)
      return group.getAttribute('role') === 'tablist' ? 'row' : 'list';
    return element.closest('[data-area], dialog')?.contains(focused) === true ? 'part' : 'elsewhere';
  });

/** What is wrong with how the focus is seen: no frame around it, outside the window, or under something else. */
const unseenFocus = (page: Page): Promise<string | undefined> =>
  page.evaluate(() => {
    const focused = document.activeElement;
    if (!(focused instanceof Element) || focused === document.body || focused instanceof HTMLIFrameElement) return;
    const framed = [focused, ...focused.querySelectorAll(':scope > *'), focused.parentElement].some((element) => {
      if (element === null) return false;
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
      return (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1) || boxShadow !== 'none';
    });
    const { left, right, top, bottom } = focused.getBoundingClientRect();
    const [x, y] = [(left + right) / 2, (top + bottom) / 2];
    const hit = document.elementFromPoint(x, y);
    const seen = hit !== null && (focused.contains(hit) || hit.contains(focused) || hit.closest('label') !== null);
    const name = `${focused.tagName} ${focused.getAttribute('aria-label') ?? focused.textContent?.trim().slice(0, 40)}`;
    if (!framed) return `no frame around the focus on ${name}`;
    if (seen) return;
    const inside = x >= 0 && y >= 0 && x <= window.innerWidth && y <= window.innerHeight;
    // Of what is larger than its place only a part can be seen.
    if (bottom - top > window.innerHeight / 2 || right - left > window.innerWidth) return;
    return `the focus on ${name} is ${inside ? `under ${hit?.className}` : 'outside the window'}`;
  });

export class Hand {
  readonly #page: Page;
  readonly by: By;
  /** What was seen to be wrong with the focus. */
  readonly wrong: string[] = [];

  constructor(page: Page, by: By) {
    this.#page = page;
    this.by = by;
  }

  /** The focus on a control, by keyboard. */
  async reach(control: Locator): Promise<void> {
    await control.waitFor();
    const modal = await control.evaluate((element) => element.closest('dialog:modal, .htMenu') !== null);
    // A part of the page may be entered behind the control: the second time it is sought backwards.
    let entered = 0;
    for (let keys = 0; keys < mostKeys; keys += 1) {
      const from = await focusFrom(control);
      if (from === 'on it') {
        const unseen = await unseenFocus(this.#page);
        if (unseen !== undefined) this.wrong.push(unseen);
        return;
      }
      if (from === 'elsewhere') entered += 1;
      const onward = !modal && entered > mostAreas ? 'Shift+Tab' : 'Tab';
      const keyFrom = { row: 'ArrowRight', list: 'ArrowDown', part: onward, elsewhere: modal ? 'Tab' : 'F6' };
      await this.#page.keyboard.press(keyFrom[from]);
    }
    throw new Error(`no keys lead to ${control.toString()}`);
  }

  /** A button, a tab, a link, a row of a list; with Space what is ticked. */
  async press(control: Locator): Promise<void> {
    if (this.by === 'mouse') return control.click();
    await this.reach(control);
    const ticked = await control.evaluate(
      (element) => element instanceof HTMLInputElement && /^(?:checkbox|radio|file)$/.test(element.type),
    );
    await this.#page.keyboard.press(ticked ? 'Space' : 'Enter');
  }

  /** A command: by mouse in its menu, by keyboard by its key, or in the menu where it has none. */
  async command(menu: string, item: string, key?: string): Promise<void> {
    if (this.by === 'keyboard' && key !== undefined) return this.#page.keyboard.press(key);
    const button = this.#page.locator('.menu-button', { hasText: menu }).first();
    const entry = this.#page.locator('.menu-list [role^=menuitem]', { hasText: item }).first();
    if (this.by === 'mouse') {
      await button.click();
      return entry.click();
    }
    await this.reach(button);
    await this.#page.keyboard.press('ArrowDown');
    await this.#page.locator('.menu-list [role^=menuitem]:focus').waitFor();
    await this.reach(entry);
    await this.#page.keyboard.press('Enter');
  }

  /** A text in place of what a field holds. */
  async write(field: Locator, text: string): Promise<void> {
    if (this.by === 'mouse') await field.click();
    else await this.reach(field);
    await this.#page.keyboard.press('Control+a');
    await this.#page.keyboard.insertText(text);
  }

  /** An option of a choice, by its text. */
  async choose(choice: Locator, option: string): Promise<void> {
    if (this.by === 'mouse') {
      await choice.selectOption({ label: option });
      return;
    }
    await this.reach(choice);
    const chosen = (): Promise<string> =>
      choice.evaluate((element) =>
        element instanceof HTMLSelectElement ? (element.selectedOptions[0]?.text.trim() ?? '') : '',
      );
    if ((await chosen()) === option) return;
    await this.#page.keyboard.type(option.split(' ')[0] ?? option);
    for (let step = 0; (await chosen()) !== option; step += 1) {
      if (step > mostKeys) throw new Error(`no arrow leads to ${option}`);
      await this.#page.keyboard.press('ArrowDown');
    }
  }

  /** A cell, by what is typed into the box of its name. */
  async goTo(cell: string): Promise<void> {
    if (this.by === 'keyboard') await this.#page.keyboard.press('Control+g');
    else await this.#page.locator('#cell-name').click();
    await this.#page.keyboard.press('Control+a');
    await this.#page.keyboard.insertText(cell);
    await this.#page.keyboard.press('Enter');
    if (/^(?:'?[^!']+'?!)?[A-Z]+\d+$/.test(cell)) await arrivedAt(this.#page, cell);
  }

  async enter(cell: string, text: string): Promise<void> {
    await this.goTo(cell);
    await this.#page.keyboard.type(text);
    await this.#page.keyboard.press('Enter');
  }

  /** A sheet, by its tab. */
  async show(sheet: string): Promise<void> {
    const tab = this.#page.locator('.foot').getByRole('tab', { name: sheet, exact: true });
    if (this.by === 'mouse') await tab.click();
    else await this.reach(tab);
    await this.#page.locator('.foot .tab[aria-selected=true]', { hasText: sheet }).waitFor();
  }

  /** Out of a dialog: by its cross, or by Escape. */
  async leave(): Promise<void> {
    const dialogs = this.#page.locator('dialog[open]');
    const dialog = dialogs.last();
    const open = await dialogs.count();
    if (this.by === 'mouse') await dialog.locator('.dialog-head button[aria-label=Close]').click();
    else await this.#page.keyboard.press('Escape');
    await this.#page.waitForFunction((left) => document.querySelectorAll('dialog[open]').length === left, open - 1);
  }

  /** Files, by a control that asks for them. */
  async hand(control: Locator, paths: readonly string[]): Promise<void> {
    const chooser = this.#page.waitForEvent('filechooser');
    await this.press(control);
    await (await chooser).setFiles([...paths]);
  }
}
