import type Handsontable from 'handsontable/base';

/**
 * Shows no column by its right half beside the frozen ones once a cell was gone to: of a number there one would read
 * its last digits and take them for the number.
 */
export function alignLeftEdge(hot: Handsontable, selected: number): void {
  const partial = hot.getFirstPartiallyVisibleColumn();
  const whole = hot.getFirstFullyVisibleColumn();
  if (partial === null || whole === null || partial === whole || selected < whole) return;
  hot.scrollViewportTo({ col: whole, horizontalSnap: 'start' });
}

export function bringIntoView(hot: Handsontable, row: number | null, col: number): void {
  if (row !== null) hot.scrollViewportTo({ row, col }, () => alignLeftEdge(hot, col));
}
