import { filledRows, type SheetTally } from './filled-rows.ts';
import { openFormula } from './open-formula.ts';
import { frozenParts } from './open-settings.ts';
import { OpenSheetLook } from './open-sheet-look.ts';
import { namedStyles, type OpenStyles } from './open-styles.ts';
import { type OpenCell, repeats, valueOf } from './open-value.ts';
import type { RawBook, RawRange, RawSheet } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { type Attributes, type ElementReader, readPart } from './xml-part.ts';
import type { BookParts } from './zip-parts.ts';

/**
 * OpenDocument spreadsheets (.ods): their cells, as an .xlsx would hold them.
 *
 * Values, formulas in the usual notation, merged areas, what is hidden, looks and comments. A number's unit is taken
 * from its format, or from how the cell shows it where the format is not known. No kept library reads them within
 * bounds: the part is read element by element, and what a file repeats a million times counts against the limits.
 * Source: OASIS OpenDocument 1.2, part 1, 9.1 (tables), 19 (attributes).
 */

class OpenSheets implements ElementReader {
  readonly sheets: RawSheet[] = [];
  readonly #limits: ReadLimits;
  readonly #tally: SheetTally = { cells: 0, merges: 0, characters: 0, texts: 0, links: 0 };
  readonly #styles: OpenStyles;
  readonly #frozen: ReturnType<typeof frozenParts>;
  #name = '';
  #hidden = false;
  #rows: ReturnType<typeof filledRows> | undefined;
  #merges: RawRange[] = [];
  #look: OpenSheetLook | undefined;
  #row = 0;
  #rowRepeats = 1;
  #column = 0;
  #cells: { readonly at: number; readonly cell: OpenCell }[] = [];
  #cell: OpenCell | undefined;
  /** Depth of a part that is passed over: what is drawn, changes that were tracked. */
  #passed = Infinity;
  /** The lines of a comment that is being read. */
  #comment: string[] | undefined;
  #inText = 0;

  constructor(limits: ReadLimits, styles: OpenStyles, frozen: ReturnType<typeof frozenParts>) {
    this.#limits = limits;
    this.#styles = styles;
    this.#frozen = frozen;
  }

  place(): string {
    return this.#name === '' ? '' : `sheet "${this.#name.slice(0, 80)}", row ${grouped(this.#row)}`;
  }

