import type { SheetName } from '../../sheets/index.ts';
import { FormulaSyntaxError, tokens } from '../formula/tokens.ts';
import { type Content, isFormula } from '../formula/values.ts';
import { quantities, type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';
import { nodesOf, parsed } from '../formula/syntax.ts';
import { withRecordsMoved, withSheet } from './state-changes.ts';
import { namedSheetOf, namedValue } from './declared.ts';
import { withAllFormulas } from './formula-changes.ts';
import { isFormulaName } from './names.ts';
import { type BookRow, type BookState, sheetOf } from './state.ts';
import { namedUnitKind } from './named-units.ts';

/**
 * Named values of the user's own: further rows of the sheet Assumptions, behind those that the program declares.
 *
 * All that is known of one stands in its row, so it goes into files and comes back as the others do. Its unit says what
 * it measures: a unit that one of the two systems writes turns with the book, any other stays.
 */

export const namesSheet = 'Assumptions' satisfies SheetName;

export interface OwnName {
  readonly name: string;
  readonly value: Content;
  readonly unit: string;
  readonly meaning: string;
  readonly source: string;
}

const text = (content: Content | undefined): string =>
  content === null || content === undefined ? '' : String(content);

/** The user's own value in a row of a sheet; undefined where the program declares it, or none is. */
export function ownNameAt(state: BookState, sheet: string, record: number): OwnName | undefined {
  const row = sheet === namesSheet ? sheetOf(state, sheet).rows[record] : undefined;
  if (row === undefined || namedValue(text(row.cells[0])) !== undefined) return undefined;
  const [name, value = null, unit, meaning, source] = row.cells;
  return { name: text(name), value, unit: text(unit), meaning: text(meaning), source: text(source) };
}

/** Why a text will not do as the name of a value; undefined when it will. */
export function nameRefusal(state: BookState, typed: string, present?: string): string | undefined {
  const name = typed.trim();
  if (name === '') return 'A named value needs a name.';
  if (!isFormulaName(name))
    return (
      `Formulas cannot call a value "${name}": use letters, digits and _, begin with a letter, and take none ` +
      `that is a cell such as AB12.`
    );
  const taken = state.sheets
    .filter((sheet) => namedSheetOf(sheet.name) !== undefined)
    .some(({ rows }) =>
      rows.some(({ cells }) => text(cells[0]).toLowerCase() === name.toLowerCase() && cells[0] !== present),
    );
  return taken || (namedValue(name) !== undefined && name !== present)
    ? `There is already a named value ${name}.`
    : undefined;
}

/** Why a text will not do as the unit of a named value in a book of these units; undefined when it will. */
export function unitRefusal(unit: string, units: UnitSystem): string | undefined {
  const kind = namedUnitKind(unit);
  const written = unitOf(kind, units);
  return kind === 'number' || kind === 'date' || unit.trim() === written
    ? undefined
    : `This book writes it in ${written}. Enter the unit ${written}; the value may still be typed in ${unit.trim()}.`;
}

const rowWith = ({ name, value, unit, meaning, source }: OwnName): BookRow => ({
  cells: [name, value, unit === '' ? null : unit, meaning === '' ? null : meaning, source === '' ? null : source],
});

/** A formula that calls a value by another name. */
function renamedFormula(formula: string, before: string, after: string): string {
  if (!formula.toLowerCase().includes(before.toLowerCase())) return formula;
  try {
    const found = tokens(formula.slice(1));
    let changed = '=';
    let end = 0;
    found.forEach((token, at) => {
      const called = found[at + 1]?.text === '(';
      if (token.type !== 'word' || called || token.text.toLowerCase() !== before.toLowerCase()) return;
      changed += formula.slice(1 + end, 1 + token.position) + after;
      end = token.position + token.text.length;
    });
    return end === 0 ? formula : changed + formula.slice(1 + end);
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** A state with one more named value, or with one of the user's changed; formulas follow its name. */
export function withOwnName(state: BookState, own: OwnName, record?: number): BookState {
  const before = record === undefined ? undefined : ownNameAt(state, namesSheet, record);
  if (before === undefined || record === undefined)
    return withRecordsMoved(state, namesSheet, sheetOf(state, namesSheet).rows.length, 0, [rowWith(own)]);
  const put = withSheet(state, namesSheet, (sheet) => ({ ...sheet, rows: sheet.rows.with(record, rowWith(own)) }));
  return before.name === own.name
    ? put
    : withAllFormulas(put, (formula) => renamedFormula(formula, before.name, own.name));
}

export const withoutOwnName = (state: BookState, record: number): BookState =>
  withRecordsMoved(state, namesSheet, record, 1, []);

/** How many cells' formulas call a named value. */
export function usesOfName({ sheets }: BookState, name: string): number {
  const wanted = name.toLowerCase();
  const calls = (content: Content): boolean => {
    if (!isFormula(content) || !content.toLowerCase().includes(wanted)) return false;
    try {
      return nodesOf(parsed(content)).some((node) => node.type === 'name' && node.name.toLowerCase() === wanted);
    } catch (error) {
      if (error instanceof FormulaSyntaxError) return false;
      throw error;
    }
  };
  return sheets.reduce(
    (sum, { rows }) => sum + rows.reduce((inSheet, { cells }) => inSheet + cells.filter(calls).length, 0),
    0,
  );
}

/** The units that a named value may be given, each with the kind that it measures. */
export const namedUnits = (units: UnitSystem): readonly { readonly unit: string; readonly kind: QuantityKind }[] =>
  (Object.keys(quantities) as QuantityKind[]).flatMap((kind) => {
    const unit = unitOf(kind, units);
    return unit !== '' && namedUnitKind(unit) === kind ? [{ unit, kind }] : [];
  });
