import { type Content, isFormula } from '../../formula/values.ts';
import { formulaPieces, movedFormula } from '../../xlsx/read/formula-text.ts';
import type { CellEdit } from '../../workbook/state-changes.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { copiedText } from '../cell-text.ts';
import type { Desk } from '../desk.ts';
import { attempt, changeable, enter, put, type TextEdit } from '../editing.ts';

/** Copying, pasting and filling as changes of the book: formulas move with their cells, values keep every digit. */

/** Records and columns of a rectangle as it is seen; records need not follow each other when the view is sorted. */
export interface Block {
  readonly sheet: string;
  readonly records: readonly number[];
  readonly columns: readonly number[];
}

/** A rectangle of the grid by its corners, in rows on the screen. */
export interface GridRange {
  readonly from: { readonly row: number | null; readonly col: number | null };
  readonly to: { readonly row: number | null; readonly col: number | null };
}

const span = (one: number, other: number): number[] =>
  Array.from({ length: Math.abs(other - one) + 1 }, (_, index) => Math.min(one, other) + index);

/** The records and columns of a rectangle of the grid. */
export const blockOf = (sheet: string, { from, to }: GridRange, recordOf: (row: number) => number): Block => ({
  sheet,
  records: span(from.row ?? 0, to.row ?? 0).map(recordOf),
  columns: span(from.col ?? 0, to.col ?? 0),
});

/** What was copied last inside this page, with the text that the clipboard then held. */
interface Copied {
  readonly text: string;
  readonly block: Block;
  readonly contents: readonly (readonly Content[])[];
}

let copied: Copied | undefined;

/** A content moved by rows and columns: a formula's relative references move along. */
export function moved(content: Content, rows: number, columns: number): Content {
  return isFormula(content) ? `=${movedFormula(formulaPieces(content.slice(1)), rows, columns)}` : content;
}

/** What a cell gives away: its content, or the value when the sheet works it out. */
function given(book: Workbook, sheet: string, record: number, column: number): Content {
  const place = { sheet, record, column };
  const content = book.content(place);
  if (content !== null) return content;
  const value = book.shown(place);
  return typeof value === 'object' ? null : value;
}

/** The rows of text for the clipboard; remembers the contents for pasting in the page. */
export function copyBlock(book: Workbook, block: Block): string[][] {
  const { sheet, records, columns } = block;
  const rows = records.map((record) =>
    columns.map((column) => copiedText(book.shown({ sheet, record, column }), book.kind({ sheet, record, column }))),
  );
  copied = {
    text: asText(rows),
    block,
    contents: records.map((record) => columns.map((column) => given(book, sheet, record, column))),
  };
  return rows;
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

/** The size of what a paste fills: the selection when the copied block goes into it a whole number of times. */
function filled(size: number, selected: number): number {
  return selected > size && selected % size === 0 ? selected : size;
}

/**
 * Pastes rows of text over a block. `recordAt` and `columnAt` give what is seen below and beside its first cell; what
 * was copied in this page comes back with its formulas.
 */
export function pasteBlock(
  desk: Desk,
  target: Block,
  rows: readonly (readonly string[])[],
  recordAt: (down: number) => number,
  columnAt: (right: number) => number | undefined,
): void {
  const { sheet } = target;
  const own = copied !== undefined && copied.text === asText(rows) ? copied : undefined;
  const height = filled(rows.length, target.records.length);
  const width = Math.max(...rows.map(({ length }) => length));
  const wide = filled(width, target.columns.length);
  const texts: TextEdit[] = [];
  const contents: CellEdit[] = [];
  for (let down = 0; down < height; down += 1) {
    for (let right = 0; right < wide; right += 1) {
      const column = columnAt(right);
      const text = rows[down % rows.length]?.[right % width];
      if (column === undefined || text === undefined) continue;
      const place = { sheet, record: recordAt(down), column };
      const fromRecord = own?.block.records[down % rows.length];
      const fromColumn = own?.block.columns[right % width];
      const content = own?.contents[down % rows.length]?.[right % width];
      if (
        own !== undefined &&
        content !== undefined &&
        isFormula(content) &&
        fromRecord !== undefined &&
        fromColumn !== undefined
      ) {
        contents.push({ ...place, content: moved(content, place.record - fromRecord, place.column - fromColumn) });
      } else texts.push({ ...place, text });
    }
  }
  const kept = new Set(
    sparing(desk, sheet, [...texts, ...contents.map((edit) => ({ ...edit, text: String(edit.content) }))]).map(
      ({ record, column }) => `${record},${column}`,
    ),
  );
  const stays = ({ record, column }: { readonly record: number; readonly column: number }): boolean =>
    kept.has(`${record},${column}`);
  const formulas = contents.filter(stays).filter(changeable);
  const plain = texts.filter(stays);
  // Formulas are texts too; they go with the rest so that one undo takes the whole paste back.
  enter(desk, [...plain, ...formulas.map(({ content, ...place }) => ({ ...place, text: String(content) }))], 'paste');
}

/** Drags a block's contents on over further cells: repeated, formulas moved. */
export function fillBlock(desk: Desk, source: Block, target: Block, backwards: boolean): void {
  const { book } = desk;
  const edits: CellEdit[] = [];
  const at = (index: number, count: number, targets: number): number =>
    backwards ? (count - (targets % count) + index) % count : index % count;
  target.records.forEach((record, down) => {
    target.columns.forEach((column, right) => {
      const place = { sheet: target.sheet, record, column };
      const sameColumns = target.columns.length === source.columns.length && target.columns[0] === source.columns[0];
      const fromRecord = source.records[sameColumns ? at(down, source.records.length, target.records.length) : down];
      const fromColumn = source.columns[sameColumns ? right : at(right, source.columns.length, target.columns.length)];
      if (fromRecord === undefined || fromColumn === undefined || !changeable(place)) return;
      const content = book.content({ sheet: source.sheet, record: fromRecord, column: fromColumn });
      edits.push({ ...place, content: moved(content, record - fromRecord, column - fromColumn) });
    });
  });
  attempt(desk, () => put(book, edits, 'fill'));
}
