import { type CellPosition, positionName } from './cell-address.ts';
import type { OpenStyles } from './open-styles.ts';
import { type OpenCell, repeats } from './open-value.ts';
import { pixelsPerCharacter, type RawSheetLook } from './raw-look.ts';
import { SheetLookReader } from './sheet-look-reader.ts';
import type { Attributes } from './xml-part.ts';

/** Columns that share a style. */
interface OpenColumns {
  readonly first: number;
  readonly last: number;
  /** Of the cells that name none. */
  readonly cellStyle: string;
}

/** Columns or rows that are alike beyond which nobody coloured or sized them one by one. Ours. */
const mostAlike = 200;

/** "Belts.C3:Belts.C6" as "C3:C6". */
const rangeText = (address = ''): string => address.replaceAll(/(?:'(?:[^']|'')*'|[^\s.:']*)\.(?=\$?[A-Z])/g, '');

/** How one sheet of an OpenDocument file is shown, as its elements come. */
export class OpenSheetLook {
  readonly #styles: OpenStyles;
  readonly #look = new SheetLookReader();
  readonly #columns: OpenColumns[] = [];
  /** Rules for what may be entered that a cell of the sheet has named. */
  readonly #rules = new Set<string>();
  #drawn: 'frame' | 'known' | undefined;

  constructor(styles: OpenStyles, frozen: { readonly rows: number; readonly columns: number } | undefined) {
    this.#styles = styles;
    if (frozen !== undefined) this.#look.freeze(frozen.rows, frozen.columns);
  }

  taken(): RawSheetLook | undefined {
    return this.#look.taken();
  }

  conditional({ 'calcext:target-range-address': range }: Attributes): void {
    this.#look.unkept('conditional formats', rangeText(range));
  }

  /** A frame holds a picture, or a chart with a picture of it for programs that draw none. */
  draw(name: string, row: number, column: number): void {
    const at = row > 0 ? positionName({ row, column: Math.max(1, column) }) : '';
    if (name === 'draw:frame') this.#drawn = 'frame';
    else if (name === 'draw:custom-shape') this.#look.unkept('shapes', at);
    else if (this.#drawn === 'frame' && (name === 'draw:image' || name === 'draw:object')) {
      this.#look.unkept(name === 'draw:image' ? 'pictures' : 'charts', at);
      this.#drawn = 'known';
    }
  }

  columns(attributes: Attributes): void {
    const cellStyle = attributes['table:default-cell-style-name'] ?? '';
    const first = (this.#columns.at(-1)?.last ?? 0) + 1;
    const last = first + repeats(attributes, 'table:number-columns-repeated') - 1;
    this.#columns.push({ first, last, cellStyle });
    const width = this.#styles.widthOf(attributes['table:style-name']);
    const { 'table:visibility': visibility = 'visible' } = attributes;
    this.#look.columns({
      first,
      last,
      // What goes on to the sheet's end has no width that somebody chose.
      ...(width === undefined || last - first > mostAlike ? {} : { width: width / pixelsPerCharacter }),
      ...(visibility === 'visible' ? {} : { hidden: true as const }),
      look: last - first > mostAlike ? undefined : this.#styles.styleOf(cellStyle).look,
    });
  }

  row(row: number, attributes: Attributes): void {
    if (this.#styles.hasHeight(attributes['table:style-name'])) this.#look.spread('row heights', row, 1);
  }

  hideRows(row: number, count: number): void {
    for (let at = 0; at < Math.min(count, mostAlike); at += 1) this.#look.hiddenRow(row + at);
  }

  styleOf({ attributes }: OpenCell, column: number): ReturnType<OpenStyles['styleOf']> {
    const own = attributes['table:style-name'];
    return this.#styles.styleOf(
      own ?? this.#columns.find(({ first, last }) => column >= first && column <= last)?.cellStyle ?? '',
    );
  }

  /** What a cell shows beside its value. */
  cell(cell: OpenCell, filled: boolean, place: CellPosition, rows: number): void {
    const { row, column } = place;
    const rule = cell.attributes['table:content-validation-name'];
    if (rule !== undefined && !this.#rules.has(rule)) {
      this.#rules.add(rule);
      this.#look.unkept('rules for what may be entered', positionName({ row, column }));
    }
    this.#look.comment(row, column, cell.comment);
    if (rows > mostAlike) return;
    if (filled) {
      for (const kind of this.styleOf(cell, column).unkept ?? []) this.#look.spread(kind, row, column);
      return;
    }
    // A cell without a style of its own looks as its column does.
    const own = cell.attributes['table:style-name'];
    if (own === undefined) return;
    const { look } = this.#styles.styleOf(own);
    if (cell.repeated > mostAlike) {
      for (let down = 0; down < rows; down += 1) this.#look.row(row + down, look);
      return;
    }
    for (let down = 0; down < rows; down += 1)
      for (let across = 0; across < cell.repeated; across += 1) this.#look.blank(row + down, column + across, look);
  }
}
