import { isFault, isFormula } from '../../formula/values.ts';
import { isWords } from '../../units/quantities.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { headerWithUnit, shownHeader } from '../../sheet/header.ts';
import { type BookColumn, compiledSheets } from '../../workbook/declared.ts';
import { ruledContent } from '../../workbook/column-formulas.ts';
import { demoRecords } from '../../workbook/demo-records.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { borderLines, type OwnLook, ownLookAt } from '../../workbook/own-look.ts';
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
  /** What a screen reader calls the cell: more than its text, which leaves to the eye what its marks and place tell. */
  readonly name: string;
  /** As in the user's file: colours, type. */
  readonly own?: OwnLook | undefined;
}

/** The column of a sheet's records that holds what is to be thought of them. */
export const verdictColumn = (sheet: string): number | undefined =>
  compiledSheets.get(sheet)?.position.get('Verdict' satisfies BeltHeader);

/** Frames around what a formula refers to: colours, each with a line of its own. */
export const referredColours = 4;
const referredClasses = [
  'cell-referred',
  'referred-top',
  'referred-bottom',
  'referred-left',
  'referred-right',
  ...Array.from({ length: referredColours }, (_, number) => `referred-${number + 1}`),
];

const ownClasses = new Set([
  'cell-number',
  'cell-computed',
  'cell-overridden',
  'cell-formula',
  'cell-marked',
  'cell-unusual',
  'cell-fault',
  'cell-key',
  'record-demo',
  'cell-choice',
  'cell-hint',
  'cell-cut',
  ...referredClasses,
  'cell-comment',
  'cell-struck',
  'cell-underlined',
  'verdict-fits',
  'verdict-tight',
  'verdict-fails',
  'verdict-unknown',
  'record-fits',
  'record-tight',
  'record-fails',
  'record-unknown',
]);

function sort(book: Workbook, column: BookColumn, place: CellPlace): string[] {
  if (book.overridden(place)) return ['cell-overridden'];
  if (column.computed) return ['cell-computed'];
  const ruled = ruledContent(column, place.record);
  if (ruled !== undefined) return [book.content(place) === ruled ? 'cell-computed' : 'cell-overridden'];
  return isFormula(book.content(place)) ? ['cell-formula'] : [];
}

/** The verdict of a record; '' where the sheet has none. */
function recordVerdict(book: Workbook, { sheet, record }: CellPlace): string {
  const column = verdictColumn(sheet);
  return column === undefined ? '' : String(book.value({ sheet, record, column }) ?? '');
}

/** The verdict of a record beside its name, which stands in view wherever one has scrolled to. */
function recordMark(verdict: string): string[] {
  const look = verdictLook(verdict);
  return look === undefined ? [] : [look.className.replace('verdict', 'record')];
}

/** Where a cell's value comes from, in a word. */
const origins: Readonly<Record<string, string>> = {
  'cell-overridden': 'computed, overridden by an entry',
  'cell-computed': 'computed',
  'cell-formula': 'entered as a formula',
};

