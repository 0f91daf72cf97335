import type { GridSettings, HotInstance } from 'handsontable/base';
import type { MenuItemConfig, PredefinedMenuItemKey } from 'handsontable/plugins/contextMenu';
import { keepInWindow } from './menu-place.ts';

/** The grid's two menus: on cells, made of the page's actions; on headers, for sorting and filtering the view. */
export interface MenuItem {
  readonly id: string;
  readonly label: () => string;
  readonly key: string | undefined;
  readonly possible: () => boolean;
  readonly run: () => void;
  /** A line is drawn above the first item of another group. */
  readonly group: string;
  readonly onCells: boolean;
  readonly onHeaders: boolean;
}

type Items = Record<string, MenuItemConfig | PredefinedMenuItemKey>;

const entry = (item: MenuItem): MenuItemConfig =>
  ({ name: () => item.label(), disabled: () => !item.possible(), callback: () => item.run() }) as MenuItemConfig;

function rowMenu(menu: readonly MenuItem[]): { items: Items } {
  const items: Items = { copy: 'copy', cut: 'cut' };
  let group = '';
  for (const item of menu) {
    if (item.group !== group) items[`line above ${item.group}`] = '---------' as PredefinedMenuItemKey;
    group = item.group;
    items[item.id] = entry(item);
  }
  return { items };
}

function sortItem(name: string, order: 'asc' | 'desc' | undefined): MenuItemConfig {
  return {
    name,
    callback(this: HotInstance, _key: string, selection: readonly { readonly start: { readonly col: number } }[]) {
      const column = selection[0]?.start.col;
      const sorting = this.getPlugin('columnSorting');
      if (order === undefined || column === undefined) sorting.clearSort();
      else sorting.sort({ column, sortOrder: order });
    },
  } as MenuItemConfig;
}

const headerMenu = (menu: readonly MenuItem[]): { items: Items } => ({
  items: {
    ascending: sortItem('Sort: smallest or A first', 'asc'),
    descending: sortItem('Sort: largest or Z first', 'desc'),
    unsorted: sortItem('Sort: order of the book', undefined),
    'line above columns': '---------' as PredefinedMenuItemKey,
    ...Object.fromEntries(menu.map((item) => [item.id, entry(item)])),
    line: '---------' as PredefinedMenuItemKey,
    filter_by_condition: 'filter_by_condition' as PredefinedMenuItemKey,
    filter_operators: 'filter_operators' as PredefinedMenuItemKey,
    filter_by_condition2: 'filter_by_condition2' as PredefinedMenuItemKey,
    filter_by_value: 'filter_by_value' as PredefinedMenuItemKey,
    filter_action_bar: 'filter_action_bar' as PredefinedMenuItemKey,
  },
});

/** The package makes a menu as wide as the names that its items have then, and takes none that is made up later. */
const named =
  (menu: readonly MenuItem[]) =>
  (items: readonly (MenuItemConfig | PredefinedMenuItemKey)[]): void => {
    for (const item of items) {
      const own = typeof item === 'string' ? undefined : menu.find(({ id }) => id === item.key);
      if (own !== undefined && typeof item !== 'string') item.name = own.label();
    }
  };

/** Both menus, each brought whole into the window when it is shown. */
export const menus = (menu: readonly MenuItem[]): GridSettings => ({
  beforeContextMenuSetItems: named(menu),
  contextMenu: rowMenu(menu.filter(({ onCells }) => onCells)),
  dropdownMenu: headerMenu(menu.filter(({ onHeaders }) => onHeaders)),
  afterContextMenuShow: (shown) => keepInWindow(shown.menu?.container),
  afterDropdownMenuShow: (shown) => keepInWindow(shown.menu?.container),
});
