import { columnLetters, columnPosition, quotedSheet } from './address.ts';

/**
 * References in the text of a formula, changed where they stand: everything else of the text stays as it was typed.
 *
 * Reads half a formula and a wrong one as well, since what a user left unfinished has to move with its cells too.
 * What stands between quotes or square brackets is no reference.
 */

/** One end of a reference; without a row in one to whole columns, without a column in one to whole rows. */
export interface Corner {
  readonly row: number | undefined;
  readonly rowFixed: boolean;
  readonly column: number | undefined;
  readonly columnFixed: boolean;
}

export interface TextReference {
  /** As it is called; absent when the reference stays on its own sheet. */
  readonly sheet?: string | undefined;
  readonly from: Corner;
  /** The other end of a range. */
  readonly to?: Corner | undefined;
}

/** What a reference becomes when the cell that it names is gone. */
export const goneReference = '#REF!';

const prefix = String.raw`(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)!`;
const cell = String.raw`\$?[A-Za-z]{1,3}\$?[1-9]\d{0,6}`;
const column = String.raw`\$?[A-Za-z]{1,3}`;
const row = String.raw`\$?[1-9]\d{0,6}`;
const pattern = new RegExp(
  String.raw`"(?:[^"]|"")*"?|\[[^\]]*\]?|(?<![\p{L}\p{N}_.$\\!:])(${prefix})?` +
    String.raw`(?:(${cell}|${column}(?=:)|${row}(?=:))(?::(${cell}|${column}|${row}))?)(?![\p{L}\p{N}_.(!:])`,
  'gu',
);
const parts = /^(\$?)([A-Za-z]{0,3})(\$?)(\d*)$/;

function corner(text: string): Corner {
  const [, first = '', letters = '', second = '', digits = ''] = parts.exec(text) ?? [];
  return {
    column: letters === '' ? undefined : columnPosition(letters),
    columnFixed: letters !== '' && first === '$',
    row: digits === '' ? undefined : Number(digits) - 1,
    rowFixed: digits !== '' && (letters === '' ? first : second) === '$',
  };
}

const shapeOf = ({ row: down, column: right }: Corner): string =>
  `${down === undefined ? '' : 'row'}${right === undefined ? '' : 'column'}`;

const sheetName = (written: string): string =>
  written
    .slice(0, -1)
    .replace(/^'(.*)'$/su, '$1')
    .replaceAll("''", "'");

const cornerText = ({ row: down, rowFixed, column: right, columnFixed }: Corner): string =>
  (right === undefined ? '' : `${columnFixed ? '$' : ''}${columnLetters(right)}`) +
  (down === undefined ? '' : `${rowFixed ? '$' : ''}${down + 1}`);

/** A reference as formulas write it. */
export const referenceText = ({ sheet, from, to }: TextReference): string =>
  `${sheet === undefined ? '' : `${quotedSheet(sheet)}!`}${cornerText(from)}` +
  `${to === undefined ? '' : `:${cornerText(to)}`}`;

/** A reference that was found, and where it stands in the text. */
interface FoundReference {
  readonly reference: TextReference;
  readonly start: number;
  readonly end: number;
}

/** All references of a formula's text, in their order. */
export function referencesIn(formula: string): FoundReference[] {
  const found: FoundReference[] = [];
  for (const match of formula.matchAll(pattern)) {
    const [whole, written, first, last] = match;
    if (first === undefined) continue;
    const [from, to] = [corner(first), last === undefined ? undefined : corner(last)];
    if (to !== undefined && shapeOf(from) !== shapeOf(to)) continue;
    found.push({
      reference: { sheet: written === undefined ? undefined : sheetName(written), from, to },
      start: match.index,
      end: match.index + whole.length,
    });
  }
  return found;
}

/** The formula with each reference as `change` makes it; undefined leaves it as it was written. */
export function withReferences(
  formula: string,
  change: (reference: TextReference) => TextReference | typeof goneReference | undefined,
): string {
  let text = '';
  let at = 0;
  for (const { reference, start, end } of referencesIn(formula)) {
    const changed = change(reference);
    if (changed === undefined) continue;
    text += formula.slice(at, start) + (typeof changed === 'string' ? changed : referenceText(changed));
    at = end;
  }
  return at === 0 ? formula : text + formula.slice(at);
}
