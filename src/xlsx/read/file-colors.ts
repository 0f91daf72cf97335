import type { Attributes } from './xml-part.ts';

/** Colours as workbook files name them, as six hexadecimal digits. */

/**
 * The colours that files name by number, from 8 on; the first eight numbers are the same as these eight. Source:
 * ECMA-376 Part 1, 18.8.27 (indexedColors), the default values.
 */
const numbered =
  '000000 FFFFFF FF0000 00FF00 0000FF FFFF00 FF00FF 00FFFF 800000 008000 000080 808000 800080 008080 C0C0C0 808080 ' +
  '9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF 000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF ' +
  '00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99 3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 ' +
  '003366 339966 003300 333300 993300 993366 333399 333333';
const palette = numbered.split(' ');

/**
 * The order in which cells number a theme's colours: light and dark change places. Source: ECMA-376 Part 1, 18.8.3
 * (theme attribute) and 20.1.6.2 (clrScheme); that they change places is from memory.
 */
export const themeOrder = [
  'lt1',
  'dk1',
  'lt2',
  'dk2',
  'accent1',
  'accent2',
  'accent3',
  'accent4',
  'accent5',
  'accent6',
  'hlink',
  'folHlink',
] as const;

/** What stands for a theme that a file does not have: black on white. */
export const plainTheme: readonly string[] = ['FFFFFF', '000000'];

const sixDigits = /^(?:[0-9A-Fa-f]{2})?([0-9A-Fa-f]{6})$/;

export const rgbOf = (text: string | undefined): string | undefined => sixDigits.exec(text ?? '')?.[1]?.toUpperCase();

/**
 * A colour nearer to white or to black. Each part is moved by the same share, which gives the lightness that the
 * standard asks for. Source: ECMA-376 Part 1, 18.8.19 (tint).
 */
function tinted(color: string, tint: number): string {
  if (!Number.isFinite(tint) || tint === 0) return color;
  const share = Math.max(-1, Math.min(1, tint));
  return [0, 2, 4]
    .map((at) => {
      const part = Number.parseInt(color.slice(at, at + 2), 16);
      const moved = share < 0 ? part * (1 + share) : part + (255 - part) * share;
      return Math.round(moved).toString(16).padStart(2, '0');
    })
    .join('')
    .toUpperCase();
}

/** The colour of an element; undefined where it names none, or leaves it to the program. */
export function fileColor(
  { rgb, theme, indexed, tint, auto }: Attributes,
  themed: readonly string[],
): string | undefined {
  if (auto !== undefined && auto !== '0') return undefined;
  const number = Number(indexed);
  const base =
    rgbOf(rgb) ??
    (theme === undefined ? undefined : themed[Number(theme)]) ??
    palette[number >= 8 ? number - 8 : number];
  return base === undefined ? undefined : tinted(base, Number(tint ?? 0));
}
