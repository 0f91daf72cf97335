import type { CellPlace } from '../../workbook/place.ts';
import { formatAlong } from '../../workbook/state-changes.ts';
import type { Desk } from '../desk.ts';
import { changeable, enter, put } from '../editing.ts';
import { moved } from '../grid/filling.ts';
import { contentField, replaceText, typedPlace } from '../typing-field.ts';
import { actionList } from './action.ts';
import { records, selectedCells } from './selected-cells.ts';

/** Cells filled from their neighbours, or with the day. */

/** Copies cells into others; formulas move along. */
function copyTo(
  desk: Desk,
  pairs: readonly { readonly from: CellPlace; readonly to: CellPlace }[],
  label: string,
): void {
  put(
    desk,
    pairs
      .filter(({ to }) => changeable(to, desk.book.state))
      .map(({ from, to }) => ({
        ...to,
        content: moved(desk.book.content(from), to.record - from.record, to.column - from.column),
        format: formatAlong(desk.book.state, from, to),
      })),
    label,
  );
}

export const fillActions = actionList([
  {
    id: 'fill-down',
    group: 'Edit',
    key: 'Ctrl+D',
    doc: 'copies the first selected row into the selected rows below it; formulas follow',
    onCells: true,
    name: 'Fill down',
    possible: (desk) => records(desk).length > 1,
    run(desk) {
      const [first = 0] = records(desk);
      const below = selectedCells(desk).filter(({ record }) => record !== first);
      copyTo(
        desk,
        below.map((to) => ({ from: { ...to, record: first }, to })),
        'fill down',
      );
    },
  },
  {
    id: 'fill-right',
    group: 'Edit',
    key: 'Ctrl+R',
    doc: 'copies the first selected column into the selected columns to its right; formulas follow',
    onCells: true,
    name: 'Fill right',
    possible: (desk) => desk.selection.columns.length > 1 && records(desk).length > 0,
    run(desk) {
      const [first = 0] = desk.selection.columns;
      const beside = selectedCells(desk).filter(({ column }) => column !== first);
      copyTo(
        desk,
        beside.map((to) => ({ from: { ...to, column: first }, to })),
        'fill right',
      );
    },
  },
  {
    id: 'today',
    group: 'Edit',
    key: 'Ctrl+;',
    doc: "enters today's date into the selected cells, or into the text that is being typed",
    name: "Enter today's date",
    run(desk) {
      // Canadian English writes days as ISO 8601 does; the day is the user's own, not that of Greenwich.
      const text = new Date().toLocaleDateString('en-CA');
      const field = contentField(document.activeElement);
      if (field === undefined || typedPlace(desk, field) === undefined) {
        enter(
          desk,
          selectedCells(desk).map((place) => ({ ...place, text })),
        );
        return;
      }
      replaceText(field, text, field.selectionStart ?? 0, field.selectionEnd ?? 0);
    },
  },
]);
