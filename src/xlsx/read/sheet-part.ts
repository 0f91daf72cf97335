import { positionName, type CellPosition, cellPosition, cellRange, positionWithin, rowNumber } from './cell-address.ts';
import { type CellContext, type FilledCell, filledCell } from './cell-value.ts';
import { filledRows, type SheetTally } from './filled-rows.ts';
import { typedFormula } from './formula-text.ts';
import type { RawRange, RawSheet, SharedFormula } from './raw-book.ts';
import { SheetLookReader } from './sheet-look-reader.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { sharedFormulas } from './shared-formulas.ts';
import { KeptTexts } from './kept-texts.ts';
import { readSheetExtras } from './sheet-extras.ts';
import { readFrame } from './sheet-frame.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { relationshipId } from './workbook-part.ts';
import { type Attributes, type ElementReader, readPart } from './xml-part.ts';
import { isTrue, longText, textPieces, unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

type SheetContent = Pick<RawSheet, 'rows' | 'merges' | 'lastRow' | 'lastColumn' | 'look'>;

/** Columns that are not read below their headings: those behind `after` whose heading is among these. */
export interface Unread {
  readonly after: number;
  readonly headings: ReadonlySet<string>;
}

/** A cell that is being read. */
interface OpenCell {
  readonly position: CellPosition;
  readonly attributes: Attributes;
  value: string | undefined;
  inline: string | undefined;
  formula: string | undefined;
  formulaKind: Attributes;
}

class SheetReader implements ElementReader {
  readonly #sheet: string;
  readonly #path: string;
  readonly #context: CellContext;
  readonly #tally: SheetTally;
  readonly #limits: ReadLimits;
  readonly #filled: ReturnType<typeof filledRows>;
  readonly #shared: ReturnType<typeof sharedFormulas>;
  readonly #pieces: ReturnType<typeof textPieces>;
  readonly #merges: RawRange[] = [];
  readonly #texts = new KeptTexts();
  readonly look = new SheetLookReader();
  /** Cells with a shared formula that no cell before them has defined. */
  readonly #awaiting: { readonly cell: FilledCell; readonly id: string }[] = [];

  #section = '';
  #row = 0;
  #column = 0;
  #inRow = false;
  #rowNamed = false;
  #cell: OpenCell | undefined;
  #part: 'value' | 'formula' | 'inline' | undefined;

  readonly #unread: Unread | undefined;
  readonly #unreadColumns = new Set<number>();

  constructor(
    sheet: string,
    path: string,
    context: CellContext,
    tally: SheetTally,
    limits: ReadLimits,
    unread: Unread | undefined,
  ) {
    this.#unread = unread;
    this.#sheet = sheet;
    this.#path = path;
    this.#context = context;
    this.#tally = tally;
    this.#limits = limits;
    this.#filled = filledRows(sheet, limits, tally);
    this.#shared = sharedFormulas({ limits, tally, place: (cell) => `sheet "${sheet}", cell ${positionName(cell)}` });
    this.#pieces = textPieces(limits, this.place);
  }

  readonly place = (): string => {
    if (this.#cell) return `sheet "${this.#sheet}", cell ${positionName(this.#cell.position)}`;
    return this.#row > 0 ? `sheet "${this.#sheet}", row ${grouped(this.#row)}` : `sheet "${this.#sheet}"`;
  };

  #startRow({ r, hidden, s, customFormat, customHeight }: Attributes): void {
    this.#inRow = true;
    this.#rowNamed = r !== undefined;
    this.#row =
      r === undefined
        ? positionWithin({ row: this.#row + 1, column: 1 }, this.place, this.#limits).row
        : rowNumber(r, this.place, this.#limits);
    this.#column = 0;
    if (isTrue(hidden)) this.look.hiddenRow(this.#row);
    if (isTrue(customFormat)) this.look.row(this.#row, this.#context.formats[Number(s)]?.look);
    if (isTrue(customHeight)) this.look.spread('row heights', this.#row, 1);
  }

  #startCell(attributes: Attributes): void {
    const { r } = attributes;
    const position =
      r === undefined
        ? positionWithin({ row: this.#row, column: this.#column + 1 }, this.place, this.#limits)
        : cellPosition(r, this.place, this.#limits);
    this.#column = position.column;
    if (!this.#rowNamed) this.#row = position.row;
    this.#cell = { position, attributes, value: undefined, inline: undefined, formula: undefined, formulaKind: {} };
  }

  /** The formula as typed; a shared one that no cell has defined yet answers the id to wait for. */
  #formulaOf({ position, formula, formulaKind }: OpenCell): {
    readonly text?: string;
    readonly shared?: SharedFormula;
    readonly awaits?: string;
  } {
    if (formula === undefined) return {};
    const trimmed = unescaped(formula).trim();
    const bare = trimmed.startsWith('=') ? trimmed.slice(1) : trimmed;
    const id = formulaKind['t'] === 'shared' ? formulaKind['si'] : undefined;
    if (id !== undefined) {
      if (bare !== '') {
        if (formulaKind['ref'] !== undefined || !this.#shared.has(id)) this.#shared.define(id, position, bare);
      } else {
        const shared = this.#shared.formula(id);
        return shared === undefined ? { awaits: id } : { shared };
      }
    }
    return bare === '' ? {} : { text: typedFormula(bare) };
  }

  #endCell(cell: OpenCell): void {
    if (cell.position.row > 1 && this.#unreadColumns.has(cell.position.column)) {
      this.#cell = undefined;
      return;
    }
    const { text, shared, awaits } = this.#formulaOf(cell);
    const { position, attributes, value, inline } = cell;
    const filled = filledCell(
      {
        position,
        type: attributes['t'],
        style: attributes['s'],
        value: value !== undefined && attributes['t'] === 'str' ? this.#texts.kept(value) : value,
        inline,
        formula: text ?? (awaits === undefined ? undefined : ''),
        shared,
      },
      this.#context,
      this.place,
    );
    const shown = this.#context.formats[Number(attributes['s'] ?? 0)];
    if (filled) {
      for (const kind of shown?.unkept ?? []) this.look.spread(kind, position.row, position.column);
      if (awaits !== undefined) this.#awaiting.push({ cell: filled, id: awaits });
      this.#filled.add(filled);
      if (filled.row === 1 && this.#unread !== undefined && this.#isUnread(this.#unread, filled))
        this.#unreadColumns.add(filled.column);
    } else if (attributes['s'] !== undefined) this.look.blank(position.row, position.column, shown?.look);
    this.#cell = undefined;
  }

  #isUnread({ after, headings }: Unread, { column, value }: FilledCell): boolean {
    return column > after && typeof value === 'string' && headings.has(value.trim());
  }

  #addMerge(reference: string | undefined): void {
    const area = `merged area of sheet "${this.#sheet}"`;
    const range = cellRange(reference ?? '', () => area, this.#limits);
    if (range.top === range.bottom && range.left === range.right) return;
    if (++this.#tally.merges > this.#limits.merges) {
      throw new UnreadableFile(
        'too much content',
        `The file has more than ${grouped(this.#limits.merges)} merged areas, the maximum that can be read; ` +
          `sheet "${this.#sheet}" exceeds that. Unmerge the cells of the list, and save it again as .xlsx.`,
      );
    }
    this.#merges.push(range);
  }

  #openInCell(cell: OpenCell, name: string, attributes: Attributes, depth: number): void {
    if (this.#part === 'inline') this.#pieces.open(name);
    else if (depth !== 5) return;
    else if (name === 'v') {
      this.#part = 'value';
      cell.value = '';
    } else if (name === 'f') {
      this.#part = 'formula';
      cell.formula = '';
      cell.formulaKind = attributes;
    } else if (name === 'is') this.#part = 'inline';
  }

  open(name: string, attributes: Attributes, depth: number): void {
    if (this.#cell) return this.#openInCell(this.#cell, name, attributes, depth);
    if (depth === 4 && this.#inRow) {
      if (name === 'c') this.#startCell(attributes);
      return;
    }
    readFrame(this.look, this.#section, name, attributes, depth, this.#context.formats);
    if (depth === 3) {
      if (this.#section === 'sheetData' && name === 'row') this.#startRow(attributes);
      else if (this.#section === 'mergeCells' && name === 'mergeCell') this.#addMerge(attributes['ref']);
      else if (this.#section === 'hyperlinks' && relationshipId(attributes) !== undefined) this.#tally.links += 1;
    } else if (depth === 2) this.#section = name;
    else if (depth === 1 && name !== 'worksheet') {
      throw new UnreadableFile(
        'part missing',
        `Sheet "${this.#sheet}" should be in part ${this.#path}, which holds no worksheet but ` +
          `"${name.slice(0, 40)}". ${saveAgain}`,
      );
    }
  }

  close(name: string, depth: number): void {
    const cell = this.#cell;
    if (cell) {
      if (depth === 4) this.#endCell(cell);
      else if (depth === 5) {
        if (this.#part === 'inline') cell.inline = this.#pieces.taken();
        this.#part = undefined;
      } else if (this.#part === 'inline') this.#pieces.close(name);
    } else if (depth === 3) this.#inRow = false;
  }

  text(piece: string): void {
    const cell = this.#cell;
    if (!cell) return;
    if (this.#part === 'value') {
      cell.value += piece;
      if ((cell.value?.length ?? 0) > this.#limits.textCharacters) throw longText(this.#limits, this.place());
    } else if (this.#part === 'formula') {
      cell.formula += piece;
      if ((cell.formula?.length ?? 0) > this.#limits.formulaCharacters) {
        throw new UnreadableFile(
          'text too long',
          `The formula at ${this.place()} is longer than ${grouped(this.#limits.formulaCharacters)} characters; ` +
            `spreadsheet programs hold 8,192. ${saveAgain}`,
        );
      }
    } else if (this.#part === 'inline') this.#pieces.text(piece);
  }

  content(): SheetContent {
    for (const { cell, id } of this.#awaiting) {
      const late = this.#shared.formula(id)?.at(cell);
      if (late === undefined) delete cell.formula;
      else cell.formula = late;
    }
    const look = this.look.taken();
    return { ...this.#filled.taken(), merges: this.#merges, ...(look === undefined ? {} : { look }) };
  }
}

/**
 * Reads a worksheet's cells and merged areas.
 *
 * Only what the file names cell by cell is kept: column widths, merged areas and validations that span the whole sheet
 * cost nothing. Cells and rows without an address follow the one before; a cell's own address counts more than its
 * row's.
 *
 * Source: ECMA-376 Part 1, 18.3.1.99 (worksheet), 18.3.1.73 (row), 18.3.1.4 (c), 18.3.1.55 (mergeCell).
 */
export function sheetPart(
  parts: BookParts,
  path: string,
  sheet: string,
  context: CellContext,
  tally: SheetTally,
  unread?: Unread,
): SheetContent {
  const reader = new SheetReader(sheet, path, context, tally, parts.limits, unread);
  readPart(parts, path, reader);
  readSheetExtras(parts, path, sheet, reader.look);
  return reader.content();
}
