import { fileColor } from './file-colors.ts';
import { builtInFormat, formatKind, type FormatKind } from './number-formats.ts';
import { type BorderLine, bordersText } from '../../workbook/own-look.ts';
import type { RawLook, UnkeptKind } from './raw-look.ts';
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
  /** What it shows that no book keeps. */
  readonly unkept?: readonly UnkeptKind[];
}

/** A style as the file says it: by the numbers of its format, font, fill and border. */
interface Style {
  readonly format: number;
  readonly font: number;
  readonly fill: number;
  readonly border: number;
  readonly alignment?: Attributes;
}

interface Font {
  readonly look: RawLook;
  readonly family: string;
  readonly size: number;
}

const borderStyles: Readonly<Record<string, BorderLine['style']>> = {
  medium: 'medium',
  mediumDashed: 'medium',
  mediumDashDot: 'medium',
  mediumDashDotDot: 'medium',
  slantDashDot: 'medium',
  thick: 'thick',
  double: 'double',
};

/** The side that an element of a border speaks of. */
const borderSides: Readonly<Record<string, BorderLine['side']>> = {
  top: 'top',
  right: 'right',
  end: 'right',
  bottom: 'bottom',
  left: 'left',
  start: 'left',
};

const horizontals: Readonly<Record<string, string>> = {
  left: 'left',
  center: 'center',
  centerContinuous: 'center',
  right: 'right',
};

const own = <Value>(record: Readonly<Record<string, Value>>, key: string | undefined): Value | undefined =>
  key !== undefined && Object.hasOwn(record, key) ? record[key] : undefined;

/** How a cell's text stands. Source: ECMA-376 Part 1, 18.8.1 (alignment). */
function alignmentLook({ horizontal, vertical, wrapText, indent }: Attributes): RawLook {
  const align = own(horizontals, horizontal);
  const steps = Math.min(99, Math.max(0, Math.trunc(Number(indent ?? 0)) || 0));
  return {
    ...(align === undefined ? {} : { align: steps > 0 && align !== 'center' ? `${align} ${steps}` : align }),
    ...(vertical === 'top' ? { vertical: 'top' } : vertical === 'center' ? { vertical: 'middle' } : {}),
    ...(isTrue(wrapText) ? { wrap: true } : {}),
  };
}

/** A b element without a value says yes. */
const says = ({ val }: Attributes): boolean => val === undefined || isTrue(val);

class StylesReader implements ElementReader {
  readonly #parts: BookParts;
  readonly #path: string;
  readonly #theme: readonly string[];
  readonly formats = new Map<number, string>();
  readonly fonts: Font[] = [];
  readonly fills: (string | undefined)[] = [];
  readonly borders: BorderLine[][] = [];
  readonly styles: Style[] = [];
  #section = '';
  #solid = false;
  #line: BorderLine | undefined;

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
    else if (this.#section === 'borders') this.#border(name, attributes, depth);
    else if (this.#section === 'cellXfs' && depth === 4 && name === 'alignment') this.#align(attributes);
  }

  #align(alignment: Attributes): void {
    const style = this.styles.pop();
    if (style !== undefined) this.styles.push({ ...style, alignment });
  }

