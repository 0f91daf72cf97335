import type { Content } from '../formula/values.ts';
import { quantities, type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';
import { formulaBelow } from '../workbook/column-formulas.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { CellFormat, UserColumn } from '../workbook/state.ts';
import { type Book, books, type MatchedColumn, type MatchedSheet } from './matched-sheets.ts';
import type { MovedReferences } from './moved-references.ts';

/** What the user says of a column of their own, each a fact by itself; what it measures in is one with its kind. */

export const columnFacts = ['name', 'kind and unit', 'decimals', 'meaning', 'formula'] as const;
export type ColumnFact = (typeof columnFacts)[number];

/** What the numbers of a kind are in words: its name as formulas' documentation has it, and its unit. */
function measureWords(
  { kind, percent, unit }: Pick<UserColumn, 'kind' | 'percent' | 'unit'>,
  units: UnitSystem,
): string {
  if (percent === true) return 'percent';
  const written = unit ?? unitOf(kind, units);
  return written === '' ? kindWords(kind) : `${kindWords(kind)} in ${written}`;
}

/** "lineTension" as people write it: "line tension". */
const kindWords = (kind: QuantityKind): string =>
  Object.hasOwn(quantities, kind) ? kind.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`) : kind;

/** How a cell of the user's own shows its numbers, in words. */
export function formatWords(format: CellFormat, units: UnitSystem): string {
  const { digits } = format;
  const decimals = digits === undefined ? '' : `, ${digits} ${digits === 1 ? 'decimal' : 'decimals'}`;
  return `${measureWords(format, units)}${decimals}`;
}

export const sameFormat = (one: CellFormat | undefined, other: CellFormat | undefined): boolean =>
  one === other ||
  (one !== undefined &&
    other !== undefined &&
    one.kind === other.kind &&
    one.digits === other.digits &&
    one.percent === other.percent);

const declaredWidth = ({ name }: MatchedSheet): number => compiledSheets.get(name)?.columns.length ?? 0;

/** A column of the user's as one of the books has it. */
export const ownColumnIn = (sheet: MatchedSheet, { places }: MatchedColumn, book: Book): UserColumn | undefined =>
  places[book] < 0 ? undefined : sheet.states[book]?.userColumns[places[book] - declaredWidth(sheet)];

/**
 * The formulas that the user gave whole columns of a sheet, in three books, and the cells that follow them. Such a cell
 * says nothing of its own: a column whose formula one of the books changed is one change, not one for each record.
 */
export class ColumnRules {
  readonly #sheet: MatchedSheet;
  readonly #known = new Map<MatchedColumn, Readonly<Record<Book, string | undefined>> | undefined>();

  constructor(sheet: MatchedSheet) {
    this.#sheet = sheet;
  }

  /** A column's formula in a book, as its first record has it. */
  formula(column: MatchedColumn, book: Book): string | undefined {
    return this.#formulas(column)?.[book];
  }

  /**
   * Whether a cell holds what its column's formula makes it. Where only another book gives the column a formula, an
   * empty cell does: it was empty for lack of one.
   */
  follows(column: MatchedColumn, book: Book, record: number, content: Content): boolean {
    const formulas = this.#formulas(column);
    if (formulas === undefined) return false;
    const formula = formulas[book];
    return formula === undefined ? content === null : content === formulaBelow(formula, record);
  }

  #formulas(column: MatchedColumn): Readonly<Record<Book, string | undefined>> | undefined {
    if (!column.own) return undefined;
    if (!this.#known.has(column)) {
      const [base, mine, theirs] = books.map((book) => ownColumnIn(this.#sheet, column, book)?.formula);
      const some = [base, mine, theirs].some((formula) => formula !== undefined);
      this.#known.set(column, some ? { base, mine, theirs } : undefined);
    }
    return this.#known.get(column);
  }
}

/** What a book says of one of its own columns; null for nothing. `moves` leads its formula to where it is compared. */
export function columnFact(
  column: UserColumn | undefined,
  fact: ColumnFact,
  units: UnitSystem,
  formula: { readonly text: string | undefined; readonly sheet: string; readonly moves?: MovedReferences },
): Content {
  switch (fact) {
    case 'name':
      return column?.header ?? null;
    case 'kind and unit':
      return column === undefined ? null : measureWords(column, units);
    case 'decimals':
      return column?.digits ?? null;
    case 'meaning':
      return column?.doc ?? null;
    case 'formula':
      return formula.text === undefined
        ? null
        : (formula.moves?.columnFormula(formula.text, formula.sheet) ?? formula.text);
  }
}

/** A column of which each fact is that of the book that counts for it. */
export function columnOfFacts(
  of: (fact: ColumnFact) => UserColumn | undefined,
  formula: string | undefined,
): UserColumn | undefined {
  const [named, measured] = [of('name'), of('kind and unit')];
  if (named === undefined || measured === undefined) return undefined;
  const { digits } = of('decimals') ?? {};
  const { doc } = of('meaning') ?? {};
  return {
    header: named.header,
    kind: measured.kind,
    ...(digits === undefined ? {} : { digits }),
    ...(measured.percent === undefined ? {} : { percent: measured.percent }),
    ...(measured.unit === undefined ? {} : { unit: measured.unit }),
    ...(doc === undefined ? {} : { doc }),
    ...(formula === undefined ? {} : { formula }),
  };
}