  open(name: string, attributes: Attributes, depth: number): void {
    if (name.startsWith('draw:')) this.#look?.draw(name, this.#row, this.#column);
    if (depth > this.#passed) return;
    if (this.#name === '') this.#styles.open(name, attributes);
    switch (name) {
      case 'office:annotation':
        this.#comment = [];
        break;
      case 'draw:frame':
      case 'draw:custom-shape':
      case 'table:tracked-changes':
      case 'table:shapes':
        this.#passed = depth;
        break;
      case 'table:table-column':
        this.#look?.columns(attributes);
        break;
      case 'calcext:conditional-format':
        this.#look?.conditional(attributes);
        break;
      case 'table:table':
        this.#begin(attributes);
        break;
      case 'table:table-row':
        this.#row += this.#rowRepeats;
        this.#rowRepeats = repeats(attributes, 'table:number-rows-repeated');
        this.#column = 1;
        this.#cells = [];
        this.#look?.row(this.#row, attributes);
        if (attributes['table:visibility'] !== undefined && attributes['table:visibility'] !== 'visible')
          this.#look?.hideRows(this.#row, this.#rowRepeats);
        break;
      case 'table:table-cell':
      case 'table:covered-table-cell':
        this.#cell = {
          attributes,
          repeated: repeats(attributes, 'table:number-columns-repeated'),
          lines: [],
          comment: '',
        };
        break;
      case 'text:p':
        this.#inText = depth;
        (this.#comment ?? this.#cell?.lines)?.push('');
        break;
      default:
        this.#space(name, attributes);
    }
  }

  #space(name: string, attributes: Attributes): void {
    if (name === 'text:s') this.text(' '.repeat(Math.min(1000, repeats(attributes, 'text:c'))));
    else if (name === 'text:tab') this.text('\t');
    else if (name === 'text:line-break') this.text('\n');
  }

  text(text: string): void {
    if (this.#name === '') this.#styles.text(text);
    const lines = this.#comment ?? this.#cell?.lines;
    if (lines === undefined || this.#inText === 0 || this.#passed !== Infinity) return;
    lines[lines.length - 1] = `${lines.at(-1) ?? ''}${text}`;
  }

  close(name: string, depth: number): void {
    if (depth === this.#passed) {
      this.#passed = Infinity;
      return;
    }
    if (depth > this.#passed) return;
    if (this.#name === '') this.#styles.close(name);
    if (name === 'office:annotation') this.#endComment();
    else if (name === 'text:p' && depth === this.#inText) this.#inText = 0;
    else if (name === 'table:table-cell' || name === 'table:covered-table-cell') this.#endCell();
    else if (name === 'table:table-row') this.#endRow();
    else if (name === 'table:table') this.#end();
  }

  #begin(attributes: Attributes): void {
    if (this.sheets.length >= this.#limits.sheets)
      throw new UnreadableFile('too much content', `The file has more than ${grouped(this.#limits.sheets)} sheets.`);
    this.#name = attributes['table:name'] ?? `Sheet${this.sheets.length + 1}`;
    this.#hidden = this.#styles.isHidden(attributes['table:style-name']);
    this.#rows = filledRows(this.#name, this.#limits, this.#tally);
    this.#merges = [];
    this.#look = new OpenSheetLook(this.#styles, this.#frozen.get(this.#name));
    this.#row = 0;
    this.#rowRepeats = 1;
  }

  #endComment(): void {
    if (this.#cell !== undefined) this.#cell.comment = (this.#comment ?? []).join('\n');
    this.#comment = undefined;
  }

  #endCell(): void {
    const cell = this.#cell;
    this.#cell = undefined;
    if (cell === undefined) return;
    const filled = valueOf(cell, undefined) !== undefined || cell.attributes['table:formula'] !== undefined;
    if (filled) this.#cells.push({ at: this.#column, cell });
    this.#look?.cell(cell, filled, { row: Math.max(1, this.#row), column: this.#column }, this.#rowRepeats);
    const [across, down] = ['columns', 'rows'].map((what) => repeats(cell.attributes, `table:number-${what}-spanned`));
    if (across !== undefined && down !== undefined && (across > 1 || down > 1)) {
      this.#tally.merges += 1;
      if (this.#tally.merges > this.#limits.merges)
        throw new UnreadableFile(
          'too much content',
          `The file has more than ${grouped(this.#limits.merges)} merged areas.`,
        );
      const [top, left] = [Math.max(1, this.#row), this.#column];
      this.#merges.push({ top, left, bottom: top + down - 1, right: left + across - 1 });
    }
    this.#column += cell.repeated;
  }

  #endRow(): void {
    for (let row = this.#row; this.#cells.length > 0 && row < this.#row + this.#rowRepeats; row += 1)
      for (const { at, cell } of this.#cells)
        for (let column = at; column < at + cell.repeated; column += 1) this.#add(row, column, cell);
  }

  #add(row: number, column: number, cell: OpenCell): void {
    if (row > this.#limits.rowNumber || column > this.#limits.columnNumber)
      throw new UnreadableFile('outside the sheet', `Sheet "${this.#name}" has a cell beyond its last row or column.`);
    const formula = cell.attributes['table:formula'];
    const plain = formula === undefined ? undefined : openFormula(formula);
    const { look, format: styled } = this.#look?.styleOf(cell, column) ?? {};
    const value = valueOf(cell, styled) ?? { value: null };
    // Formulas are of one cell; where a cell is repeated each has its value.
    const own = plain === undefined || cell.repeated > 1 || this.#rowRepeats > 1 ? {} : { formula: plain };
    if (value.value !== null || value.error !== undefined || plain !== undefined)
      this.#rows?.add({ row, column, ...value, ...own, ...(look === undefined ? {} : { look }) });
  }

  #end(): void {
    const rows = this.#rows;
    if (rows === undefined) return;
    const look = this.#look?.taken();
    this.sheets.push({
      name: this.#name,
      hidden: this.#hidden,
      merges: this.#merges,
      ...rows.taken(),
      ...(look === undefined ? {} : { look }),
    });
    this.#rows = undefined;
    this.#look = undefined;
    this.#name = '';
  }
}

const contentPart = 'content.xml';

/** Whether an archive is an OpenDocument spreadsheet. */
export function isOpenSpreadsheet(parts: BookParts): boolean {
  const path = parts.find('mimetype');
  if (path === undefined || parts.find(contentPart) === undefined) return false;
  let type = '';
  parts.unpack(path, (bytes) => {
    if (type.length < 200) type += new TextDecoder().decode(bytes.subarray(0, 200));
  });
  return type.includes('opendocument.spreadsheet');
}

/** A password leaves the parts in place and says in the manifest how they were encrypted. */
function isEncrypted(parts: BookParts): boolean {
  const path = parts.find('META-INF/manifest.xml');
  let encrypted = false;
  if (path !== undefined)
    readPart(
      parts,
      path,
      {
        open(name) {
          encrypted ||= name === 'manifest:encryption-data';
        },
      },
      'whole names',
    );
  return encrypted;
}

export function openDocumentBook(parts: BookParts): RawBook {
  if (isEncrypted(parts))
    throw new UnreadableFile(
      'password',
      'The file is protected by a password, so nothing in it can be read. Save a copy without a password.',
    );
  const reader = new OpenSheets(parts.limits, namedStyles(parts), frozenParts(parts));
  readPart(parts, parts.find(contentPart) ?? contentPart, reader, 'whole names');
  if (reader.sheets.length === 0)
    throw new UnreadableFile(
      'not a workbook',
      'The file is an OpenDocument spreadsheet without a sheet. Choose the workbook that holds the list of belts.',
    );
  return { sheets: reader.sheets, names: [] };
}
