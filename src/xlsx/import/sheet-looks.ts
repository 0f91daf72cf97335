import { type OwnLook, sharedLook } from '../../workbook/own-look.ts';
import { positionName } from '../read/cell-address.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { rowCells } from '../read/raw-cells.ts';
import { rangeName } from '../read/sheet-look-reader.ts';
import { pixelsPerCharacter, plainSheetLook, type RawLook, type RawSheetLook, type Unkept } from '../read/raw-look.ts';

/** Formats that say nothing of their own: a text, or a day as the book shows it. */
const plainFormats = new Set(['', '@', 'general', 'yyyy-mm-dd']);

/** A format as it is compared: without the signs that programs put before letters when they save. */
export const comparedFormat = (format: string): string => format.replaceAll('\\', '').trim().toLowerCase();

const known = new WeakMap<RawLook, Map<string, OwnLook | undefined>>();
const unlooked: RawLook = {};

/** A cell's look; a list of ten thousand belts has a handful of them, so each is made once. */
function ownLook({ look = unlooked, format = '', value }: RawCell): OwnLook | undefined {
  // What is no number is not shown by its format; a formula's result counts.
  const code = typeof value === 'number' ? format : '';
  const byFormat = known.get(look) ?? new Map<string, OwnLook | undefined>();
  known.set(look, byFormat);
  if (byFormat.has(code)) return byFormat.get(code);
  const own = sharedLook({ ...look, ...(plainFormats.has(comparedFormat(code)) ? {} : { format: code }) });
  byFormat.set(code, own);
  return own;
}

interface RowOfLooks {
  /** By column of the sheet. */
  readonly looks: ReadonlyMap<number, OwnLook>;
  readonly hidden: boolean;
}

type Placed<Item> = Map<number, Map<number, Item>>;

const placed = <Item>(): Placed<Item> => new Map();

function put<Item>(places: Placed<Item>, row: number, column: number, item: Item): void {
  const columns = places.get(row);
  if (columns === undefined) places.set(row, new Map([[column, item]]));
  else columns.set(column, item);
}

/**
 * How a file shows one sheet's cells. Rows and columns are those of the list: of a transposed one its records are rows.
 */
export class SheetLooks {
  readonly #sheet: RawSheet;
  readonly #turned: boolean;
  readonly #blanks = placed<RawLook>();
  readonly #comments = placed<string>();
  /** Comments that found a cell of the book. */
  readonly #taken = new Set<string>();

  constructor(sheet: RawSheet, turned = false) {
    this.#sheet = sheet;
    this.#turned = turned;
    const { blanks, comments } = sheet.look ?? plainSheetLook;
    const facing = (row: number, column: number): readonly [number, number] => (turned ? [column, row] : [row, column]);
    for (const { row, column, look } of blanks) put(this.#blanks, ...facing(row, column), look);
    for (const { row, column, text } of comments) put(this.#comments, ...facing(row, column), text);
  }

  /**
   * The looks of a row, of which the cells are given. A row or a column that is coloured as a whole colours those of
   * the columns in which the file says nothing of the row's cell.
   */
  ofRow(
    row: number,
    cells: readonly RawCell[],
    columns: Iterable<number>,
    isPlain: (cell: RawCell) => boolean = () => false,
  ): RowOfLooks {
    const looks = new Map<number, OwnLook>();
    const blanks = this.#blanks.get(row);
    const comments = this.#comments.get(row);
    for (const [column, look] of this.#wholes(row, columns)) this.#add(looks, column, look);
    for (const [column, look] of blanks ?? []) {
      looks.delete(column);
      this.#add(looks, column, look);
    }
    for (const cell of cells) {
      const look = isPlain(cell) ? undefined : ownLook(cell);
      if (look === undefined) looks.delete(cell.column);
      else looks.set(cell.column, look);
    }
    for (const [column, comment] of comments ?? []) this.#add(looks, column, { ...looks.get(column), comment });
    const hidden = !this.#turned && (this.#sheet.look?.hiddenRows.has(row) ?? false);
    return { looks, hidden };
  }

  /** What a row, or else a column, shows as a whole. */
  #wholes(row: number, columns: Iterable<number>): readonly (readonly [number, RawLook])[] {
    const { look } = this.#sheet;
    if (look === undefined || (look.rows.size === 0 && !this.#hasColumnLooks)) return [];
    const ofRow = this.#turned ? this.#columnOf(row)?.look : look.rows.get(row);
    return [...columns].flatMap((column): (readonly [number, RawLook])[] => {
      const whole = ofRow ?? (this.#turned ? look.rows.get(column) : this.#columnOf(column)?.look);
      return whole === undefined ? [] : [[column, whole]];
    });
  }

  get #hasColumnLooks(): boolean {
    return this.#sheet.look?.columns.some(({ look }) => look !== undefined) ?? false;
  }

  #add(looks: Map<number, OwnLook>, column: number, look: OwnLook): void {
    const shared = sharedLook(look);
    if (shared !== undefined) looks.set(column, shared);
  }

  /** Rows that have a look and no filled cell. */
  get looksBelow(): number {
    return Math.max(0, ...this.#blanks.keys(), ...this.#comments.keys());
  }

  /** The comments of a row's cells, such as those of headers, by column. */
  commentsOf(row: number): ReadonlyMap<number, string> {
    return this.#comments.get(row) ?? new Map<number, string>();
  }

  /** Tells that a cell's comment is in the book. */
  take(row: number, column: number): void {
    this.#taken.add(`${row},${column}`);
  }

  /** Cells whose comments found no place. */
  get lostComments(): string[] {
    return [...this.#comments].flatMap(([row, columns]) =>
      [...columns.keys()].flatMap((column) =>
        this.#taken.has(`${row},${column}`)
          ? []
          : [positionName(this.#turned ? { row: column, column: row } : { row, column })],
      ),
    );
  }

  /** That headers in these rows show colours, of which the book keeps none: once for all that they span. */
  colouredHeaders(rows: readonly number[]): readonly Unkept[] {
    const cells = this.#turned
      ? [...this.#sheet.rows.values()].flat().filter(({ column }) => rows.includes(column))
      : rows.flatMap((row) => rowCells(this.#sheet, row));
    const coloured = cells.filter(({ look }) => look?.fill !== undefined || look?.color !== undefined);
    if (coloured.length === 0) return [];
    const [down, across] = [coloured.map(({ row }) => row), coloured.map(({ column }) => column)];
    const area = {
      top: Math.min(...down),
      bottom: Math.max(...down),
      left: Math.min(...across),
      right: Math.max(...across),
    };
    return [{ kind: 'colours of headers', place: rangeName(area) }];
  }

  #columnOf(column: number): RawSheetLook['columns'][number] | undefined {
    return this.#sheet.look?.columns.findLast(({ first, last }) => column >= first && column <= last);
  }

  /** Pixels; undefined where the file sets none. */
  widthOf(column: number): number | undefined {
    const width = this.#turned ? undefined : this.#columnOf(column)?.width;
    return width === undefined ? undefined : Math.round(width * pixelsPerCharacter);
  }

  isHidden(column: number): boolean {
    return !this.#turned && this.#columnOf(column)?.hidden === true;
  }

  get frozen(): { readonly rows: number; readonly columns: number } {
    return this.#turned ? { rows: 0, columns: 0 } : (this.#sheet.look ?? plainSheetLook).frozen;
  }
}
