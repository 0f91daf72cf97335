import { recordInRow } from '../../formula/address.ts';
import { type BookLook, type ColumnLayout, commentIn, noLook } from '../../workbook/book-look.ts';
import { firstLayout, withRenamedHeaders } from '../../workbook/column-layout.ts';
import { type BookColumn, namedSheetOf } from '../../workbook/declared.ts';
import { presentHeader } from '../../workbook/earlier-names.ts';
import { borderLines, bordersText, type OwnLook, sharedLook } from '../../workbook/own-look.ts';
import type { CellFormat } from '../../workbook/state.ts';
import type { About } from '../about.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { pixelsPerCharacter, type RawLook } from '../read/raw-look.ts';
import { computedShade, earlierComputedShade, keyVertical, numberFormat, textAlign } from '../write/cell-styles.ts';
import { fileText } from '../write/file-text.ts';
import { headingNote } from '../write/heading-note.ts';
import { comparedFormat, SheetLooks } from './sheet-looks.ts';

/**
 * How a file of this program shows its cells, beyond what the program gave them: what came with the user's list, and
 * what was coloured, commented or drawn wider in another program since.
 */

/** What the program itself gave a cell. */
interface GivenLook {
  readonly column: BookColumn;
  readonly computed: boolean;
  readonly key: boolean;
  readonly overridden: boolean;
  /** What it said beside the cell. */
  readonly remark: string | undefined;
  /** How the cell showed its number, where it did not as its column does. */
  readonly format: CellFormat | undefined;
  readonly units: About['units'];
  /** The shade of computed cells when the file was written. */
  readonly shade: string;
}

/** A comment without the program's remark behind it. */
function ownComment(comment: string | undefined, remark: string | undefined): string | undefined {
  if (comment === undefined || remark === undefined) return comment;
  const whole = comment.trim();
  // Readers turn escapes of the file back; a text that was cut for the file is as it was written.
  const said = [remark, fileText(remark).text].map((text) => text.trim()).find((text) => whole.endsWith(text));
  const own = said === undefined ? comment : whole.slice(0, whole.length - said.length).trim();
  return own === '' ? undefined : own;
}

const isGrey = (color = ''): boolean => /^(..)\1\1$/.test(color);

function ownLook(look: OwnLook, given: GivenLook): OwnLook | undefined {
  const { column, computed, key, overridden, remark, units, shade, format: set } = given;
  const { fill, color, bold, italic, align, vertical, borders, format, comment, ...others } = look;
  // Hatching comes back as a grey from programs that have none.
  const shaded = fill === shade || (remark !== undefined && isGrey(fill));
  const standard = comparedFormat(
    set === undefined ? numberFormat(column.kind, units, column.look) : numberFormat(set.kind, units, set),
  );
  const keepsFormat = format !== undefined && column.own && comparedFormat(format) !== standard;
  const own = ownComment(comment, remark);
  const lines = borders === undefined || !overridden ? borders : withoutOverride(borders);
  return sharedLook({
    ...others,
    ...(fill === undefined || shaded ? {} : { fill }),
    ...(color === undefined ? {} : { color }),
    ...(bold !== true || key || overridden ? {} : { bold }),
    ...(italic !== true || remark !== undefined ? {} : { italic }),
    ...(align === undefined || align === textAlign ? {} : { align }),
    ...(vertical === undefined || (key && vertical === keyVertical) ? {} : { vertical }),
    ...(lines === undefined ? {} : { borders: lines }),
    ...(keepsFormat && !computed ? { format } : {}),
    ...(own === undefined ? {} : { comment: own }),
  });
}

/** Lines of a cell without the rule that marks an override. */
const withoutOverride = (borders: string): string | undefined =>
  bordersText(
    (borderLines(borders) ?? []).filter(
      ({ side, style, color }) => side !== 'bottom' || style !== 'double' || color !== '000000',
    ),
  );

const shadesAlone = new WeakMap<RawLook, boolean>();

/** Whether a look is that of a computed cell; most cells share one object. */
function isShadeAlone(look: RawLook, shade: string): boolean {
  const known = shadesAlone.get(look);
  if (known !== undefined) return known;
  const { fill, align = textAlign, ...others } = look;
  const alone = fill === shade && align === textAlign && Object.keys(others).length === 0;
  shadesAlone.set(look, alone);
  return alone;
}

interface LooksOfRow {
  readonly looks?: Readonly<Record<number, OwnLook>>;
  readonly hidden?: true;
}

interface ReadLooks {
  readonly columns: readonly BookColumn[];
  /** Position in the book's sheet by column of the file. */
  readonly position: ReadonlyMap<number, number>;
  readonly keyHeader: string | undefined;
  readonly about: About;
  readonly isOverridden: (record: number, column: number) => boolean;
  readonly remark: (record: number, column: number) => string | undefined;
  readonly format: (record: number, column: number) => CellFormat | undefined;
}

