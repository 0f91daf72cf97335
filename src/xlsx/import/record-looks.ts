import type { Content } from '../../formula/values.ts';
import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { type OwnLook, sharedLook } from '../../workbook/own-look.ts';
import type { BookRow, UserColumn } from '../../workbook/state.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { type CountedNote, namedRows } from './counted-notes.ts';
import type { Unkept } from '../read/raw-look.ts';
import type { TableProposal } from './import-model.ts';
import type { PlacedSheet } from './kept-layouts.ts';
import type { MappedColumn } from './mapped-column.ts';
import { SheetLooks } from './sheet-looks.ts';

/** How a list's file shows its records, on their way into a declared sheet. */
export class RecordLooks {
  readonly #raw: RawSheet;
  readonly #table: TableProposal;
  readonly #mapped: ReadonlyMap<number, MappedColumn>;
  readonly #declaration: SheetDeclaration;
  readonly #looks: SheetLooks;
  readonly #hidden: number[] = [];

  constructor(
    raw: RawSheet,
    table: TableProposal,
    mapped: ReadonlyMap<number, MappedColumn>,
    declaration: SheetDeclaration,
  ) {
    this.#raw = raw;
    this.#table = table;
    this.#mapped = mapped;
    this.#declaration = declaration;
    this.#looks = new SheetLooks(raw, table.turned);
  }

  /** A record with the looks of its cells. Declared columns show numbers in the book's own formats. */
  record(
    { cells, notes }: { readonly cells: readonly Content[]; readonly notes: Readonly<Record<number, string>> },
    row: number,
    raw: readonly RawCell[],
  ): BookRow {
    const { looks, hidden } = this.#looks.ofRow(row, raw, this.#mapped.keys());
    const placed: Record<number, OwnLook> = {};
    for (const [column, look] of looks) {
      const position = this.#mapped.get(column)?.position;
      if (position === undefined) continue;
      const { format: _, ...plain } = look;
      const kept = position < this.#declaration.columns.length ? sharedLook(plain) : look;
      if (kept !== undefined) placed[position] = kept;
      this.#looks.take(row, column);
    }
    if (hidden) this.#hidden.push(row);
    return {
      cells,
      ...(Object.keys(notes).length === 0 ? {} : { notes }),
      ...(Object.keys(placed).length === 0 ? {} : { looks: placed }),
      ...(hidden ? { hidden: true as const } : {}),
    };
  }

  /** Header rows of the list, and its row of units. */
  get #headerRows(): readonly number[] {
    const { headerTop, headerRow, unitsRow = headerRow } = this.#table;
    const rows = Array.from({ length: headerRow - headerTop + 1 }, (_, at) => headerTop + at);
    return [...new Set([...rows, unitsRow])];
  }

  /** What is written beside the header of a column. */
  #headerComment(column: number): string | undefined {
    const texts = this.#headerRows.flatMap((row) => {
      const text = this.#looks.commentsOf(row).get(column);
      if (text !== undefined) this.#looks.take(row, column);
      return text ?? [];
    });
    return texts.length === 0 ? undefined : texts.join('\n');
  }

  /** Where the list's columns stand in the book, once all records are read. */
  placed(userColumns: readonly UserColumn[]): PlacedSheet {
    const { name, columns } = this.#declaration;
    const headers = [...columns, ...userColumns].map(({ header }) => header);
    return {
      raw: this.#raw,
      sheet: name,
      turned: this.#table.turned,
      columns: [...this.#mapped]
        .toSorted(([one], [other]) => one - other)
        .flatMap(([column, { position }]) => {
          const header = position === undefined ? undefined : headers[position];
          if (header === undefined) return [];
          const comment = this.#headerComment(column);
          return [{ column, header, ...(comment === undefined ? {} : { comment }) }];
        }),
    };
  }

  /** Headers that show colours, of which the book keeps none. */
  get colouredHeaders(): readonly Unkept[] {
    return this.#looks.colouredHeaders(this.#headerRows);
  }

  get lostComments(): readonly string[] {
    return this.#looks.lostComments;
  }

  /** That hidden rows count; undefined when there are none. */
  get hiddenRows(): CountedNote | undefined {
    const rows = this.#hidden;
    if (rows.length === 0) return undefined;
    return {
      what: 'hidden',
      sheet: this.#table.sheet,
      record: this.#declaration.record,
      count: rows.length,
      rows: rows.slice(0, namedRows),
    };
  }
}
