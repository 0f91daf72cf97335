import { capital } from '../units/phrases.ts';
import { isFault, isFormula, numberIn, type Value } from '../formula/values.ts';
import { valueColumn, valueIn } from '../sheet/named-values.ts';
import { isWords, type UnitSystem } from '../units/quantities.ts';
import { compiledSheets, declarationOf, headerPosition, namedSheetOf, namedValue } from '../workbook/declared.ts';
import { isFormulaName } from '../workbook/names.ts';
import { sheetRow } from '../formula/address.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { allowedWords, type Input, inputAt, isAmong, type Name, type Issue } from './inputs.ts';
import { nearest } from '../units/nearest.ts';
import { NamingMemory } from './naming-memory.ts';
import { pairIssue } from './pair-rules.ts';
import { amount, listed } from '../sheet/words.ts';

const isEmpty = (value: Value): boolean => value === null || value === '';
const isBlank = (value: Value): boolean => value === null || (typeof value === 'string' && value.trim() === '');

/** What an empty cell lacks. */
export function emptyIssue(input: Input, units: UnitSystem): Issue {
  const { name, doc, choices, from } = input;
  const wrong = `${name} is empty${doc === '' ? '' : ` (${doc})`}`;
  if (choices !== undefined)
    return {
      wrong,
      remedy:
        from !== undefined && choices.length === 0
          ? `enter one in the sheet ${from} first`
          : `choose ${allowedWords(input, units)}`,
    };
  return { wrong, remedy: `enter ${allowedWords(input, units)}` };
}

/** A number as people quote it in a message about it: as it is, not rounded. */
const asGiven = (value: number, input: Input, units: UnitSystem): string =>
  amount(value, { kind: input.kind, digits: 12 }, units);

function numberIssue(value: Value, input: Input, units: UnitSystem): Issue | undefined {
  const { name, min, above, max, kind, advice } = input;
  if (typeof value === 'boolean')
    return {
      wrong: `${name} holds ${String(value).toUpperCase()}, which is not a number`,
      remedy: `enter ${allowedWords(input, units)}`,
    };
  if (typeof value === 'string')
    return {
      wrong: `${name} holds the text "${value}", which is not ${kind === 'date' ? 'a date' : 'a number'}`,
      remedy: `enter ${allowedWords(input, units)}`,
    };
  if (typeof value !== 'number') return undefined;
  const outside =
    (min !== undefined && value < min) || (above !== undefined && value <= above) || (max !== undefined && value > max);
  if (!outside && !(kind === 'count' && !Number.isInteger(value))) return undefined;
  return {
    wrong: `${name} is ${asGiven(value, input, units)}`,
    remedy: `enter ${allowedWords(input, units)}${advice === undefined ? '' : `. ${advice}`}`,
  };
}

