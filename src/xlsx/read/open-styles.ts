import { rgbOf } from './file-colors.ts';
import { type BorderLine, bordersText } from '../../workbook/own-look.ts';
import type { RawLook, UnkeptKind } from './raw-look.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { type Attributes, type ElementReader, readPart } from './xml-part.ts';
import type { BookParts } from './zip-parts.ts';

/** Of a cell's style: what it says itself, and what it takes from its parent. */
interface CellStyle {
  readonly parent: string;
  readonly data: string;
  fill?: string | undefined;
  color?: string | undefined;
  bold?: boolean;
  italic?: boolean;
  underline?: boolean;
  struck?: boolean;
  align?: string;
  /** How far its text is moved in. */
  indent?: number;
  vertical?: string;
  wrap?: boolean;
  turned?: boolean;
  family?: string;
  size?: string;
  borders?: Map<BorderLine['side'], BorderLine | undefined>;
}

/** A style with its parents' part in it. */
interface ResolvedStyle {
  readonly look?: RawLook;
  /** Code of its number format; absent for General, days and times. */
  readonly format?: string;
  readonly unkept?: readonly UnkeptKind[];
}

/** Styles within styles; more are a circle. */
const deepest = 12;

/** Pixels of a screen in each unit of length. */
const pixels: Readonly<Record<string, number>> = { in: 96, cm: 96 / 2.54, mm: 96 / 25.4, pt: 96 / 72, px: 1 };

function pixelsOf(length: string | undefined): number | undefined {
  const [, number = '', unit = ''] = /^([\d.]+)(in|cm|mm|pt|px)$/.exec(length ?? '') ?? [];
  const size = Number(number) * (pixels[unit] ?? Number.NaN);
  return Number.isFinite(size) && size > 0 ? size : undefined;
}

