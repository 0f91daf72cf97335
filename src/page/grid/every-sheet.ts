import type { GridSettings } from 'handsontable/base';
import { gridLicenceKey } from './grid-licence.ts';
import { withoutMarkup } from './markup.ts';
import { gridTheme } from './theme.ts';

export const sorting = { headerAction: false, indicator: true, sortEmptyCells: false };

/** Settings that the grids of all sheets have alike: rows and columns come and go through the book alone. */
export const everySheet = (): GridSettings => ({
  theme: gridTheme,
  colorScheme: 'light',
  licenseKey: gridLicenceKey,
  sanitizer: withoutMarkup,
  width: '100%',
  height: '100%',
  rowHeaderWidth: 52,
  columnHeaderHeight: 56,
  manualColumnResize: true,
  columnSorting: sorting,
  // What is searched for in a column's list of values is what the filter is to leave.
  filters: { searchMode: 'apply' },
  copyPaste: { rowsLimit: Infinity, columnsLimit: Infinity },
  fillHandle: { autoInsertRow: false },
  selectionMode: 'range',
  outsideClickDeselects: false,
  allowInsertRow: false,
  allowRemoveRow: false,
  allowInsertColumn: false,
  allowRemoveColumn: false,
  wordWrap: false,
  autoWrapRow: false,
  autoWrapCol: false,
});
