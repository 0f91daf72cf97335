import type Handsontable from 'handsontable/base';
import { drawHeadersLess, type DrawnHeaders, keepHeaders } from './headers.ts';

/**
 * How the grid package draws its cells, with less to do for the browser.
 *
 * The package (18.1.1) clears each cell before it is drawn and keeps rows where they stand: a scroll by one row puts
 * other contents into every cell, and the browser looks at the style, the layout and the paint of each. Here a row
 * that stays in view takes its place in the table along, and a cell is changed only where what it shows is another.
 */

/** What the package knows of the nodes of one row, in their order. */
interface NodesInRow {
  prependView(before: NodesInRow): NodesInRow;
  setSize(size: number): NodesInRow;
  setOffset(offset: number): NodesInRow;
  start(): void;
  render(): void;
  getCurrentNode(): HTMLTableCellElement | null;
}

interface RowParts {
  obtainOrderView(row: HTMLTableRowElement): NodesInRow;
}

interface DrawnTable extends DrawnHeaders {
  readonly rowsToRender: number;
  renderedRowToSource(row: number): number;
  readonly rowHeaders: RowParts;
  readonly rows: {
    readonly rootNode: HTMLElement;
    render(): void;
    getRenderedNode(row: number): HTMLTableRowElement | null;
  };
  readonly cells: RowParts & { render(): void };
  cellRenderer(row: number, column: number, cell: HTMLTableCellElement): void;
}

interface Table {
  readonly wtTable: { readonly tableRenderer: { readonly renderer: DrawnTable }; isVisible(): boolean };
}

/** The grid and the parts of it that stand still while the rest scrolls. */
interface Tables extends Table {
  readonly wtOverlays: Readonly<Record<string, unknown>>;
}

const frozenParts = ['topOverlay', 'inlineStartOverlay', 'topInlineStartCornerOverlay'] as const;

function tablesOf(hot: Handsontable): DrawnTable[] {
  // The package's types leave out what it draws with.
  const grid = hot.view._wt as unknown as Tables;
  const frozen = frozenParts.flatMap((part) => {
    const { clone } = (grid.wtOverlays[part] ?? {}) as { readonly clone?: Table | null };
    // They are drawn with the grid alone, once that is to be seen. To ask the browser makes it look at all styles.
    if (clone) clone.wtTable.isVisible = () => true;
    return clone ?? [];
  });
  return [grid, ...frozen].map(({ wtTable }) => wtTable.tableRenderer.renderer);
}

const set = (cell: HTMLTableCellElement, name: string, value: string): void => {
  if (cell.getAttribute(name) !== value) cell.setAttribute(name, value);
};

/** Draws every cell over what it showed before; its renderer sets its classes, its text and what it is called. */
function drawCells(table: DrawnTable): void {
  const { rowsToRender, columnsToRender, rows, rowHeaders, cells } = table;
  const columns = Array.from({ length: columnsToRender }, (_, column) => table.renderedColumnToSource(column));
  for (let at = 0; at < rowsToRender; at += 1) {
    const row = rows.getRenderedNode(at);
    if (row === null) continue;
    const nodes = cells.obtainOrderView(row);
    nodes.prependView(rowHeaders.obtainOrderView(row)).setSize(columnsToRender).setOffset(0).start();
    for (const column of columns) {
      nodes.render();
      const cell = nodes.getCurrentNode();
      if (cell === null) continue;
      table.cellRenderer(table.renderedRowToSource(at), column, cell);
      set(cell, 'role', 'gridcell');
      set(cell, 'tabindex', '-1');
      set(cell, 'aria-colindex', String(column + table.rowHeadersCount + 1));
      // Marks of the selection are put on anew after the drawing.
      cell.removeAttribute('aria-selected');
    }
  }
}

/** Lets rows that stay in view take their nodes along: of as many rows, those that have left move to the other end. */
function moveRows(rows: HTMLElement, down: number): void {
  const count = rows.childElementCount;
  if (down === 0 || Math.abs(down) >= count) return;
  const leaving = [...rows.children].slice(...(down > 0 ? [0, down] : [count + down]));
  // A node that is moved loses the keys.
  if (leaving.some((row) => row.contains(document.activeElement))) return;
  if (down > 0) rows.append(...leaving);
  else rows.prepend(...leaving);
}

function drawTableLess(table: DrawnTable): void {
  const { rows, cells } = table;
  const drawRows = rows.render.bind(rows);
  let shown = { first: 0, count: 0 };
  rows.render = () => {
    const now = { first: table.renderedRowToSource(0), count: table.rowsToRender };
    if (now.count === shown.count && rows.rootNode.childElementCount === now.count)
      moveRows(rows.rootNode, now.first - shown.first);
    shown = now;
    drawRows();
  };
  cells.render = () => drawCells(table);
}

export function drawLess(hot: Handsontable): void {
  keepHeaders(hot);
  const known = new WeakSet<DrawnTable>();
  // Parts of the grid come with the columns that are frozen.
  hot.addHook('beforeViewRender', () => {
    for (const table of tablesOf(hot))
      if (!known.has(table)) {
        known.add(table);
        drawTableLess(table);
        drawHeadersLess(table, () => hot.forceFullRender);
      }
  });
}
