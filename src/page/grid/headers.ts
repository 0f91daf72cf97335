import type Handsontable from 'handsontable/base';
import type { UnitSystem } from '../../units/quantities.ts';
import { commentIn } from '../../workbook/book-look.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { layoutOf } from '../column-view.ts';
import { columnUnit, shownHeader } from '../../sheet/header.ts';
import { spelt } from '../../units/spelling.ts';
import { columnLetters } from '../../formula/address.ts';

/** Column headers: the letter that formulas use, the unit, and the name below. */

function line(className: string, text: string): HTMLSpanElement {
  const span = document.createElement('span');
  span.className = className;
  span.textContent = text;
  return span;
}

/** What a reader of the header is told: name, unit, whether it is worked out, and what it means. */
function spoken(column: BookColumn, units: UnitSystem): string {
  const unit = columnUnit(column, units);
  if (column.declared === undefined)
    return `${column.header}${unit === '' ? '' : ` (${unit})`}: ${column.doc.replace(/\.$/u, '')}.`;
  const source = column.declared.source === undefined ? '' : ` Source: ${column.declared.source}.`;
  return spelt(
    `${column.header}${unit === '' ? '' : ` (${unit})`}${column.computed ? ', calculated by the sheet' : ''}: ` +
      `${column.doc}.${source}`,
    units,
  );
}

/** What stands in a header. */
interface Shown {
  readonly column: BookColumn;
  readonly position: number;
  readonly units: UnitSystem;
  readonly comment: string | undefined;
}

const shownIn = new WeakMap<Element, Shown>();

/** The header of a column of a sheet, with what somebody wrote beside it in the user's file. */
export function fillHeader(
  cell: HTMLTableCellElement,
  column: BookColumn,
  position: number,
  book: Workbook,
  sheet: string,
): void {
  const { units } = book;
  const comment = commentIn(layoutOf(book, sheet), column.header);
  const label = cell.querySelector('.colHeader');
  if (label === null) return;
  cell.classList.toggle('header-comment', comment !== undefined);
  cell.classList.toggle('header-own', column.own);
  const shown = shownIn.get(label);
  const stands = label.firstElementChild !== null && shown?.column === column && shown.position === position;
  if (stands && shown.units === units && shown.comment === comment) return;
  shownIn.set(label, { column, position, units, comment });
  const top = line('header-top', '');
  top.append(line('header-letter', columnLetters(position)), line('header-unit', columnUnit(column, units)));
  label.replaceChildren(
    top,
    line(
      column.computed || column.formula !== undefined ? 'header-name header-computed' : 'header-name',
      shownHeader(column, units),
    ),
  );
  cell.title = [spoken(column, units), comment ?? ''].filter((part) => part !== '').join('\n');
}

/**
 * Keeps the grid package from writing headers anew with every drawing: of columns it would put its own text in place
 * of what `fillHeader` put there, and of rows the number that stands there.
 */
export function keepHeaders(hot: Handsontable): void {
  const { view } = hot;
  const [column, row] = [view.appendColHeader.bind(view), view.appendRowHeader.bind(view)];
  view.appendColHeader = (at, cell, ...rest) => {
    if (at < 0 || cell.querySelector('.relative > .colHeader') === null) column(at, cell, ...rest);
    else hot.runHooks('afterGetColHeader', at, cell, 0);
  };
  view.appendRowHeader = (at, cell) => {
    if (at < 0 || cell.querySelector('.relative > .rowHeader')?.textContent !== String(hot.getRowHeader(at)))
      row(at, cell);
    else hot.runHooks('afterGetRowHeader', at, cell);
  };
}

/** Of what draws a table, as much as belongs to the headers of its columns. */
export interface DrawnHeaders {
  readonly columnsToRender: number;
  readonly rowHeadersCount: number;
  renderedColumnToSource(column: number): number;
  readonly columnHeaderRows: { readonly rootNode: HTMLElement };
  readonly columnHeaders: { render(): void };
}

/**
 * Draws the headers of columns only where the whole grid is to be drawn anew, or where other columns have come into
 * view: the package draws them whenever rows do, and the browser looks at the style of each. Else they lose no more
 * than the marks of the selection, which are put on anew after the drawing.
 */
export function drawHeadersLess(table: DrawnHeaders, isAllAnew: () => boolean): void {
  const { columnHeaders, columnHeaderRows } = table;
  const drawAll = columnHeaders.render.bind(columnHeaders);
  const headers = (): NodeListOf<HTMLElement> => columnHeaderRows.rootNode.querySelectorAll('th');
  let drawn: { readonly columns: string; readonly classes: readonly string[] } | undefined;
  columnHeaders.render = () => {
    const columns = [table.renderedColumnToSource(0), table.columnsToRender, table.rowHeadersCount].join(' ');
    const all = headers();
    if (isAllAnew() || drawn?.columns !== columns || drawn.classes.length !== all.length) {
      drawAll();
      drawn = { columns, classes: Array.from(headers(), ({ className }) => className) };
      return;
    }
    for (const [at, header] of all.entries()) {
      const unmarked = drawn.classes[at] ?? '';
      if (header.className !== unmarked) header.className = unmarked;
      header.removeAttribute('aria-selected');
    }
  };
}
