import { type Corner, goneReference, type TextReference, withReferences } from '../formula/reference-text.ts';
import { placeKey } from './place.ts';

/**
 * Formulas as they read after cells have moved: what they refer to stays the same cells.
 *
 * Rows and columns count as the sheet's here, from 0: row 0 holds the headers.
 */

/** Rows or columns of a sheet that come or go at a place. */
export interface Shift {
  readonly sheet: string;
  readonly axis: 'row' | 'column';
  readonly at: number;
  readonly added: number;
  readonly removed: number;
}

const alike = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Where the first and last of some rows or columns stand afterwards; undefined when all of them are gone. */
function shiftedSpan(first: number, last: number, { at, added, removed }: Shift): [number, number] | undefined {
  const end = at + removed;
  const from = first < at ? first : first < end ? at : first - removed;
  const to = last < at ? last : last < end ? at - 1 : last - removed;
  return to < from ? undefined : [from < at ? from : from + added, to < at ? to : to + added];
}

/** A formula on the sheet `standsIn` after rows or columns came or went: what they took away becomes #REF!. */
export function shiftedFormula(formula: string, standsIn: string, shift: Shift): string {
  const { axis } = shift;
  return withReferences(formula, (reference) => {
    const { sheet, from, to } = reference;
    const first = from[axis];
    if (!alike(sheet ?? standsIn, shift.sheet) || first === undefined) return undefined;
    const last = to?.[axis] ?? first;
    const span = shiftedSpan(Math.min(first, last), Math.max(first, last), shift);
    if (span === undefined) return goneReference;
    const [low, high] = span;
    const [start, end] = first <= last ? [low, high] : [high, low];
    if (start === first && end === last) return undefined;
    return {
      ...reference,
      from: { ...from, [axis]: start },
      to: to === undefined ? undefined : { ...to, [axis]: end },
    };
  });
}

/** Records that are added below the last one of a sheet. */
interface Growth {
  readonly sheet: string;
  /** How many records there were. */
  readonly records: number;
  readonly added: number;
}

/** A formula after records were added at a sheet's end: a range over all records of columns takes them in. */
export function grownFormula(formula: string, standsIn: string, { sheet, records, added }: Growth): string {
  return withReferences(formula, (reference) => {
    const { from, to } = reference;
    const all = from.row === 1 && to?.row === records && records > 0 && alike(reference.sheet ?? standsIn, sheet);
    return all ? { ...reference, to: { ...to, row: records + added } } : undefined;
  });
}

/** Cells that move elsewhere, each with where it goes. */
export class Relocation {
  readonly #targets = new Map<string, { readonly sheet: string; readonly row: number; readonly column: number }>();

  add(
    from: { readonly sheet: string; readonly row: number; readonly column: number },
    to: { readonly sheet: string; readonly row: number; readonly column: number },
  ): void {
    this.#targets.set(this.#key(from.sheet, from.row, from.column), to);
  }

  #key(sheet: string, row: number, column: number): string {
    return placeKey({ sheet: sheet.toLowerCase(), record: row, column });
  }

  #target(sheet: string, { row, column }: Corner): { sheet: string; row: number; column: number } | undefined {
    return row === undefined || column === undefined ? undefined : this.#targets.get(this.#key(sheet, row, column));
  }

  /** Whether every cell of a range goes along with its first one. */
  #together(sheet: string, from: Corner, to: Corner): boolean {
    const [start, first] = [this.#target(sheet, from), from];
    if (start === undefined || first.row === undefined || first.column === undefined) return false;
    if (to.row === undefined || to.column === undefined) return false;
    const [rows, columns] = [to.row - first.row, to.column - first.column];
    if ((Math.abs(rows) + 1) * (Math.abs(columns) + 1) > this.#targets.size) return false;
    for (let down = 0; down <= Math.abs(rows); down += 1) {
      for (let right = 0; right <= Math.abs(columns); right += 1) {
        const [row, column] = [down * Math.sign(rows), right * Math.sign(columns)];
        const target = this.#targets.get(this.#key(sheet, first.row + row, first.column + column));
        if (target?.sheet !== start.sheet || target.row !== start.row + row || target.column !== start.column + column)
          return false;
      }
    }
    return true;
  }

  /** The reference as it reads on the sheet `after` that was written on the sheet `before`. */
  #followed(reference: TextReference, before: string, after: string): TextReference | undefined {
    const sheet = reference.sheet ?? before;
    const { from, to } = reference;
    const start = to === undefined || this.#together(sheet, from, to) ? this.#target(sheet, from) : undefined;
    const end = start === undefined || to === undefined ? undefined : this.#target(sheet, to);
    if (start === undefined)
      return reference.sheet !== undefined || alike(before, after) ? undefined : { ...reference, sheet: before };
    const stays = reference.sheet === undefined && alike(start.sheet, after);
    return {
      sheet: stays ? undefined : start.sheet,
      from: { ...from, row: start.row, column: start.column },
      to: to === undefined || end === undefined ? undefined : { ...to, row: end.row, column: end.column },
    };
  }

  /**
   * A formula after the cells have moved, itself from the sheet `before` to the sheet `after`.
   *
   * A range follows when all of it moves together; one of which only a part moves stays where it is. A reference to a
   * cell that is written over goes on naming that cell.
   */
  formula(formula: string, before: string, after: string): string {
    return withReferences(formula, (reference) => this.#followed(reference, before, after));
  }
}
