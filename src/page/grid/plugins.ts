import { AutocompleteEditor, registerEditor, TextEditor } from 'handsontable/editors';
import { CheckboxCellType, registerCellType, TextCellType } from 'handsontable/cellTypes';
import {
  AutoColumnSize,
  Autofill,
  ColumnSorting,
  ContextMenu,
  CopyPaste,
  DropdownMenu,
  Filters,
  HiddenColumns,
  HiddenRows,
  ManualColumnResize,
  registerPlugin,
} from 'handsontable/plugins';

/** The parts of the grid that the page uses; what is not named here stays out of the bundle. */
export function registerGridParts(): void {
  for (const type of [TextCellType, CheckboxCellType]) registerCellType(type);
  // By this name sorting and filters compare as numbers. The grid's own type would wait for a validator, and it is the
  // book that judges.
  registerCellType('numeric', { ...TextCellType, CELL_TYPE: 'numeric' });
  registerEditor(TextEditor);
  registerEditor(AutocompleteEditor);
  for (const plugin of [
    AutoColumnSize,
    Autofill,
    ColumnSorting,
    ContextMenu,
    CopyPaste,
    DropdownMenu,
    Filters,
    HiddenColumns,
    HiddenRows,
    ManualColumnResize,
  ]) {
    registerPlugin(plugin);
  }
}
