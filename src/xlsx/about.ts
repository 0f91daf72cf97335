import { cellArea } from '../formula/references.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { parsed, printed } from '../formula/syntax.ts';
import type { CellPlace } from '../workbook/place.ts';
import { cellName } from '../formula/address.ts';
import { quantities, type QuantityKind, type UnitSystem } from '../units/quantities.ts';
import { checksum } from './checksum.ts';

/**
 * What an exported book says of itself, as rows of its About sheet and back.
 *
 * Cells of a file cannot say everything that a book holds: that a number replaces the sheet's own formula, what a
 * user's formula was before it was written in plain functions, which remark belongs to a cell. These rows do, so that a
 * book comes back from its file as it was. A row is a placeKey, then what belongs to it; rows with other keys are for
 * people.
 */
export interface About {
  readonly title: string;
  readonly units: UnitSystem;
  readonly invented: boolean;
  readonly sheets: readonly AboutSheet[];
  readonly columns: readonly AboutColumn[];
  readonly formulas: readonly AboutFormula[];
  /** Computed cells that hold the user's content instead of the sheet's formula. */
  readonly overrides: readonly CellPlace[];
  readonly remarks: readonly { readonly place: CellPlace; readonly text: string }[];
  /**
   * What the records are known by of which the rows above say something: in the file they may stand elsewhere now.
   * Versions before this one did not say.
   */
  readonly names: readonly { readonly place: CellPlace; readonly name: string }[];
}

export interface AboutSheet {
  readonly name: string;
  /** Its name in the file, where rules for sheet names are narrower than the book's. */
  readonly written: string;
  readonly records: number;
  /** Headers of its declared columns when it was written, in their order; versions before this one did not say. */
  readonly headers?: readonly string[];
  /** Headers of its working columns, which only the file has, in their order. */
  readonly workings?: readonly string[];
}

/** A column of the user's own; `position` counts all columns of its sheet from 0. */
interface AboutColumn {
  readonly sheet: string;
  readonly position: number;
  readonly header: string;
  readonly kind: QuantityKind;
}

export interface AboutFormula {
  readonly place: CellPlace;
  /** As the user typed it. */
  readonly text: string;
  /**
   * `formulaMark` of the formula that the file's cell holds, '' when a value stands there. With any other, the cell was
   * changed since.
   */
  readonly written: string;
}

export const aboutSheetName = 'About';
/** What cell A1 of the About sheet holds in a book that this program wrote. */
export const aboutMark = 'Skewbook';
/** Raised when rows change their meaning. */
const aboutFormat = 1;

/** The keys of rows that are read back. */
const keys = {
  format: 'Format',
  title: 'Title',
  units: 'Units',
  invented: 'Invented figures',
  sheet: 'Sheet',
  headers: 'Columns',
  workings: 'Working columns',
  column: 'Own column',
  formula: 'Formula typed',
  override: 'Override',
  remark: 'Remark',
  name: 'Record',
} as const;

export type AboutCell = number | string;
type ReadCell = AboutCell | boolean | null | undefined;

/** By which a formula of a file is known again, however a program spaces it when saving. */
export function formulaMark(formula: string): string {
  let text = formula;
  try {
    text = printed(parsed(formula));
  } catch (error) {
    if (!(error instanceof FormulaSyntaxError)) throw error;
  }
  return checksum(new TextEncoder().encode(text)).toString(16).padStart(8, '0');
}

/** A cell holds 32,767 characters; longer texts go on in the next cell. */
const pieceLength = 32_000;

const pieces = (text: string): string[] => {
  const cut: string[] = [];
  let at = 0;
  do {
    let end = at + pieceLength;
    // The two halves of a character beyond the first 65,536 stay together.
    if (/[\uDC00-\uDFFF]/.test(text.charAt(end))) end -= 1;
    cut.push(text.slice(at, end));
    at = end;
  } while (at < text.length);
  return cut;
};