const isBlack = (color: string | undefined): boolean => color === '000000';
const colorOf = (text: string | undefined): string | undefined => rgbOf(text?.replace(/^#/, ''));

const firstOf = <Value>(chain: readonly CellStyle[], of: (style: CellStyle) => Value | undefined): Value | undefined =>
  chain.map(of).find((value) => value !== undefined);

/** Pixels from which a line is heavier than a list's thin ones, and thick. */
const heavyLines = { medium: 1.9, thick: 2.9 };

/** A line as "1.76pt solid #000000" says it; undefined for none and for a thin one. */
function borderLine(side: BorderLine['side'], text: string): BorderLine | undefined {
  const [width, style, color] = text.split(' ');
  const heavy = pixelsOf(width) ?? 0;
  const own =
    style?.startsWith('double') === true
      ? 'double'
      : heavy >= heavyLines.thick
        ? 'thick'
        : heavy >= heavyLines.medium
          ? 'medium'
          : undefined;
  return own === undefined ? undefined : { side, style: own, color: colorOf(color) ?? '000000' };
}

/** Source: OASIS OpenDocument 1.2, part 1, 17.18 (style:table-cell-properties). */
function cellProperties(style: CellStyle, attributes: Attributes): void {
  const { 'fo:background-color': fill, 'style:vertical-align': vertical, 'fo:wrap-option': wrap } = attributes;
  const angle = attributes['style:rotation-angle'];
  if (fill !== undefined) style.fill = colorOf(fill) ?? 'FFFFFF';
  if (vertical !== undefined) style.vertical = vertical;
  if (attributes['style:text-align-source'] === 'value-type') style.align = 'general';
  if (wrap !== undefined) style.wrap = wrap === 'wrap';
  if (angle !== undefined) style.turned = Number.parseFloat(angle) !== 0;
  for (const side of ['top', 'right', 'bottom', 'left'] as const) {
    const line = attributes[`fo:border-${side}`] ?? attributes['fo:border'];
    if (line !== undefined) (style.borders ??= new Map()).set(side, borderLine(side, line));
  }
}

/** Characters that other programs move a text in by with each step: 10 points in LibreOffice. */
const indentStep = (10 / 72) * 96;

function paragraphProperties(style: CellStyle, { 'fo:text-align': align, 'fo:margin-left': margin }: Attributes): void {
  if (align !== undefined && style.align !== 'general')
    style.align = align === 'start' ? 'left' : align === 'end' ? 'right' : align;
  if (margin !== undefined) style.indent = Math.min(99, Math.round((pixelsOf(margin) ?? 0) / indentStep));
}

function lineProperties(style: CellStyle, attributes: Attributes): void {
  const below = attributes['style:text-underline-style'];
  const through = attributes['style:text-line-through-style'];
  const { 'style:font-name': family, 'fo:font-size': size } = attributes;
  if (below !== undefined) style.underline = below !== 'none';
  if (through !== undefined) style.struck = through !== 'none';
  if (family !== undefined) style.family = family;
  if (size !== undefined) style.size = size;
}

/** What a chain of styles shows beyond black on white. */
function lookOf(chain: readonly CellStyle[]): RawLook {
  const says = (of: (style: CellStyle) => boolean | undefined): boolean => firstOf(chain, of) === true;
  const fill = firstOf(chain, (style) => style.fill);
  const color = firstOf(chain, (style) => style.color);
  const align = firstOf(chain, (style) => style.align);
  const indent = firstOf(chain, (style) => style.indent) ?? 0;
  const vertical = firstOf(chain, (style) => style.vertical);
  const lines = firstOf(chain, (style) => style.borders);
  const borders = bordersText([...(lines?.values() ?? [])].filter((line) => line !== undefined));
  return {
    ...(fill === undefined || fill === 'FFFFFF' ? {} : { fill }),
    ...(color === undefined || isBlack(color) ? {} : { color }),
    ...(says((style) => style.bold) ? { bold: true } : {}),
    ...(says((style) => style.italic) ? { italic: true } : {}),
    ...(says((style) => style.underline) ? { underline: true } : {}),
    ...(says((style) => style.struck) ? { struck: true } : {}),
    ...(align === 'left' || align === 'right' || align === 'center'
      ? { align: indent > 0 && align !== 'center' ? `${align} ${indent}` : align }
      : {}),
    ...(vertical === 'top' || vertical === 'middle' ? { vertical } : {}),
    ...(says((style) => style.wrap) ? { wrap: true } : {}),
    ...(borders === undefined ? {} : { borders }),
  };
}

/** The code of a number's places. */
function placesOf(attributes: Attributes): string {
  const decimals = Number(attributes['number:decimal-places'] ?? Number.NaN);
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > 30) return 'General';
  const digits = Math.min(30, Math.max(1, Number(attributes['number:min-integer-digits'] ?? 1) || 1));
  const whole = attributes['number:grouping'] === 'true' && digits === 1 ? '#,##0' : '0'.repeat(digits);
  return decimals === 0 ? whole : `${whole}.${'0'.repeat(decimals)}`;
}

const quotedText = (text: string): string =>
  text === '' || text === '%' || text === ' ' ? text : `"${text.replaceAll('"', '')}"`;

/**
 * Styles of an OpenDocument file: fills, fonts, number formats, widths, hidden sheets. They stand in two parts, whose
 * elements are handed on to this.
 *
 * Source: OASIS OpenDocument 1.2, part 1, 16 (styles), 16.27 (data styles).
 */
export class OpenStyles implements ElementReader {
  readonly #cells = new Map<string, CellStyle>();
  readonly #formats = new Map<string, string>();
  readonly #widths = new Map<string, number>();
  readonly #hidden = new Set<string>();
  readonly #heights = new Set<string>();
  /** Of cells that say nothing. */
  readonly #standard: CellStyle = { parent: '', data: '' };
  readonly #resolved = new Map<string, ResolvedStyle>();
  readonly #looks = new Map<string, RawLook>();
  #name = '';
  #family = '';
  #format: string | undefined;
  #literal: string | undefined;

  open(name: string, attributes: Attributes): void {
    if (name === 'style:default-style') {
      this.#name = '';
      this.#family = attributes['style:family'] ?? '';
    } else if (name === 'style:style') this.#style(attributes);
    else if (name.startsWith('number:')) this.#data(name, attributes);
    else if (name === 'style:table-properties') {
      if (attributes['table:display'] === 'false') this.#hidden.add(this.#name);
    } else if (name === 'style:table-column-properties') {
      const width = pixelsOf(attributes['style:column-width']);
      if (width !== undefined) this.#widths.set(this.#name, width);
    } else if (name === 'style:table-row-properties') {
      if (attributes['style:use-optimal-row-height'] === 'false') this.#heights.add(this.#name);
    } else if (this.#family === 'table-cell') this.#properties(name, attributes);
  }

  #style(attributes: Attributes): void {
    this.#name = attributes['style:name'] ?? '';
    this.#family = attributes['style:family'] ?? '';
    if (this.#family !== 'table-cell') return;
    const { 'style:parent-style-name': parent = '', 'style:data-style-name': data = '' } = attributes;
    this.#cells.set(this.#name, { parent, data });
  }

  #properties(name: string, attributes: Attributes): void {
    const style = this.#name === '' ? this.#standard : this.#cells.get(this.#name);
    if (style === undefined) return;
    if (name === 'style:table-cell-properties') cellProperties(style, attributes);
    else if (name === 'style:paragraph-properties') paragraphProperties(style, attributes);
    else if (name === 'style:text-properties') {
      const { 'fo:color': color, 'fo:font-weight': weight, 'fo:font-style': slope } = attributes;
      if (attributes['style:use-window-font-color'] === 'true') style.color = '000000';
      else if (color !== undefined) style.color = colorOf(color);
      if (weight !== undefined) style.bold = weight === 'bold' || Number(weight) >= 600;
      if (slope !== undefined) style.italic = slope === 'italic';
      lineProperties(style, attributes);
    }
  }

  #data(name: string, attributes: Attributes): void {
    if (/^number:(?:number|percentage|currency)-style$/.test(name)) {
      this.#name = attributes['style:name'] ?? '';
      this.#format = '';
    } else if (this.#format === undefined) return;
    else if (name === 'number:number') this.#format += placesOf(attributes);
    else if (name === 'number:text' || name === 'number:currency-symbol') this.#literal = '';
    // Other parts, such as fractions, have no code of ours.
    else this.#format = undefined;
  }

  text(text: string): void {
    if (this.#literal !== undefined && this.#literal.length < 100) this.#literal += text;
  }

  close(name: string): void {
    if (name === 'style:style' || name === 'style:default-style') this.#family = '';
    if (this.#format === undefined) return;
    if (this.#literal !== undefined) this.#format += quotedText(this.#literal);
    this.#literal = undefined;
    if (!/^number:(?:number|percentage|currency)-style$/.test(name)) return;
    if (this.#format !== 'General' && this.#format.length < 250) this.#formats.set(this.#name, this.#format);
    this.#format = undefined;
  }

  /** Characters of a column. */
  widthOf = (style: string | undefined): number | undefined => this.#widths.get(style ?? '');

  isHidden = (style: string | undefined): boolean => this.#hidden.has(style ?? '');

  hasHeight = (style: string | undefined): boolean => this.#heights.has(style ?? '');

  /** Those of a style and of what it takes after, the nearest first. */
  #chain(name: string): readonly CellStyle[] {
    const chain: CellStyle[] = [];
    for (let at: string | undefined = name; at !== undefined && chain.length < deepest;) {
      const style = this.#cells.get(at);
      if (style !== undefined) chain.push(style);
      at = style?.parent;
    }
    return chain;
  }

  #unkept(chain: readonly CellStyle[]): readonly UnkeptKind[] {
    const standard = [...this.#chain('Default'), this.#standard];
    const differs = (of: (style: CellStyle) => string | undefined): boolean => {
      const shown = firstOf(chain, of);
      return shown !== undefined && shown !== firstOf(standard, of);
    };
    return [
      ...(differs(({ family }) => family) || differs(({ size }) => size) ? (['other fonts and sizes'] as const) : []),
      ...(firstOf(chain, ({ turned }) => turned) === true ? (['turned texts'] as const) : []),
    ];
  }

  styleOf(name: string): ResolvedStyle {
    const known = this.#resolved.get(name);
    if (known !== undefined) return known;
    const chain = this.#chain(name);
    const look = lookOf(chain);
    const key = JSON.stringify(look);
    const shared = this.#looks.get(key) ?? look;
    this.#looks.set(key, shared);
    const data = firstOf(chain, (style) => (style.data === '' ? undefined : style.data));
    const unkept = this.#unkept(chain);
    const format = data === undefined ? undefined : this.#formats.get(data);
    const resolved = {
      ...(key === '{}' ? {} : { look: shared }),
      ...(format === undefined ? {} : { format }),
      ...(unkept.length === 0 ? {} : { unkept }),
    };
    this.#resolved.set(name, resolved);
    return resolved;
  }
}

/** The named styles, which stand in a part of their own; an archive without it has none. */
export function namedStyles(parts: BookParts): OpenStyles {
  const styles = new OpenStyles();
  const path = parts.find('styles.xml');
  try {
    if (path !== undefined) readPart(parts, path, styles, 'whole names');
  } catch (error) {
    // A list is not refused for its styles.
    if (!(error instanceof UnreadableFile)) throw error;
  }
  return styles;
}
