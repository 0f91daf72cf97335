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