/** A cell in words: header with unit, value, where that comes from, verdict of the record, and what is wrong. */
function spoken(
  { units }: Workbook,
  column: BookColumn,
  { text, says, classes }: Omit<CellLook, 'name'>,
  recordVerdict: string,
): string {
  const origin = classes.flatMap((one) => origins[one] ?? [])[0] ?? (text === '' ? '' : 'entered');
  return [
    `${headerWithUnit(shownHeader(column, units), column.kind, units, column.unit)}: ${text === '' ? 'empty' : text}`,
    origin,
    recordVerdict === '' ? '' : `verdict ${recordVerdict}`,
    says,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

export function cellLook(book: Workbook, column: BookColumn, place: CellPlace, key: boolean): CellLook {
  const value = book.shown(place);
  const text = cellText(book, column, place);
  const classes = sort(book, column, place);
  const why = complaint(book, place);
  const asked = why === undefined ? unusual(book, place) : undefined;
  const verdict = column.computed && isWords(column.kind) ? verdictLook(text) : undefined;
  if (typeof value === 'number' && book.kind(place) !== 'date') classes.push('cell-number');
  const ofRecord = key ? recordVerdict(book, place) : '';
  if (key) classes.push('cell-key', ...recordMark(ofRecord));
  const ofDemo = key && book.state.invented && demoRecords(book.state, place.sheet).has(place.record);
  if (ofDemo) classes.push('record-demo');
  if (column.declared?.choices !== undefined) classes.push('cell-choice');
  if (why !== undefined) classes.push('cell-marked');
  if (asked !== undefined) classes.push('cell-unusual');
  if (isFault(value)) classes.push('cell-fault');
  if (verdict !== undefined) classes.push(verdict.className);
  const own = ownLookAt(book, place);
  if (own?.comment !== undefined) classes.push('cell-comment');
  if (own?.struck === true) classes.push('cell-struck');
  if (own?.underline === true) classes.push('cell-underlined');
  const says = [
    why ?? asked ?? (isFault(value) ? String(value) : ofDemo ? 'from the demo: invented' : ''),
    own?.comment ?? '',
  ]
    .filter((part) => part !== '')
    .join('\n');
  return {
    text: verdict === undefined ? text : `${verdict.mark} ${text}`,
    classes,
    says,
    name: spoken(book, column, { text, says, classes }, ofRecord),
    own,
  };
}

/** A cell that the sheet has no column for any more, until the grid has taken the columns over. */
export const nothingThere: CellLook = { text: '', classes: [], says: '', name: '' };

/** A cell of the row below the records, with what it invites to. */
export const lookBelow = ({ header }: BookColumn, text: string): CellLook => ({
  text,
  classes: ['cell-hint'],
  says: '',
  name: `${header}: ${text === '' ? 'empty' : text}`,
});

/** Cells whose values moved, and the names of the records whose verdicts did. */
export const withNames = (places: readonly CellPlace[], key: number): CellPlace[] => [
  ...places,
  ...places.flatMap((place) =>
    key >= 0 && place.column === verdictColumn(place.sheet) ? [{ ...place, column: key }] : [],
  ),
];

/** Whether black is easier to read on a colour than white. Source: WCAG 2.2, relative luminance, its bound rounded. */
function isLight(color: string): boolean {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => Number.parseInt(color.slice(at, at + 2), 16) / 255);
  const part = (share: number): number => (share <= 0.04 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4);
  return 0.2126 * part(red) + 0.7152 * part(green) + 0.0722 * part(blue) > 0.18;
}

/** Pixels of a screen that a text is moved in with each step. */
const indentWidth = 9;

/** Lines as shadows within the cell, which leave its size alone. A double one is as wide as a thick one. */
const drawnLines = (borders: string): string =>
  (borderLines(borders) ?? [])
    .map(({ side, style, color }) => {
      const width = (style === 'medium' ? 2 : 3) * (side === 'top' || side === 'left' ? 1 : -1);
      const shift = side === 'top' || side === 'bottom' ? `0 ${width}px` : `${width}px 0`;
      return `inset ${shift} 0 0 ${color === '000000' ? 'var(--ink)' : `#${color}`}`;
    })
    .join(', ');

/** The user's colours: on a fill as they are; without one nearer to the page's own, which may be light on dark. */
function wearOwn(
  { style }: HTMLTableCellElement,
  { fill, color, bold, italic, align = '', borders }: OwnLook = {},
): void {
  const [side = '', steps = '0'] = align.split(' ');
  style.textAlign = side;
  style.paddingLeft = side === 'left' && steps !== '0' ? `${indentWidth * Number(steps)}px` : '';
  style.boxShadow = borders === undefined ? '' : drawnLines(borders);
  style.backgroundColor = fill === undefined ? '' : `#${fill}`;
  style.fontWeight = bold === true ? '700' : '';
  style.fontStyle = italic === true ? 'italic' : '';
  if (fill !== undefined) style.color = color === undefined ? (isLight(fill) ? '#000' : '#fff') : `#${color}`;
  else style.color = color === undefined ? '' : `color-mix(in srgb, #${color} 65%, var(--ink))`;
}

/** Puts a look on a table cell, leaving the classes that are the grid's own. */
export function wear(cell: HTMLTableCellElement, look: CellLook): void {
  wearAs(cell, look, [...[...cell.classList].filter((one) => !ownClasses.has(one)), ...look.classes]);
}

/** Puts a look on a table cell that the grid draws: what was selected, or stood there before, leaves no mark. */
export function wearAnew(cell: HTMLTableCellElement, look: CellLook, fixed: boolean): void {
  wearAs(cell, look, ['htNoWrap', ...(fixed ? ['htDimmed'] : []), ...look.classes]);
  if (fixed !== cell.hasAttribute('aria-readonly'))
    if (fixed) cell.setAttribute('aria-readonly', 'true');
    else cell.removeAttribute('aria-readonly');
}

/** Changes only what is another: a browser looks at a cell's style again after each change, and lays it out. */
function wearAs(cell: HTMLTableCellElement, look: CellLook, classes: readonly string[]): void {
  if (cell.childNodes.length !== 1 || !(cell.firstChild instanceof Text)) cell.textContent = look.text;
  else if (cell.firstChild.data !== look.text) cell.firstChild.data = look.text;
  const all = classes.join(' ');
  if (cell.className !== all) cell.className = all;
  if (look.own !== undefined || cell.hasAttribute('style')) wearOwn(cell, look.own);
  if (cell.ariaLabel !== look.name) cell.ariaLabel = look.name;
  if (cell.title !== look.says)
    if (look.says === '') cell.removeAttribute('title');
    else cell.title = look.says;
}
