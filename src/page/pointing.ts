import { referenceText, type TextReference } from '../formula/reference-text.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Desk } from './desk.ts';
import { contentField, replaceText, type TypingField, typedPlace } from './typing-field.ts';

/**
 * Pointing: while a formula is typed and a value is due, a click on a cell puts its reference there, and drawing over
 * several puts their range.
 */

/** Whether a reference may follow a text. For tests: half formulas are looked at. */
export function awaitsReference(before: string): boolean {
  if (!before.startsWith('=') || (before.match(/"/g)?.length ?? 0) % 2 === 1) return false;
  return /[=(,;+\-*/^&<>{]\s*$/u.test(before);
}

const corner = ({ record, column }: CellPlace): TextReference['from'] => ({
  row: record + 1,
  rowFixed: false,
  column,
  columnFixed: false,
});

/** Two cells as a formula on a sheet names what lies between them. For tests: references are compared. */
export function pointedText(one: CellPlace, other: CellPlace, sheet: string): string {
  const from = { ...one, record: Math.min(one.record, other.record), column: Math.min(one.column, other.column) };
  const to = { ...one, record: Math.max(one.record, other.record), column: Math.max(one.column, other.column) };
  const single = from.record === to.record && from.column === to.column;
  return referenceText({
    sheet: one.sheet === sheet ? undefined : one.sheet,
    from: corner(from),
    to: single ? undefined : corner(to),
  });
}

export class Pointing {
  readonly #desk: Desk;
  /** The reference that was put in last: another click takes its place until something else is typed. */
  #put:
    { readonly field: TypingField; readonly text: string; readonly start: number; readonly end: number } | undefined;
  #anchor: CellPlace | undefined;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  listen(grids: HTMLElement): void {
    grids.addEventListener('mousedown', (event) => this.#press(event), { capture: true });
    grids.addEventListener('mousemove', (event) => this.#draw(event), { capture: true });
    window.addEventListener('mouseup', () => (this.#anchor = undefined));
  }

  /** Where a reference may be put now. */
  #room(): { readonly field: TypingField; readonly start: number; readonly end: number } | undefined {
    const field = contentField(document.activeElement);
    if (field === undefined || typedPlace(this.#desk, field) === undefined) return undefined;
    const last = this.#put;
    if (last?.field === field && last.text === field.value && field.selectionStart === last.end)
      return { field, start: last.start, end: last.end };
    const [start, end] = [field.selectionStart ?? 0, field.selectionEnd ?? 0];
    return awaitsReference(field.value.slice(0, start)) ? { field, start, end } : undefined;
  }

  #press(event: MouseEvent): void {
    const place = event.button === 0 ? this.#desk.grid?.placeOf(event.target) : undefined;
    const room = place === undefined ? undefined : this.#room();
    if (place === undefined || room === undefined) return;
    // The field keeps the focus, and the grid does not hear of it: it would select the cell and end the typing.
    event.preventDefault();
    event.stopPropagation();
    this.#anchor = place;
    this.#write(room, place);
  }

  #draw(event: MouseEvent): void {
    if (this.#anchor === undefined) return;
    event.stopPropagation();
    const place = this.#desk.grid?.placeOf(event.target);
    const room = this.#room();
    if (place !== undefined && room !== undefined && place.sheet === this.#anchor.sheet) this.#write(room, place);
  }

  #write(room: { readonly field: TypingField; readonly start: number; readonly end: number }, place: CellPlace): void {
    const { field, start, end } = room;
    const text = pointedText(this.#anchor ?? place, place, typedPlace(this.#desk, field)?.sheet ?? '');
    if (field.value.slice(start, end) === text) return;
    replaceText(field, text, start, end);
    this.#put = { field, text: field.value, start, end: start + text.length };
  }
}
