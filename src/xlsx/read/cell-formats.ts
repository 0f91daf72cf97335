import { fileColor } from './file-colors.ts';
import { builtInFormat, formatKind, type FormatKind } from './number-formats.ts';
import type { RawLook } from './raw-look.ts';
import { grouped } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { type Attributes, type ElementReader, readPart } from './xml-part.ts';
import { isTrue, unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

export interface CellFormat {
  /** The format code; undefined when it is General. */
  readonly code: string | undefined;
  readonly kind: FormatKind;
  /** Absent where a cell is black on white. */
  readonly look?: RawLook;
}

/** A style as the file says it: by the numbers of its format, font and fill. */
interface Style {
  readonly format: number;
  readonly font: number;
  readonly fill: number;
}

type Font = Omit<RawLook, 'fill'>;

/** A b element without a value says yes. */
const says = ({ val }: Attributes): boolean => val === undefined || isTrue(val);

class StylesReader implements ElementReader {
  readonly #parts: BookParts;
  readonly #path: string;
  readonly #theme: readonly string[];
  readonly formats = new Map<number, string>();
  readonly fonts: Font[] = [];
  readonly fills: (string | undefined)[] = [];
  readonly styles: Style[] = [];
  #section = '';
  #solid = false;

  constructor(parts: BookParts, path: string, theme: readonly string[]) {
    this.#parts = parts;
    this.#path = path;
    this.#theme = theme;
  }

  open(name: string, attributes: Attributes, depth: number): void {
    if (depth === 2) this.#section = name;
    else if (depth === 3) this.#item(name, attributes);
    else if (this.#section === 'fonts' && depth === 4) this.#font(name, attributes);
    else if (this.#section === 'fills') this.#fill(name, attributes, depth);
  }

  #item(name: string, { numFmtId, fontId, fillId, formatCode }: Attributes): void {
    if (this.#section === 'numFmts' && name === 'numFmt' && formatCode !== undefined)
      this.formats.set(Number(numFmtId), unescaped(formatCode));
    else if (this.#section === 'cellXfs' && name === 'xf')
      this.styles.push({ format: Number(numFmtId ?? 0), font: Number(fontId ?? 0), fill: Number(fillId ?? 0) });
    else if (this.#section === 'fonts' && name === 'font') this.fonts.push({});
    else if (this.#section === 'fills' && name === 'fill') this.fills.push(undefined);
    const { cellFormats } = this.#parts.limits;
    if (Math.max(this.styles.length, this.formats.size, this.fonts.length, this.fills.length) > cellFormats)
      throw new UnreadableFile(
        'too much content',
        `The file holds more than ${grouped(cellFormats)} cell formats (part ${this.#path}), ` +
          `the maximum that can be read. ${saveAgain}`,
      );
  }

  #font(name: string, attributes: Attributes): void {
    const last = this.fonts.length - 1;
    const font = this.fonts[last];
    if (font === undefined) return;
    const color = name === 'color' ? fileColor(attributes, this.#theme) : undefined;
    if (color !== undefined && color !== '000000') this.fonts[last] = { ...font, color };
    else if (name === 'b' && says(attributes)) this.fonts[last] = { ...font, bold: true };
    else if (name === 'i' && says(attributes)) this.fonts[last] = { ...font, italic: true };
  }

  #fill(name: string, attributes: Attributes, depth: number): void {
    if (depth === 4) this.#solid = name === 'patternFill' && attributes['patternType'] === 'solid';
    if (depth !== 5 || name !== 'fgColor' || !this.#solid || this.fills.length === 0) return;
    const color = fileColor(attributes, this.#theme);
    if (color !== 'FFFFFF') this.fills[this.fills.length - 1] = color;
  }
}

/** What a style shows beyond black on white; one object for all styles that show the same. */
function lookOf({ font, fill }: Style, reader: StylesReader, known: Map<string, RawLook>): RawLook | undefined {
  const color = reader.fills[fill];
  const look: RawLook = { ...(color === undefined ? {} : { fill: color }), ...reader.fonts[font] };
  const key = JSON.stringify(look);
  if (key === '{}') return undefined;
  const same = known.get(key);
  if (same === undefined) known.set(key, look);
  return same ?? look;
}

/**
 * Number formats, fills and fonts by the style numbers that cells carry.
 *
 * Source: ECMA-376 Part 1, 18.8.10 (cellXfs), 18.8.31 (numFmts), 18.8.21 (fills), 18.8.23 (fonts). A file's own format
 * replaces the built-in one. Of fills the solid ones count.
 */
export function cellFormats(parts: BookParts, path: string, theme: readonly string[]): readonly CellFormat[] {
  const reader = new StylesReader(parts, path, theme);
  readPart(parts, path, reader);
  const byId = new Map<number, CellFormat>();
  const ofId = (id: number): CellFormat => {
    const code = reader.formats.get(id) ?? builtInFormat(id);
    return code === undefined || /^\s*(?:general)?\s*$/i.test(code)
      ? { code: undefined, kind: 'number' }
      : { code, kind: formatKind(code) };
  };
  const looks = new Map<string, RawLook>();
  return reader.styles.map((style) => {
    const format = byId.get(style.format) ?? ofId(style.format);
    byId.set(style.format, format);
    const look = lookOf(style, reader, looks);
    return look === undefined ? format : { ...format, look };
  });
}
