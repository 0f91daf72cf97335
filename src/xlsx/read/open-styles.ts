import { rgbOf } from './file-colors.ts';
import type { RawLook } from './raw-look.ts';
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
}

/** A style with its parents' part in it. */
interface ResolvedStyle {
  readonly look?: RawLook;
  /** Code of its number format; absent for General, days and times. */
  readonly format?: string;
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
  readonly #resolved = new Map<string, ResolvedStyle>();
  readonly #looks = new Map<string, RawLook>();
  #name = '';
  #family = '';
  #format: string | undefined;
  #literal: string | undefined;

  open(name: string, attributes: Attributes): void {
    if (name === 'style:style') this.#style(attributes);
    else if (name.startsWith('number:')) this.#data(name, attributes);
    else if (name === 'style:table-properties') {
      if (attributes['table:display'] === 'false') this.#hidden.add(this.#name);
    } else if (name === 'style:table-column-properties') {
      const width = pixelsOf(attributes['style:column-width']);
      if (width !== undefined) this.#widths.set(this.#name, width);
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
    const style = this.#cells.get(this.#name);
    if (style === undefined) return;
    if (name === 'style:table-cell-properties') {
      const fill = attributes['fo:background-color'];
      if (fill !== undefined) style.fill = colorOf(fill) ?? 'FFFFFF';
    } else if (name === 'style:text-properties') {
      const { 'fo:color': color, 'fo:font-weight': weight, 'fo:font-style': slope } = attributes;
      if (attributes['style:use-window-font-color'] === 'true') style.color = '000000';
      else if (color !== undefined) style.color = colorOf(color);
      if (weight !== undefined) style.bold = weight === 'bold' || Number(weight) >= 600;
      if (slope !== undefined) style.italic = slope === 'italic';
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
    if (name === 'style:style') this.#family = '';
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

  styleOf(name: string): ResolvedStyle {
    const known = this.#resolved.get(name);
    if (known !== undefined) return known;
    const chain: CellStyle[] = [];
    for (let at: string | undefined = name; at !== undefined && chain.length < deepest;) {
      const style = this.#cells.get(at);
      if (style !== undefined) chain.push(style);
      at = style?.parent;
    }
    const first = <Value>(of: (style: CellStyle) => Value | undefined): Value | undefined =>
      chain.map(of).find((value) => value !== undefined);
    const [fill, color] = [first((style) => style.fill), first((style) => style.color)];
    const look: RawLook = {
      ...(fill === undefined || fill === 'FFFFFF' ? {} : { fill }),
      ...(color === undefined || isBlack(color) ? {} : { color }),
      ...(first((style) => style.bold) === true ? { bold: true as const } : {}),
      ...(first((style) => style.italic) === true ? { italic: true as const } : {}),
    };
    const key = JSON.stringify(look);
    const shared = this.#looks.get(key) ?? look;
    this.#looks.set(key, shared);
    const data = first((style) => (style.data === '' ? undefined : style.data));
    const format = data === undefined ? undefined : this.#formats.get(data);
    const resolved = { ...(key === '{}' ? {} : { look: shared }), ...(format === undefined ? {} : { format }) };
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