/** Looks of one sheet's records, by record; and the cells whose comments have no place. */
export function exportedLooks(
  raw: RawSheet,
  name: string,
  { columns, position, keyHeader, about, isOverridden, remark, format }: ReadLooks,
): { readonly rows: ReadonlyMap<number, LooksOfRow>; readonly lostComments: readonly string[] } {
  const reader = new SheetLooks(raw);
  const shade = about.widths.size === 0 ? earlierComputedShade : computedShade;
  const named = namedSheetOf(name) !== undefined;
  // Most cells are computed and look as they were written.
  const isPlain = ({ column, look }: RawCell): boolean => {
    const at = columns[position.get(column) ?? -1];
    return at !== undefined && !at.own && (look === undefined || isShadeAlone(look, shade));
  };
  const rows = new Map<number, LooksOfRow>();
  for (let row = 1; row <= raw.lastRow; row += 1) {
    const { looks, hidden } = reader.ofRow(row, raw.rows.get(row) ?? [], position.keys(), isPlain);
    // Headers are the program's, with its own notes.
    for (const column of row === 1 ? looks.keys() : []) reader.take(row, column);
    if (row === 1 || (looks.size === 0 && !hidden)) continue;
    const record = recordInRow(row);
    const placed: Record<number, OwnLook> = {};
    for (const [at, look] of looks) {
      const index = position.get(at);
      const column = columns[index ?? -1];
      if (index === undefined || column === undefined) continue;
      const own = ownLook(look, {
        column,
        computed: column.computed || named,
        key: column.header === keyHeader,
        overridden: isOverridden(record, index),
        remark: remark(record, index),
        format: format(record, index),
        units: about.units,
        shade,
      });
      if (own !== undefined) placed[index] = own;
      reader.take(row, at);
    }
    const some = Object.keys(placed).length > 0;
    if (some || hidden)
      rows.set(record, { ...(some ? { looks: placed } : {}), ...(hidden ? { hidden: true as const } : {}) });
  }
  return { rows, lostComments: reader.lostComments };
}

/** Widths differ by less when a program only writes them its own way. */
const sameWidth = 0.5;

/** Widths that were drawn since the file was written. */
function drawnWidths(
  raw: RawSheet,
  written: readonly number[] | undefined,
  { columns, position }: Pick<ReadLooks, 'columns' | 'position'>,
): Record<string, number> {
  if (written === undefined) return {};
  const looks = new SheetLooks(raw);
  return Object.fromEntries(
    [...position].flatMap(([at, index]): [string, number][] => {
      const [width, header] = [looks.widthOf(at), columns[index]?.header];
      const before = written[at - 1];
      if (width === undefined || header === undefined) return [];
      const same = before !== undefined && Math.abs(width / pixelsPerCharacter - before) < sameWidth;
      return same ? [] : [[header, width]];
    }),
  );
}

/** What is written beside headers, where another program has changed it since: the program's own note follows it. */
function changedComments(
  raw: RawSheet,
  layout: ColumnLayout,
  { columns, position }: Pick<ReadLooks, 'columns' | 'position'>,
  units: About['units'],
): Record<string, string> {
  const beside = new SheetLooks(raw).commentsOf(1);
  return Object.fromEntries(
    [...beside].flatMap(([at, text]): [string, string][] => {
      const column = columns[position.get(at) ?? -1];
      if (column === undefined) return [];
      const note = headingNote(column, units);
      // Another version of the program has said something else behind it.
      if (column.declared !== undefined && !text.trim().endsWith(fileText(note).text.trim())) return [];
      const own = ownComment(text, note);
      return own === undefined || own === commentIn(layout, column.header) ? [] : [[column.header, own]];
    }),
  );
}

export interface LookedSheet extends Pick<ReadLooks, 'columns' | 'position'> {
  readonly raw: RawSheet;
  readonly sheet: string;
}

/** How the book is looked at: as it was when the file was written, with the widths that were drawn since. */
export function exportedLook(about: About, sheets: readonly LookedSheet[]): BookLook | undefined {
  const before = withRenamedHeaders(about.look ?? noLook, (sheet, header) => presentHeader(sheet, header) ?? header);
  const layouts = new Map(Object.entries(before.layouts));
  for (const { raw, sheet, columns, position } of sheets) {
    const drawn = drawnWidths(raw, about.widths.get(sheet), { columns, position });
    const known = layouts.get(sheet) ?? firstLayout(sheet);
    const written = changedComments(raw, known, { columns, position }, about.units);
    const comments = Object.keys(written).length === 0 ? {} : { comments: { ...known.comments, ...written } };
    if (Object.keys(drawn).length + Object.keys(comments).length > 0)
      layouts.set(sheet, { ...known, widths: { ...known.widths, ...drawn }, ...comments });
  }
  const some = layouts.size + before.views.length > 0;
  return some ? { ...before, layouts: Object.fromEntries(layouts) } : undefined;
}
