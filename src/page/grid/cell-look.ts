import { isFault, isFormula } from '../../formula/values.ts';
import { isWords } from '../../units/quantities.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { type BookColumn, compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { cellText } from '../cell-text.ts';
import { unusual } from '../../records/unusual-inputs.ts';
import { complaint } from '../../records/typed-entry.ts';
import { verdictLook } from '../verdict-look.ts';

/** How a cell looks: its text, what sort of cell it is, and why it is marked. */
export interface CellLook {
  readonly text: string;
  readonly classes: readonly string[];
  /** Shown when the pointer rests on the cell; '' for nothing. */
  readonly says: string;
}

/** The column of a sheet's records that holds what is to be thought of them. */
export const verdictColumn = (sheet: string): number | undefined =>
  compiledSheets.get(sheet)?.position.get('Verdict' satisfies BeltHeader);

const ownClasses = [
  'cell-number',
  'cell-computed',
  'cell-overridden',
  'cell-formula',
  'cell-marked',
  'cell-unusual',
  'cell-fault',
  'cell-key',
  'cell-choice',
  'cell-hint',
  'cell-cut',
  'verdict-fits',
  'verdict-tight',
  'verdict-fails',
  'verdict-unknown',
  'record-fits',
  'record-tight',
  'record-fails',
  'record-unknown',
];

function sort(book: Workbook, column: BookColumn, place: CellPlace): string[] {
  if (book.overridden(place)) return ['cell-overridden'];
  if (column.computed) return ['cell-computed'];
  return isFormula(book.content(place)) ? ['cell-formula'] : [];
}

/** The verdict of a record beside its name, which stands in view wherever one has scrolled to. */
function recordMark(book: Workbook, { sheet, record }: CellPlace): string[] {
  const column = verdictColumn(sheet);
  const look = column === undefined ? undefined : verdictLook(String(book.value({ sheet, record, column })));
  return look === undefined ? [] : [look.className.replace('verdict', 'record')];
}

export function cellLook(book: Workbook, column: BookColumn, place: CellPlace, key: boolean): CellLook {
  const value = book.shown(place);
  const text = cellText(book, column, place);
  const classes = sort(book, column, place);
  const why = complaint(book, place);
  const asked = why === undefined ? unusual(book, place) : undefined;
  const verdict = column.computed && isWords(column.kind) ? verdictLook(text) : undefined;
  if (typeof value === 'number' && book.kind(place) !== 'date') classes.push('cell-number');
  if (key) classes.push('cell-key', ...recordMark(book, place));
  if (column.declared?.choices !== undefined) classes.push('cell-choice');
  if (why !== undefined) classes.push('cell-marked');
  if (asked !== undefined) classes.push('cell-unusual');
  if (isFault(value)) classes.push('cell-fault');
  if (verdict !== undefined) classes.push(verdict.className);
  return {
    text: verdict === undefined ? text : `${verdict.mark} ${text}`,
    classes,
    says: why ?? asked ?? (isFault(value) ? String(value) : ''),
  };
}

/** Cells whose values moved, and the names of the records whose verdicts did. */
export const withNames = (places: readonly CellPlace[], key: number): CellPlace[] => [
  ...places,
  ...places.flatMap((place) =>
    key >= 0 && place.column === verdictColumn(place.sheet) ? [{ ...place, column: key }] : [],
  ),
];

/** Puts a look on a table cell, leaving the classes that are the grid's own. */
export function wear(cell: HTMLTableCellElement, look: CellLook): void {
  if (cell.childNodes.length === 1 && cell.firstChild instanceof Text) cell.firstChild.data = look.text;
  else cell.textContent = look.text;
  cell.classList.remove(...ownClasses);
  cell.classList.add(...look.classes);
  if (look.says === '') cell.removeAttribute('title');
  else cell.title = look.says;
}
