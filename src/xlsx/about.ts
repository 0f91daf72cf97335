import { type AboutCell, joined, pieces, type ReadCell } from './about-texts.ts';
import { cellArea } from '../formula/references.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { parsed, printed } from '../formula/syntax.ts';
import { type BookLook, type ColumnLayout, noLook, type OwnView, readLayout } from '../workbook/book-look.ts';
import type { CellPlace } from '../workbook/place.ts';
import { cellName } from '../formula/address.ts';
import { quantities, type QuantityKind, type UnitSystem } from '../units/quantities.ts';
import { mostDigits } from '../workbook/own-columns.ts';
import type { CellFormat, UserColumn } from '../workbook/state.ts';
import { checksum } from './checksum.ts';
import type { RawSheet } from './read/raw-book.ts';

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
  /** By which whoever wrote it knows this export again, wherever it was edited; not every export has one. */
  readonly mark?: string | undefined;
  readonly sheets: readonly AboutSheet[];
  readonly columns: readonly AboutColumn[];
  readonly formulas: readonly AboutFormula[];
  /** Computed cells that hold the user's content instead of the sheet's formula. */
  readonly overrides: readonly CellPlace[];
  readonly remarks: readonly { readonly place: CellPlace; readonly text: string }[];
  /** Cells that show their numbers otherwise than their columns. Versions before this one had none. */
  readonly formats: readonly { readonly place: CellPlace; readonly format: CellFormat }[];
  /**
   * What the records are known by of which the rows above say something: in the file they may stand elsewhere now.
   * Versions before this one did not say.
   */
  readonly names: readonly { readonly place: CellPlace; readonly name: string }[];
  /** How the book is looked at; versions before this one did not say. */
  readonly look?: BookLook;
  /** Characters of each column of a sheet as it was written: with another width, somebody has drawn it. */
  readonly widths: ReadonlyMap<string, readonly number[]>;
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
  readonly column: UserColumn;
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
  mark: 'Export mark',
  sheet: 'Sheet',
  headers: 'Columns',
  workings: 'Working columns',
  column: 'Own column',
  columnSays: 'Own column says',
  cellFormat: 'Cell format',
  formula: 'Formula typed',
  override: 'Override',
  remark: 'Remark',
  name: 'Record',
  layout: 'Layout',
  view: 'View',
  widths: 'Column widths',
} as const;

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
    ...(about.mark === undefined ? [] : [[keys.mark, about.mark]]),
    ...about.sheets.map(({ name, written, records }) => [keys.sheet, name, written, records]),
    ...about.sheets.flatMap(({ name, headers = [] }) =>
      headers.length === 0 ? [] : [[keys.headers, name, ...headers]],
    ),
    ...about.sheets.flatMap(({ name, workings = [] }) =>
      workings.length === 0 ? [] : [[keys.workings, name, ...workings]],
    ),
    ...about.columns.map(({ sheet, position, column: { header, kind } }) => [
      keys.column,
      sheet,
      position,
      kind,
      ...pieces(header),
    ]),
    ...about.columns.flatMap(({ sheet, position, column }) =>
      saidOfColumns.flatMap((what) =>
        column[what] === undefined ? [] : [[keys.columnSays, sheet, position, what, ...pieces(String(column[what]))]],
      ),
    ),
    ...about.formats.map(({ place, format: { kind, digits = '', percent } }) => [
      keys.cellFormat,
      named(place),
      kind,
      digits,
      percent === true ? 'percent' : '',
    ]),
    ...about.overrides.map((place) => [keys.override, named(place)]),
    ...about.formulas.map(({ place, text, written }) => [keys.formula, named(place), written, ...pieces(text)]),
    ...about.remarks.map(({ place, text }) => [keys.remark, named(place), ...pieces(text)]),
    ...about.names.map(({ place, name }) => [keys.name, named(place), ...pieces(name)]),
    ...lookRows(about),
  ];
}

/** The whole number of digits that a cell says; none where it says nothing of the sort. */
function digitsIn(cell: ReadCell): { readonly digits?: number } {
  const digits = cell === null || cell === undefined || cell === '' ? NaN : Number(cell);
  return Number.isInteger(digits) && digits >= 0 && digits <= mostDigits ? { digits } : {};
}

/** What is said of a column beyond its header and kind, in rows of their own. */
const saidOfColumns = ['unit', 'doc', 'formula', 'digits', 'percent'] as const;

