import { type Content, isFormula } from '../../formula/values.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { Habits } from '../../records/loose-entry.ts';
import { counted } from '../../units/phrases.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { type CellMove, moveEdits } from '../../workbook/moved-contents.ts';
import { type CellEdit, declaredWidth, formatAlong } from '../../workbook/state-changes.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { copiedText, percentIn } from '../cell-text.ts';
import { columnsOnShow } from '../column-view.ts';
import type { Desk } from '../desk.ts';
import { changeable, enter, growing, put, type TextEdit } from '../editing.ts';
import type { Block } from './block.ts';
import { moved } from './filling.ts';
import { takeHeaders } from './pasted-headers.ts';

/** Copying, cutting and pasting as changes of the book: formulas move along, values keep every digit. */

/** What was copied last inside this page, with the text that the clipboard then held. */
interface Copied {
  readonly text: string;
  readonly block: Block;
  readonly contents: readonly (readonly Content[])[];
  /** It goes where it is pasted instead of being there twice. */
  readonly cut: boolean;
}

let copied: Copied | undefined;

/** What a cell gives away: its content, or the value when the sheet works it out. */
function given(book: Workbook, sheet: string, record: number, column: number): Content {
  const place = { sheet, record, column };
  const content = book.content(place);
  if (content !== null) return content;
  const value = book.shown(place);
  return typeof value === 'object' ? null : value;
}

/** The rows of text for the clipboard; remembers the contents for pasting in the page. */
export function copyBlock(book: Workbook, block: Block, cut = false): string[][] {
  const { sheet, records, columns } = block;
  const rows = records.map((record) =>
    columns.map((column) => {
      const place = { sheet, record, column };
      return copiedText(book.shown(place), book.kind(place), percentIn(book, place));
    }),
  );
  copied = {
    text: asText(rows),
    block,
    contents: records.map((record) => columns.map((column) => given(book, sheet, record, column))),
    cut,
  };
  return rows;
}

/** Whether a cell waits to be moved to where the next paste puts it. */
export function isCut({ sheet, record, column }: CellPlace): boolean {
  return (
    copied?.cut === true &&
    copied.block.sheet === sheet &&
    copied.block.columns.includes(column) &&
    copied.block.records.includes(record)
  );
}

/** Leaves cells where they are that were to be moved; whether there were any. */
export function leaveCut(): boolean {
  if (copied?.cut !== true) return false;
  copied = undefined;
  return true;
}

const asText = (rows: readonly (readonly string[])[]): string => rows.map((row) => row.join('\t')).join('\n');

/** Cells of a pasted block that the sheet works out are left alone when the block covers inputs as well. */
function sparing(desk: Desk, sheet: string, edits: readonly TextEdit[]): TextEdit[] {
  const columns = desk.book.columns(sheet);
  const computed = (column: number): boolean => columns[column]?.computed === true;
  if (edits.every(({ column }) => computed(column))) return [...edits];
  const spared = edits.filter(({ column }) => computed(column)).length;
  if (spared > 0)
    desk.say(`${spared} cells in computed columns were not overwritten. To override one, paste into it alone.`);
  return edits.filter(({ column }) => !computed(column));
}

/** Where a block goes: what is seen below and beside its first cell; undefined where the sheet has no such cell. */
interface Landing {
  readonly sheet: string;
  readonly recordAt: (down: number) => number | undefined;
  readonly columnAt: (right: number) => number | undefined;
}

const placeAt = ({ sheet, recordAt, columnAt }: Landing, down: number, right: number): CellPlace | undefined => {
  const [record, column] = [recordAt(down), columnAt(right)];
  return record === undefined || column === undefined ? undefined : { sheet, record, column };
};

/** A sheet as the grid shows it: sorted, filtered, with a row below for a new record, and with columns hidden. */
export interface SeenSheet {
  /** Rows on show. */
  readonly rows: () => number;
  readonly recordOf: (row: number) => number;
  readonly rowOf: (record: number) => number | null;
  /** Columns on show; those that are hidden stand behind them. */
  readonly columns: () => number;
  readonly columnOf: (column: number) => number;
  readonly columnAt: (position: number) => number;
}

/**
 * Beside and below a block's first cell; beyond the last row and column, new ones are added at the end.
 *
 * A block goes into columns on show, never unseen into hidden ones; whole rows alone are whole records and go into all.
 */
function landingOf(book: Workbook, { sheet, records, columns }: Block, seen: SeenSheet, whole: boolean): Landing {
  const top = seen.rowOf(records[0] ?? 0) ?? 0;
  const left = seen.columnAt(columns[0] ?? 0);
  const { length } = book.sheet(sheet).rows;
  const width = book.columns(sheet).length;
  const grows = growing(sheet);
  const shown = seen.columns();
  return {
    sheet,
    recordAt: (down) =>
      top + down < seen.rows()
        ? seen.recordOf(top + down)
        : grows
          ? length + (compiledSheets.has(sheet) ? 1 : 0) + top + down - seen.rows()
          : undefined,
    columnAt(right) {
      const at = left + right;
      if (at < shown || (whole && at < width)) return seen.columnOf(at);
      return grows && shown === width ? at : undefined;
    },
  };
}

