import { understood } from '../records/typed-entry.ts';
import { nameRefusal, namesSheet, type OwnName, ownNameAt, unitRefusal, withOwnName } from '../workbook/own-names.ts';
import { typedFault } from '../workbook/typed-formula.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { isFormula } from '../formula/values.ts';
import type { Desk } from './desk.ts';
import { attempt } from './book-changes.ts';
import { enter } from './editing.ts';
import { knownNames } from './offerable.ts';

/** Puts a named value of the user's own into the book; why not, when it will not do. */
export function putOwnName(
  desk: Desk,
  record: number | undefined,
  typed: Omit<OwnName, 'value'>,
  value: string,
): string | undefined {
  const { book } = desk;
  const present = record === undefined ? undefined : ownNameAt(book.state, namesSheet, record);
  const refusal = nameRefusal(book.state, typed.name, present?.name);
  if (refusal !== undefined) return refusal;
  const unread = unitRefusal(typed.unit, book.units);
  if (unread !== undefined) return unread;
  const at = record ?? book.sheet(namesSheet).rows.length;
  const place = { sheet: namesSheet, record: at, column: valueColumn };
  const fault = isFormula(value) ? typedFault(value, place, book.state, knownNames(desk)) : undefined;
  if (fault !== undefined) return fault.says;
  const trial = withOwnName(book.state, { ...typed, value: present?.value ?? null }, record);
  if (!attempt(desk, () => book.replace(trial, record === undefined ? 'add named value' : 'change named value')))
    return undefined;
  // Read where the unit is known, so that 18 in is 457.2 mm.
  const read = understood(book, place, value);
  if (read.asks === undefined && read.refusal !== undefined) {
    book.undo();
    return `The value "${value}" was not understood: ${read.refusal.reason}. Enter ${read.refusal.allowed}.`;
  }
  enter(desk, [{ ...place, text: value }], 'enter value');
  desk.goTo(place);
  return undefined;
}
