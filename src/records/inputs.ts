import { boundsInWords } from '../formula/parameter.ts';
import { type Value } from '../formula/values.ts';
import type { BeltHeader, HeaderOf, SheetName } from '../../sheets/index.ts';
import { skew } from '../functions/parameters.ts';
import { type Column, isComputed } from '../sheet/declaration.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { isWords, unitOf, type UnitSystem } from '../units/quantities.ts';
import { declarationOf, headerPosition, namedSheetOf, namedValue } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { listed, type Measure } from '../sheet/words.ts';
import { NamingMemory } from './naming-memory.ts';

/** What is wrong with a cell, and what to do about it. */
export interface Issue {
  /** What was given and why it is not allowed, without a full stop. */
  readonly wrong: string;
  /** What is allowed, or what to do. */
  readonly remedy: string;
}

/** What may stand in an input's cell: of a declared column, of a named value, or of a column of the user's own. */
export interface Input extends Measure {
  /** How people call it: its column's header, or the named value's name. */
  readonly name: string;
  readonly doc: string;
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
  readonly choices?: readonly Name[];
  /** The sheet whose names the choices are. */
  readonly from?: string;
  readonly several?: true;
  readonly advice?: string;
}

/** What a record may be called: a text, or a number that is not the same as its text. */
export type Name = string | number;

const isName = (value: Value): value is Name =>
  typeof value === 'number' || (typeof value === 'string' && value.trim() !== '');

/** Whether a value is a name, without case: as look-ups compare. */
export const isCalled = (value: Value, name: Name): boolean =>
  typeof value === 'string' && typeof name === 'string' ? value.toLowerCase() === name.toLowerCase() : value === name;

/** The names in a declared sheet's column, without repeats. */
export const columnNames = <Sheet extends SheetName>(
  book: Workbook,
  sheet: Sheet,
  header: HeaderOf<Sheet>,
): readonly Name[] => namesIn(book, sheet, header);

const remembered = new NamingMemory((book, sheet, column): readonly Name[] => [
  ...new Set(
    book
      .sheet(sheet)
      .rows.map((_, record) => book.value({ sheet, record, column }))
      .filter(isName),
  ),
]);

const namesIn = (book: Workbook, sheet: string, header: string): readonly Name[] =>
  remembered.of(book, sheet, headerPosition(sheet, header));

const folded = (name: Name): Name => (typeof name === 'string' ? name.toLowerCase() : name);

/** Names without case, by the list that has them: a list of a hundred thousand is not gone through for each cell. */
const foldedNames = new WeakMap<readonly Name[], ReadonlySet<Name>>();

/** Whether a value is one of the names, without case. */
export function isAmong(value: Value, names: readonly Name[]): boolean {
  const known = foldedNames.get(names) ?? new Set(names.map(folded));
  foldedNames.set(names, known);
  return (typeof value === 'string' || typeof value === 'number') && known.has(folded(value));
}

/** Advice for an input that people understand in more than one way. */
const advices: Readonly<Record<string, string>> = { Skew: skew.advice } satisfies Partial<Record<BeltHeader, string>>;

const declaredInputs = new WeakMap<Column, Input>();

function columnInput(book: Workbook, column: Column): Input {
  const kept = declaredInputs.get(column);
  if (kept !== undefined) return kept;
  const { header, kind, doc, choices, ...rest } = column;
  const advice = advices[header];
  const fromSheet = choices !== undefined && 'sheet' in choices;
  const input = {
    name: header,
    kind,
    doc,
    ...rest,
    ...(choices === undefined
      ? {}
      : fromSheet
        ? { choices: namesIn(book, choices.sheet, choices.header), from: choices.sheet }
        : { choices }),
    ...(advice === undefined ? {} : { advice }),
  };
  if (!fromSheet) declaredInputs.set(column, input);
  return input;
}

/** What may stand in a cell; undefined where anything may, or where the sheet computes. */
export function inputAt(book: Workbook, { sheet, record, column }: CellPlace): Input | undefined {
  const declared = declarationOf(sheet)?.columns[column];
  if (namedSheetOf(sheet) !== undefined && column === valueColumn) {
    const named = namedValue(String(book.content({ sheet, record, column: 0 })));
    return named === undefined ? undefined : { ...named };
  }
  if (declared !== undefined) return isComputed(declared) ? undefined : columnInput(book, declared);
  const own = book.columnAt({ sheet, column });
  return own === undefined ? undefined : { name: own.header, kind: own.kind, doc: own.doc };
}

const numberWords = ({ kind, timed }: Pick<Input, 'kind' | 'timed'>, units: UnitSystem): string => {
  if (kind === 'date')
    return timed === true ? 'a date and a time as year-month-day hour:minute' : 'a date as year-month-day';
  if (kind === 'count') return 'a whole number';
  const unit = unitOf(kind, units);
  return unit === '' ? 'a number' : unit === '°' ? 'a number of degrees' : `a number (${unit})`;
};

/** What may stand in a cell, in words: "a number (mm), more than 0". */
export function allowedWords(input: Input, units: UnitSystem): string {
  const { kind, min, above, max, choices, several } = input;
  if (choices !== undefined) {
    const words = choices.map(String);
    if (several !== true) return listed(words, 'or', 12);
    const others = words.filter((word) => word !== 'none');
    return (
      `one or more of ${listed(others, 'or', 12)}, separated by commas` +
      `${others.length < words.length ? ', or none' : ''}`
    );
  }
  if (isWords(kind)) return 'a text';
  if (kind === 'date') return numberWords(input, units);
  const bounds = boundsInWords({
    kind: 'number',
    doc: '',
    ...(min === undefined ? {} : { min }),
    ...(above === undefined ? {} : { above }),
    ...(max === undefined ? {} : { max }),
  });
  return bounds === '' ? numberWords(input, units) : `${numberWords(input, units)}, ${bounds}`;
}
