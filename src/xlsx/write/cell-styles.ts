import type { Alignment, Borders, Fill, Style } from 'exceljs';
import type { Column } from '../../sheet/declaration.ts';
import { borderLines, type OwnLook } from '../../workbook/own-look.ts';
import { isWords, type QuantityKind, type UnitSystem } from '../../units/quantities.ts';

/**
 * How cells of an exported book look. Every difference shows in black and white: shading for what the sheet works out,
 * a double rule for an override, hatching for a cell that needs a look.
 */
export type CellRole =
  'header' | 'computed header' | 'key' | 'input' | 'computed' | 'override' | 'marked' | 'note' | 'link';

const line = { style: 'thin', color: { argb: 'FFBFBFBF' } } as const;
const grid: Partial<Borders> = { top: line, bottom: line, left: line, right: line };
const shade = (argb: string): Fill => ({ type: 'pattern', pattern: 'solid', fgColor: { argb } });
const hatch: Fill = {
  type: 'pattern',
  pattern: 'lightUp',
  fgColor: { argb: 'FF808080' },
  bgColor: { argb: 'FFFFFFFF' },
};
const heavy = { style: 'medium', color: { argb: 'FF404040' } } as const;
const wrapped = { vertical: 'top', wrapText: true } as const;

/**
 * The shade of what the sheet works out: a grey that no program offers, so that a user's own grey is told from it when
 * a file comes back. Earlier versions took one that programs do offer.
 */
export const computedShade = 'F1F2F2';
export const earlierComputedShade = 'F2F2F2';

/** How texts and names stand: not the user's, when a file comes back. */
export const textAlign = 'left 1';
export const keyVertical = 'top';

/** The writer's default font, which a bold one has to repeat. */
const font = { name: 'Calibri', family: 2, size: 11 };

const looks: Readonly<Record<CellRole, Partial<Style>>> = {
  header: { font: { ...font, bold: true }, alignment: wrapped, border: { ...grid, bottom: heavy } },
  'computed header': {
    font: { ...font, bold: true, italic: true },
    fill: shade('FFE7E7E7'),
    alignment: wrapped,
    border: { ...grid, bottom: heavy },
  },
  key: { font: { ...font, bold: true }, alignment: { vertical: keyVertical }, border: grid },
  input: { border: grid },
  computed: { fill: shade(`FF${computedShade}`), border: grid },
  override: {
    font: { ...font, bold: true },
    border: { ...grid, bottom: { style: 'double', color: { argb: 'FF000000' } } },
  },
  marked: { font: { ...font, italic: true }, fill: hatch, border: grid },
  note: { alignment: wrapped, border: grid },
  link: { font: { ...font, underline: true }, alignment: wrapped, border: grid },
};

/** What the looks mean, for the About sheet. */
export const legend: readonly { readonly role: CellRole; readonly text: string }[] = [
  { role: 'input', text: 'input: enter your value' },
  { role: 'computed', text: "calculated by the sheet's own formula" },
  { role: 'override', text: "your override of the sheet's own formula" },
  { role: 'marked', text: 'not understood or not valid: its note says why' },
];

/** The format of a text that must stay one when it is edited. */
export const textFormat = '@';

const styles = new Map<string, Partial<Style>>();

function madeStyle(role: CellRole, format: string, own: OwnLook | undefined): Partial<Style> {
  // A text beside a number to its left would touch it.
  const indented =
    format === textFormat && looks[role].alignment === undefined ? { alignment: alignmentOf(textAlign) } : {};
  const standard = { ...looks[role], ...indented };
  return { ...standard, ...ownStyle(standard, own), numFmt: format };
}

/** What tells looks apart. */
export const lookKey = (role: CellRole, format: string, own: OwnLook | undefined): string =>
  own === undefined ? `${role}|${format}` : JSON.stringify([role, format, { ...own, comment: '', format: '' }]);

/** One object for each look and format, since the writer numbers style objects and cells share them. */
export function cellStyle(role: CellRole, format = 'General', own?: OwnLook): Partial<Style> {
  const key = lookKey(role, format, own);
  let style = styles.get(key);
  if (style === undefined) styles.set(key, (style = madeStyle(role, format, own)));
  return style;
}

/** "left 2" as a file says it. */
function alignmentOf(align: string): Partial<Alignment> {
  const [side, steps] = align.split(' ');
  const horizontal = side === 'center' || side === 'right' ? side : 'left';
  return { horizontal, indent: Number(steps ?? 0) };
}

/** What the user's look puts in place of the standard one: a file keeps both as far as they do not meet. */
function ownStyle(standard: Partial<Style>, own: OwnLook = {}): Partial<Style> {
  const { fill, color, bold, italic, underline, struck, align, vertical, wrap, borders } = own;
  const typeface = {
    ...(bold === true ? { bold } : {}),
    ...(italic === true ? { italic } : {}),
    ...(underline === true ? { underline } : {}),
    ...(struck === true ? { strike: struck } : {}),
    ...(color === undefined ? {} : { color: { argb: `FF${color}` } }),
  };
  const alignment: Partial<Alignment> = {
    ...(align === undefined ? {} : alignmentOf(align)),
    ...(vertical === 'top' || vertical === 'middle' ? { vertical } : {}),
    ...(wrap === true ? { wrapText: wrap } : {}),
  };
  const lines = (borders === undefined ? undefined : borderLines(borders)) ?? [];
  const border = Object.fromEntries(
    lines.map(({ side, style, color: argb }) => [side, { style, color: { argb: `FF${argb}` } }]),
  );
  return {
    ...(fill === undefined ? {} : { fill: shade(`FF${fill}`) }),
    ...(Object.keys(typeface).length === 0 ? {} : { font: { ...font, ...standard.font, ...typeface } }),
    ...(Object.keys(alignment).length === 0 ? {} : { alignment: { ...standard.alignment, ...alignment } }),
    ...(lines.length === 0 ? {} : { border: { ...standard.border, ...border } }),
  };
}

const decimals = (digits: number): string => (digits === 0 ? '0' : `0.${'0'.repeat(digits)}`);

/** A number format from a kind of quantity and the digits that its column shows. */
export function numberFormat(
  kind: QuantityKind,
  units: UnitSystem,
  column?: Pick<Column, 'digits' | 'percent' | 'timed'>,
): string {
  const given = column?.digits;
  const digits = typeof given === 'object' ? given[units] : given;
  if (isWords(kind)) return textFormat;
  if (kind === 'date') return column?.timed === true ? 'yyyy-mm-dd hh:mm' : 'yyyy-mm-dd';
  if (column?.percent === true) return `${decimals(digits ?? 0)}%`;
  if (kind === 'count') return '0';
  if (digits === undefined) return 'General';
  return kind === 'money' ? `#,##${decimals(digits)}` : decimals(digits);
}

/** Characters that a date takes. */
export const dateWidth = (column: { readonly timed?: true | undefined } | undefined): number =>
  column?.timed === true ? 18 : 12;
