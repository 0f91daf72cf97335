import type { Column } from './declaration.ts';
import { spelt, usSpelling } from '../units/spelling.ts';
import { type QuantityKind, type UnitSystem, unitOf } from '../units/quantities.ts';

/** The unit of a column's numbers: that of their kind, or what the user calls it where the kind has none. */
export const columnUnit = ({ kind, unit = '' }: { kind: QuantityKind; unit?: string }, units: UnitSystem): string =>
  unitOf(kind, units) === '' ? unit : unitOf(kind, units);

/** A column's header as lists carry it: its name, then its unit in brackets where it has one, as "Width (mm)". */
export function headerWithUnit(header: string, kind: QuantityKind, units: UnitSystem, own?: string): string {
  const unit = columnUnit({ kind, ...(own === undefined ? {} : { unit: own }) }, units);
  return unit === '' ? header : `${header} (${unit})`;
}

/** A column's header as the book's users spell it; what they have called their own columns stays. */
export const shownHeader = (column: { readonly header: string; readonly own?: boolean }, units: UnitSystem): string =>
  column.own === true ? column.header : spelt(column.header, units);

/** Whether a text names a column: as it is called, as US books spell that, or as earlier versions called it. */
export function isCalled({ header, formerly }: Pick<Column, 'header' | 'formerly'>, text: string): boolean {
  const wanted = text.trim().toLowerCase();
  return [header, usSpelling(header), formerly].some((name) => name?.toLowerCase() === wanted);
}