/** What the rows say of one of the user's columns beyond its header and kind. */
function columnSays(
  rows: readonly (readonly ReadCell[])[],
  sheet: ReadCell,
  position: ReadCell,
): Omit<UserColumn, 'header' | 'kind'> {
  const says = new Map(
    rows
      .filter((row) => row[0] === sheet && Number(row[1]) === Number(position))
      .map(([, , what, ...said]) => [String(what), joined(said)]),
  );
  const [unit, doc, formula] = [says.get('unit'), says.get('doc'), says.get('formula')];
  return {
    ...(unit === undefined ? {} : { unit }),
    ...(doc === undefined ? {} : { doc }),
    ...(formula?.startsWith('=') === true ? { formula } : {}),
    ...digitsIn(says.get('digits')),
    ...(says.get('percent') === 'true' ? { percent: true } : {}),
  };
}

function lookRows({ look = noLook, widths }: About): AboutCell[][] {
  return [
    ...Object.entries(look.layouts).map(([sheet, layout]) => [keys.layout, sheet, ...pieces(JSON.stringify(layout))]),
    ...look.views.map(({ sheet, name, layout }) => [keys.view, sheet, name, ...pieces(JSON.stringify(layout))]),
    ...[...widths].map(([sheet, characters]) => [keys.widths, sheet, ...characters]),
  ];
}

function layoutIn(cells: readonly ReadCell[]): ColumnLayout | undefined {
  try {
    return readLayout(JSON.parse(joined(cells)));
  } catch {
    // Somebody has written over it: the sheet is shown as if it were new.
    return undefined;
  }
}

function lookIn(values: (key: string) => (readonly ReadCell[])[]): BookLook | undefined {
  const layouts = values(keys.layout).flatMap(([sheet, ...cells]) => {
    const layout = layoutIn(cells);
    return layout === undefined ? [] : [[String(sheet), layout] as const];
  });
  const views = values(keys.view).flatMap(([sheet, name, ...cells]): OwnView[] => {
    const layout = layoutIn(cells);
    return layout === undefined ? [] : [{ sheet: String(sheet), name: String(name), layout }];
  });
  return layouts.length + views.length === 0 ? undefined : { layouts: Object.fromEntries(layouts), views };
}

const isKind = (text: ReadCell): text is QuantityKind => typeof text === 'string' && Object.hasOwn(quantities, text);

const markOf = (cell: ReadCell): Pick<About, 'mark'> => (typeof cell === 'string' ? { mark: cell } : {});

/** What the rows say; undefined when they are not from this program, or in a format that it does not know. */
function aboutOf(rows: readonly (readonly ReadCell[])[]): About | undefined {
  const values = (placeKey: string): (readonly ReadCell[])[] =>
    rows.filter(([first]) => first === placeKey).map(([, ...rest]) => rest);
  if (rows[0]?.[0] !== aboutMark || values(keys.format)[0]?.[0] !== aboutFormat) return undefined;
  const look = lookIn(values);
  const at = <Item>(placeKey: string, item: (place: CellPlace, cells: readonly ReadCell[]) => Item): Item[] =>
    values(placeKey).flatMap(([name, ...cells]) => {
      const place = placeNamed(name);
      return place === undefined ? [] : [item(place, cells)];
    });
  return {
    title: joined(values(keys.title)[0] ?? []),
    units: values(keys.units)[0]?.[0] === 'us' ? 'us' : 'metric',
    invented: values(keys.invented)[0]?.[0] === 'yes',
    ...markOf(values(keys.mark)[0]?.[0]),
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
      column: {
        header: joined(header),
        kind: isKind(kind) ? kind : 'text',
        ...columnSays(values(keys.columnSays), sheet, position),
      },
    })),
    formats: at(keys.cellFormat, (place, [kind, digits, percent]) => ({
      place,
      format: {
        kind: isKind(kind) ? kind : 'number',
        ...digitsIn(digits),
        ...(percent === 'percent' ? { percent: true } : {}),
      },
    })),
    overrides: at(keys.override, (place) => place),
    formulas: at(keys.formula, (place, [written, ...text]) => ({
      place,
      written: joined([written]),
      text: joined(text),
    })),
    remarks: at(keys.remark, (place, text) => ({ place, text: joined(text) })),
    names: at(keys.name, (place, name) => ({ place, name: joined(name) })),
    ...(look === undefined ? {} : { look }),
    widths: new Map(
      values(keys.widths).map(([sheet, ...characters]) => [String(sheet), characters.map(Number)] as const),
    ),
  };
}

/** What a sheet of a file says, as `aboutOf`. */
export const aboutIn = ({ rows }: Pick<RawSheet, 'rows'>): About | undefined =>
  aboutOf(
    [...rows]
      .toSorted(([a], [b]) => a - b)
      .map(([, cells]) => {
        const values: ReadCell[] = [];
        for (const cell of cells) values[cell.column - 1] = cell.value;
        return values;
      }),
  );