  #item(name: string, { numFmtId, fontId, fillId, borderId, formatCode }: Attributes): void {
    if (this.#section === 'numFmts' && name === 'numFmt' && formatCode !== undefined)
      this.formats.set(Number(numFmtId), unescaped(formatCode));
    else if (this.#section === 'cellXfs' && name === 'xf')
      this.styles.push({
        format: Number(numFmtId ?? 0),
        font: Number(fontId ?? 0),
        fill: Number(fillId ?? 0),
        border: Number(borderId ?? 0),
      });
    else if (this.#section === 'fonts' && name === 'font') this.fonts.push({ look: {}, family: '', size: 0 });
    else if (this.#section === 'borders' && name === 'border') this.borders.push([]);
    else if (this.#section === 'fills' && name === 'fill') this.fills.push(undefined);
    const { cellFormats } = this.#parts.limits;
    const { styles, formats, fonts, fills, borders } = this;
    if (Math.max(styles.length, formats.size, fonts.length, fills.length, borders.length) > cellFormats)
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
    if (name === 'name') this.fonts[last] = { ...font, family: attributes['val'] ?? '' };
    else if (name === 'sz') this.fonts[last] = { ...font, size: Number(attributes['val'] ?? 0) };
    else this.fonts[last] = { ...font, look: { ...font.look, ...this.#typeface(name, attributes) } };
  }

  #typeface(name: string, attributes: Attributes): RawLook {
    const color = name === 'color' ? fileColor(attributes, this.#theme) : undefined;
    if (color !== undefined && color !== '000000') return { color };
    if (name === 'u') return attributes['val'] === 'none' ? {} : { underline: true };
    if (!says(attributes)) return {};
    return name === 'b' ? { bold: true } : name === 'i' ? { italic: true } : name === 'strike' ? { struck: true } : {};
  }

  #border(name: string, attributes: Attributes, depth: number): void {
    const lines = this.borders.at(-1);
    if (lines === undefined) return;
    if (depth === 4) {
      const [side, style] = [own(borderSides, name), own(borderStyles, attributes['style'])];
      this.#line = side === undefined || style === undefined ? undefined : { side, style, color: '000000' };
      if (this.#line !== undefined) lines.push(this.#line);
    } else if (depth === 5 && name === 'color' && this.#line !== undefined) {
      const color = fileColor(attributes, this.#theme);
      if (color !== undefined) lines[lines.length - 1] = { ...this.#line, color };
    }
  }

  #fill(name: string, attributes: Attributes, depth: number): void {
    if (depth === 4) this.#solid = name === 'patternFill' && attributes['patternType'] === 'solid';
    if (depth !== 5 || name !== 'fgColor' || !this.#solid || this.fills.length === 0) return;
    const color = fileColor(attributes, this.#theme);
    if (color !== 'FFFFFF') this.fills[this.fills.length - 1] = color;
  }
}

/** What a style shows beyond black on white; one object for all styles that show the same. */
function lookOf(style: Style, reader: StylesReader, known: Map<string, RawLook>): RawLook | undefined {
  const color = reader.fills[style.fill];
  const borders = bordersText(reader.borders[style.border] ?? []);
  const look: RawLook = {
    ...(color === undefined ? {} : { fill: color }),
    ...reader.fonts[style.font]?.look,
    ...alignmentLook(style.alignment ?? {}),
    ...(borders === undefined ? {} : { borders }),
  };
  const key = JSON.stringify(look);
  if (key === '{}') return undefined;
  const same = known.get(key);
  if (same === undefined) known.set(key, look);
  return same ?? look;
}

/** What a style shows that no book keeps: a font that is not the file's first, a text that is turned. */
function unkeptOf({ font, alignment }: Style, { fonts }: StylesReader): readonly UnkeptKind[] | undefined {
  const [standard, shown] = [fonts[0], fonts[font]];
  const other =
    standard !== undefined &&
    shown !== undefined &&
    (shown.family.toLowerCase() !== standard.family.toLowerCase() || shown.size !== standard.size);
  const turned = Number(alignment?.['textRotation'] ?? 0) !== 0;
  if (!other && !turned) return undefined;
  return [...(other ? (['other fonts and sizes'] as const) : []), ...(turned ? (['turned texts'] as const) : [])];
}

/**
 * Number formats, fills and fonts by the style numbers that cells carry.
 *
 * Source: ECMA-376 Part 1, 18.8.10 (cellXfs), 18.8.31 (numFmts), 18.8.21 (fills), 18.8.23 (fonts), 18.8.5
 * (borders). A file's own format replaces the built-in one. Of fills the solid ones count.
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
    const unkept = unkeptOf(style, reader);
    return look === undefined && unkept === undefined
      ? format
      : { ...format, ...(look === undefined ? {} : { look }), ...(unkept === undefined ? {} : { unkept }) };
  });
}