/** Says which part of a block found no place, and why. */
function tellLeftOut(desk: Desk, sheet: string, beyond: number, closed: number): void {
  const { book } = desk;
  const columns = book.columns(sheet);
  const hidden = columnsOnShow(book, sheet).length < columns.length;
  const texts = [
    beyond === 0
      ? ''
      : hidden && growing(sheet)
        ? `${counted(beyond, 'cell')} did not fit: beyond the last column on show, this view hides others. Show all ` +
          'columns and paste again.'
        : `${counted(beyond, 'cell')} did not fit: ${sheet} ends at column ${columnLetters(columns.length - 1)} and ` +
          `row ${sheetRow(book.sheet(sheet).rows.length - 1)}.`,
    closed === 0
      ? ''
      : `${closed === 1 ? '1 cell was' : `${closed} cells were`} left alone: of ${sheet} only ` +
        `${columns
          .filter((_, column) => changeable({ sheet, record: 0, column }, book.state))
          .map(({ header }) => header)
          .join(' and ')} ` +
        'are yours to change.',
  ];
  const text = texts.filter((part) => part !== '').join(' ');
  if (text !== '') desk.say(text, 'problem');
}

/** Moves what was cut: contents go as they are, and what refers to the cells follows them. */
function moveBlock(desk: Desk, { sheet, records, columns }: Block, landing: Landing): void {
  const { book } = desk;
  const computed = (place: CellPlace): boolean => book.columnAt(place)?.computed === true;
  const pairs: CellMove[] = [];
  let [beyond, closed] = [0, 0];
  records.forEach((record, down) =>
    columns.forEach((column, right) => {
      const [from, to] = [{ sheet, record, column }, placeAt(landing, down, right)];
      if (to === undefined) beyond += 1;
      else if (!changeable(from, book.state) || !changeable(to, book.state)) closed += 1;
      else pairs.push({ from, to });
    }),
  );
  const override = pairs.every(({ to }) => computed(to));
  const moves = pairs.filter(({ from, to }) => {
    // What the sheet works out is worked out anew where its row goes, and is named there by what named it here.
    const worked = computed(from) && book.content(from) === null;
    return worked ? from.sheet === to.sheet && from.column === to.column : override || !computed(to);
  });
  const spared = pairs.length - moves.length;
  if (moves.length > 0) put(desk, moveEdits(book.state, moves), 'move');
  if (spared > 0)
    desk.say(`${counted(spared, 'cell')} stayed: the sheet works them out, so there is nothing to move or to replace.`);
  tellLeftOut(desk, landing.sheet, beyond, closed);
}

/** The size of what a paste fills: the selection when the copied block goes into it a whole number of times. */
function filled(size: number, selected: number): number {
  return selected > size && selected % size === 0 ? selected : size;
}

/** What was copied in this page, as typed into a cell: a text stays one there, also where it looks like a number. */
const copiedEntry = (
  place: CellPlace,
  text: string,
  content: Content,
): { readonly text: string; readonly habits: Habits } => ({
  text: typeof content === 'string' && place.column >= declaredWidth(place.sheet) ? `'${content}` : text,
  // This page writes decimal points, whatever the book's habits are.
  habits: { decimal: 'point' },
});

/**
 * Pastes rows of text over a block. What was copied in this page comes back with its formulas, what was cut goes there.
 */
export function pasteBlock(desk: Desk, target: Block, rows: readonly (readonly string[])[], seen: SeenSheet): void {
  const { sheet } = target;
  const own = copied !== undefined && copied.text === asText(rows) ? copied : undefined;
  if (own === undefined && takeHeaders(desk, sheet, rows)) return;
  const whole = own?.block.columns.length === desk.book.columns(sheet).length;
  const landing = landingOf(desk.book, target, seen, whole);
  if (own?.cut === true) {
    copied = undefined;
    moveBlock(desk, own.block, landing);
    return;
  }
  const height = filled(rows.length, target.records.length);
  const width = rows.reduce((most, { length }) => Math.max(most, length), 0);
  const wide = filled(width, target.columns.length);
  const texts: TextEdit[] = [];
  const contents: CellEdit[] = [];
  let [beyond, closed] = [0, 0];
  for (let down = 0; down < height; down += 1) {
    for (let right = 0; right < wide; right += 1) {
      const text = rows[down % rows.length]?.[right % width];
      if (text === undefined) continue;
      const place = placeAt(landing, down, right);
      if (place === undefined) beyond += 1;
      else if (!changeable(place, desk.book.state)) closed += 1;
      if (place === undefined || !changeable(place, desk.book.state)) continue;
      const fromRecord = own?.block.records[down % rows.length];
      const fromColumn = own?.block.columns[right % width];
      const content = own?.contents[down % rows.length]?.[right % width];
      if (own === undefined || content === undefined || fromRecord === undefined || fromColumn === undefined) {
        texts.push({ ...place, text });
        continue;
      }
      const from = { sheet: own.block.sheet, record: fromRecord, column: fromColumn };
      const format = formatAlong(desk.book.state, from, place);
      if (isFormula(content))
        contents.push({
          ...place,
          content: moved(content, place.record - fromRecord, place.column - fromColumn),
          format,
        });
      else texts.push({ ...place, ...copiedEntry(place, text, content), format });
    }
  }
  const kept = new Set(
    sparing(desk, sheet, [...texts, ...contents.map((edit) => ({ ...edit, text: String(edit.content) }))]).map(
      ({ record, column }) => `${record},${column}`,
    ),
  );
  const stays = ({ record, column }: { readonly record: number; readonly column: number }): boolean =>
    kept.has(`${record},${column}`);
  const formulas = contents.filter(stays);
  const plain = texts.filter(stays);
  // Formulas are texts too; they go with the rest so that one undo takes the whole paste back.
  enter(desk, [...plain, ...formulas.map(({ content, ...edit }) => ({ ...edit, text: String(content) }))], 'paste');
  tellLeftOut(desk, sheet, beyond, closed);
}