/** Words of a cell that holds several, separated by commas (or semicolons). */
export const severalWords = (text: string): string[] =>
  text
    .split(/[,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');

const nearestKept = new WeakMap<readonly Name[], Map<string, readonly string[]>>();

/** The choices that a text may mean; the same slip often stands in many rows. */
function nearestChoices(given: string, choices: readonly Name[]): readonly string[] {
  const kept = nearestKept.get(choices) ?? new Map<string, readonly string[]>();
  nearestKept.set(choices, kept);
  const near = kept.get(given) ?? nearest(given, choices.map(String));
  kept.set(given, near);
  return near;
}

function choiceIssue(value: Value, input: Input, choices: readonly Name[], units: UnitSystem): Issue | undefined {
  const given = isFault(value) || value === null ? '' : String(value);
  if (given.trim() === '') return emptyIssue(input, units);
  const words: readonly Value[] = input.several === true && typeof value === 'string' ? severalWords(value) : [value];
  const unknown = words.filter((word) => !isAmong(word, choices));
  if (unknown.length === 0 && words.length > 0) return undefined;
  const quoted = listed(
    (unknown.length === 0 ? [given] : unknown).map((word) =>
      typeof word === 'string' ? `"${word}"` : `the number ${String(word)}`,
    ),
  );
  const { name, from } = input;
  if (from === undefined)
    return {
      wrong: `${name} holds ${quoted}, which ${unknown.length > 1 ? 'are' : 'is'} not allowed`,
      remedy: `choose ${allowedWords(input, units)}`,
    };
  const wrong = `${name} names ${quoted}, which is not in the sheet ${from}`;
  const near = nearestChoices(given, choices);
  if (choices.length === 0) return { wrong, remedy: `enter it in the sheet ${from}` };
  const offered = near.length === 0 ? choices.map(String) : near;
  return { wrong, remedy: `choose ${listed(offered, 'or', 12)}, or enter ${quoted} in the sheet ${from}` };
}

/** A record's name without case, within what it is a part of; undefined when it has none. */
function nameOf(book: Workbook, sheet: string, record: number, column: number): string | undefined {
  const value = book.value({ sheet, record, column });
  if (value === null || isFault(value)) return undefined;
  const whole = declarationOf(sheet)?.partOf;
  const within =
    whole === undefined
      ? ''
      : `${String(book.value({ sheet, record, column: headerPosition(sheet, whole.header) })).trim()}/`;
  return `${within}${String(value).trim()}`.toLowerCase();
}

/** The first records of a sheet's key names, of the whole list where it is a part. */
const repeated = new NamingMemory((book, sheet, column): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  const { rows, before } = book.sheet(sheet);
  for (const record of rows.keys()) {
    const name = nameOf(book, sheet, record, column);
    if (name !== undefined && !found.has(name)) found.set(name, before?.first(name) ?? record + (before?.records ?? 0));
  }
  return found;
});

/**
 * Parts that are separated from the others of their whole: formulas take those of a whole in the order of neighbouring
 * rows.
 */
const severed = new NamingMemory((book, sheet, column): ReadonlySet<number> => {
  const [found, met] = [new Set<number>(), new Set<string>()];
  let before: string | undefined;
  for (const record of book.sheet(sheet).rows.keys()) {
    const value = book.value({ sheet, record, column });
    const whole = value === null || isFault(value) ? undefined : String(value).toLowerCase();
    if (whole !== undefined && whole !== before && met.has(whole)) found.add(record);
    if (whole !== undefined) met.add(whole);
    before = whole;
  }
  return found;
});

/** Sheets whose names other sheets look up. */
const lookedUp = new Set(
  [...compiledSheets.values()].flatMap(({ columns }) =>
    columns.flatMap(({ choices }) => (choices !== undefined && 'sheet' in choices ? [choices.sheet] : [])),
  ),
);

function keyIssue(book: Workbook, { sheet, record, column }: CellPlace, value: Value): Issue | undefined {
  const declaration = declarationOf(sheet);
  if (declaration === undefined) return undefined;
  if (isBlank(value) || typeof value === 'boolean')
    return {
      wrong: `the ${declaration.record} has no name`,
      remedy: `enter a name in ${declaration.key} that no other row has`,
    };
  const name = String(value);
  const first = repeated.of(book, sheet, column).get(nameOf(book, sheet, record, column) ?? '');
  if (first !== undefined && first !== record + (book.sheet(sheet).before?.records ?? 0)) {
    return {
      wrong: `the name "${name}" is already used in row ${sheetRow(first)}`,
      remedy: `give each ${declaration.record} a different name${
        declaration.partOf === undefined
          ? ''
          : ` within its ${declarationOf(declaration.partOf.sheet)?.record ?? 'whole'}`
      }`,
    };
  }
  if (
    declaration.partOf !== undefined &&
    severed.of(book, sheet, headerPosition(sheet, declaration.partOf.header)).has(record)
  ) {
    const whole = declarationOf(declaration.partOf.sheet)?.record ?? 'whole';
    return {
      wrong: `${declaration.record} "${name}" is separated from the others of its ${whole}`,
      remedy: `move them to neighbouring rows, in the order of travel`,
    };
  }
  if (namedSheetOf(sheet) !== undefined && !isFormulaName(name)) {
    return {
      wrong: `formulas cannot use the name "${name}"`,
      remedy: 'use letters, digits and _ only; start with a letter; do not use the name of a cell',
    };
  }
  if (lookedUp.has(sheet) && /[*?~]/.test(name))
    return {
      wrong: `the name "${name}" holds *, ? or ~, which other programs read as wildcards in a lookup`,
      remedy: 'remove these characters',
    };
  return undefined;
}

/** What is wrong with a value of the Units sheet, which the book's unit system sets. */
function unitIssue(book: Workbook, { sheet, record }: CellPlace, value: Value): Issue | undefined {
  const named = namedValue(String(book.content({ sheet, record, column: 0 })));
  const right = named === undefined ? undefined : valueIn(named, book.units);
  if (named === undefined || right === undefined || value === right) return undefined;
  return {
    wrong:
      `${named.name} is ${value === null ? 'empty' : String(value)}; the book's unit system sets it to ` + `${right}`,
    remedy: `restore ${right}`,
  };
}

const isKeyColumn = (sheet: string, column: number): boolean => {
  const declaration = declarationOf(sheet);
  return declaration !== undefined && declaration.columns[column]?.header === declaration.key;
};

/** Whether a column must hold something in every record: its name, or a named value. */
export const mustHold = (sheet: string, column: number): boolean =>
  isKeyColumn(sheet, column) || (namedSheetOf(sheet) !== undefined && column === valueColumn);

/**
 * What is wrong with what was put into a cell; undefined for one that is allowed, and for an empty one that is no name.
 */
export function issueAt(book: Workbook, place: CellPlace): Issue | undefined {
  const { sheet, record, column } = place;
  const content = book.content(place);
  if (content === null && !mustHold(sheet, column)) return undefined;
  const value = book.value(place);
  if (isFault(value))
    return {
      wrong: `the formula gives ${value.code}${value.message === '' ? '' : `: ${value.message}`}`,
      remedy: 'correct the formula or enter a value',
    };
  const note = book.note(place);
  if (note !== undefined) return { wrong: note, remedy: remedyAt(book, place) };
  const named = namedSheetOf(sheet);
  if (named !== undefined && column === valueColumn && !named.editable) return unitIssue(book, place, value);
  const declared = declarationOf(sheet)?.columns[column];
  if (declared?.formula !== undefined) {
    const words = isWords(declared.kind);
    return !words && typeof value !== 'number'
      ? {
          wrong: `"${String(value)}" replaces the sheet's own formula and is not a number`,
          remedy: 'restore the formula, or enter a number',
        }
      : undefined;
  }
  const input = inputAt(book, place);
  if (isKeyColumn(sheet, column))
    return (
      keyIssue(book, place, value) ??
      (input?.choices === undefined ? undefined : choiceIssue(value, input, input.choices, book.units))
    );
  if (input === undefined) return undefined;
  if (isEmpty(value)) return mustHold(sheet, column) || isFormula(content) ? emptyIssue(input, book.units) : undefined;
  if (input.choices !== undefined) return choiceIssue(value, input, input.choices, book.units);
  return isWords(input.kind)
    ? undefined
    : (numberIssue(value, input, book.units) ?? pairIssue(book, { sheet, record, column }));
}

/** A cell's number that is there and allowed. */
export function usableNumber(book: Workbook, place: CellPlace): number | undefined {
  const value = numberIn(book.value(place));
  return value === undefined || issueAt(book, place) !== undefined ? undefined : value;
}

function remedyAt(book: Workbook, place: CellPlace): string {
  const input = inputAt(book, place);
  return input === undefined ? 'enter it again' : `enter ${allowedWords(input, book.units)}`;
}

/** What is wrong with a cell's content, in one sentence for its mark; undefined for a cell that is allowed. */
export function cellIssue(book: Workbook, place: CellPlace): string | undefined {
  const issue = issueAt(book, place);
  return issue === undefined ? undefined : `${capital(issue.wrong)}: ${issue.remedy}`;
}