const joined = (cells: readonly ReadCell[]): string =>
  cells.map((cell) => (cell === null || cell === undefined ? '' : String(cell))).join('');

const named = ({ sheet, record, column }: CellPlace): string => cellName(sheet, record, column);

function placeNamed(name: ReadCell): CellPlace | undefined {
  const area = typeof name === 'string' ? cellArea(name) : undefined;
  return area?.sheet === undefined || area.top < 1 || !Number.isFinite(area.bottom) || !Number.isFinite(area.right)
    ? undefined
    : { sheet: area.sheet, record: area.top - 1, column: area.left };
}

/** The rows, the mark first. */
export function aboutRows(about: About): AboutCell[][] {
  return [
    [aboutMark],
    [keys.format, aboutFormat],
    [keys.title, ...pieces(about.title)],
    [keys.units, about.units],
    [keys.invented, about.invented ? 'yes' : 'no'],
    ...about.sheets.map(({ name, written, records }) => [keys.sheet, name, written, records]),
    ...about.sheets.flatMap(({ name, headers = [] }) =>
      headers.length === 0 ? [] : [[keys.headers, name, ...headers]],
    ),
    ...about.sheets.flatMap(({ name, workings = [] }) =>
      workings.length === 0 ? [] : [[keys.workings, name, ...workings]],
    ),
    ...about.columns.map(({ sheet, position, header, kind }) => [
      keys.column,
      sheet,
      position,
      kind,
      ...pieces(header),
    ]),
    ...about.overrides.map((place) => [keys.override, named(place)]),
    ...about.formulas.map(({ place, text, written }) => [keys.formula, named(place), written, ...pieces(text)]),
    ...about.remarks.map(({ place, text }) => [keys.remark, named(place), ...pieces(text)]),
    ...about.names.map(({ place, name }) => [keys.name, named(place), ...pieces(name)]),
  ];
}

const isKind = (text: ReadCell): text is QuantityKind => typeof text === 'string' && Object.hasOwn(quantities, text);

/** What the rows say; undefined when they are not from this program, or in a format that it does not know. */
export function aboutOf(rows: readonly (readonly ReadCell[])[]): About | undefined {
  const values = (placeKey: string): (readonly ReadCell[])[] =>
    rows.filter(([first]) => first === placeKey).map(([, ...rest]) => rest);
  if (rows[0]?.[0] !== aboutMark || values(keys.format)[0]?.[0] !== aboutFormat) return undefined;
  const at = <Item>(placeKey: string, item: (place: CellPlace, cells: readonly ReadCell[]) => Item): Item[] =>
    values(placeKey).flatMap(([name, ...cells]) => {
      const place = placeNamed(name);
      return place === undefined ? [] : [item(place, cells)];
    });
  return {
    title: joined(values(keys.title)[0] ?? []),
    units: values(keys.units)[0]?.[0] === 'us' ? 'us' : 'metric',
    invented: values(keys.invented)[0]?.[0] === 'yes',
    sheets: values(keys.sheet).map(([name, written, records]) => {
      const headers = values(keys.headers).find(([sheet]) => sheet === name);
      const workings = values(keys.workings).find(([sheet]) => sheet === name);
      return {
        name: String(name),
        written: String(written),
        records: Number(records),
        ...(headers === undefined ? {} : { headers: headers.slice(1).map(String) }),
        ...(workings === undefined ? {} : { workings: workings.slice(1).map(String) }),
      };
    }),
    columns: values(keys.column).map(([sheet, position, kind, ...header]) => ({
      sheet: String(sheet),
      position: Number(position),
      header: joined(header),
      kind: isKind(kind) ? kind : 'text',
    })),
    overrides: at(keys.override, (place) => place),
    formulas: at(keys.formula, (place, [written, ...text]) => ({
      place,
      written: joined([written]),
      text: joined(text),
    })),
    remarks: at(keys.remark, (place, text) => ({ place, text: joined(text) })),
    names: at(keys.name, (place, name) => ({ place, name: joined(name) })),
  };
}
