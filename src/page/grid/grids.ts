import type { BookChange } from '../../workbook/place.ts';
import { act, actionName, isPossible } from '../actions/action.ts';
import { actions } from '../actions/index.ts';
import type { Desk } from '../desk.ts';
import type { FirstLook } from '../first-look.ts';
import { firstLookAt } from '../first-texts.ts';
import { registerEntryEditors } from './editors.ts';
import type { MenuItem } from './menu.ts';
import { registerGridParts } from './plugins.ts';
import { SheetGrid } from './sheet-grid.ts';
import { keepValueListStill } from './value-list.ts';

/** The grids of the book's sheets: made when first shown, kept with their sorting, filters and scrolling. */
export class Grids {
  readonly element: HTMLElement;
  readonly #desk: Desk;
  readonly #grids = new Map<string, SheetGrid>();
  readonly #menu: readonly MenuItem[];
  #scheme: 'light' | 'dark' = 'light';

  constructor(desk: Desk) {
    registerGridParts();
    registerEntryEditors();
    keepValueListStill();
    this.#desk = desk;
    this.element = document.createElement('div');
    this.element.className = 'grids';
    this.element.dataset['area'] = 'grid';
    this.element.addEventListener('enter-grid', () => desk.grid?.focus());
    document.addEventListener('focusin', ({ target }) => {
      const elsewhere =
        target instanceof Element && target.closest('[data-area], dialog') !== null && !this.element.contains(target);
      if (elsewhere) desk.grid?.leave();
    });
    this.#menu = actions
      .filter(({ onCells, onHeaders }) => onCells === true || onHeaders === true)
      .map((item) => ({
        id: item.id,
        label: () => actionName(item, desk),
        key: item.key,
        possible: () => isPossible(item, desk),
        run: () => act(item, desk),
        group: item.group,
        onCells: item.onCells === true,
        onHeaders: item.onHeaders === true,
      }));
    desk.book.listen((change) => this.#follow(change));
    desk.firstLook = () => this.#firstLook();
    this.#keepInView();
  }

  #firstLook(): FirstLook | undefined {
    const { book } = this.#desk;
    const grid = this.#grids.get(book.state.sheets[0]?.name ?? '');
    // The page opens without filters.
    if (grid === undefined || (grid.rowView?.filters() ?? []).length > 0) return undefined;
    return firstLookAt(book, grid.shownRecords());
  }

  /** A panel that opens or grows must not hide the selected cell. */
  #keepInView(): void {
    let width = 0;
    new ResizeObserver(() => {
      const { clientWidth } = this.element;
      // The grid follows its element's size by itself, a moment later.
      if (clientWidth < width) requestAnimationFrame(() => setTimeout(() => this.#desk.grid?.reveal()));
      width = clientWidth;
    }).observe(this.element);
  }

  #follow(change: BookChange): void {
    const sheets = new Set(this.#desk.book.state.sheets.map(({ name }) => name));
    for (const [name, grid] of this.#grids) {
      if (sheets.has(name)) grid.refresh(change);
      else {
        grid.destroy();
        if (this.#desk.grid === grid) this.#desk.grid = undefined;
        this.#grids.delete(name);
      }
    }
    if (!sheets.has(this.#desk.sheet)) this.#desk.show(this.#desk.book.state.sheets[0]?.name ?? '');
  }

  /**
   * The field outside the grids that has the keys, or the tab that arrow keys have come to: a sheet that comes on show
   * a moment later leaves them there. After a click on a tab they are the sheet's.
   */
  #keptFocus(): HTMLElement | undefined {
    const { activeElement: field } = document;
    if (!(field instanceof HTMLElement) || this.element.contains(field)) return undefined;
    const isTab = field.matches('.tabs [role=tab]:focus-visible') && field.textContent === this.#desk.sheet;
    return isTab || field.matches('input, select, textarea') ? field : undefined;
  }

  /** Puts the desk's sheet on show. */
  show(scheme: 'light' | 'dark'): void {
    const { sheet } = this.#desk;
    let grid = this.#grids.get(sheet);
    const fresh = grid === undefined;
    if (grid === undefined) {
      for (const other of this.#grids.values()) if (other.visible) other.show(false);
      this.#grids.set(sheet, (grid = new SheetGrid(this.#desk, sheet, this.element, this.#menu)));
      grid.scheme(scheme);
    }
    if (this.#scheme !== scheme) {
      this.#scheme = scheme;
      for (const each of this.#grids.values()) each.scheme(scheme);
    }
    grid.arrange();
    if (this.#desk.grid === grid) return;
    this.#desk.grid = grid;
    // A grid that takes over changed rows selects anew what was selected in it before.
    const { place } = this.#desk.selection;
    for (const other of this.#grids.values()) if (other !== grid && other.visible) other.show(false);
    const field = this.#keptFocus();
    if (!fresh) grid.show(true);
    queueMicrotask(() => {
      grid.goTo(place, field === undefined);
      if (field === undefined) return;
      grid.leave();
      field.focus();
    });
  }
}
