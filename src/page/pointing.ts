import { referenceText, type TextReference } from '../formula/reference-text.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Desk } from './desk.ts';
import { contentField, replaceText, type TypingField, typedPlace } from './typing-field.ts';

/**
 * Pointing: while a formula is typed and a value is due, a click on a cell puts its reference there, and drawing over
 * several puts their range; arrow keys do the same.
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

/** How many rows and columns an arrow goes. */
const arrows: Readonly<Record<string, readonly [down: number, right: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

export class Pointing {
  readonly #desk: Desk;
  /** The reference that was put in last: another click takes its place until something else is typed. */
  #put:
    { readonly field: TypingField; readonly text: string; readonly start: number; readonly end: number } | undefined;
  #anchor: CellPlace | undefined;
  /** The cells that keys have pointed at last: where the range began, and where it ends. */
  #keyed: { readonly from: CellPlace; readonly to: CellPlace } | undefined;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  listen(grids: HTMLElement): void {
    grids.addEventListener('mousedown', (event) => this.#press(event), { capture: true });
    grids.addEventListener('mousemove', (event) => this.#draw(event), { capture: true });
    window.addEventListener('keydown', (event) => this.#step(event), { capture: true });
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

  /**
   * Arrows point while a value is due at the formula's end: from the cell that is typed into, then from the cell that
   * was pointed at last; with Shift they draw a range.
   */
  #step(event: KeyboardEvent): void {
    const way = arrows[event.key];
    const grid = this.#desk.grid;
    if (way === undefined || grid === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    const room = this.#room();
    const home = room === undefined ? undefined : typedPlace(this.#desk, room.field);
    if (room === undefined || home === undefined || !/^[)\s]*$/u.test(room.field.value.slice(room.end))) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    const goesOn = room.end > room.start && this.#keyed !== undefined;
    const before = goesOn && this.#keyed !== undefined ? this.#keyed : undefined;
    const start = before?.to ?? (grid.sheet === home.sheet ? home : { sheet: grid.sheet, record: 0, column: 0 });
    const to = grid.pointed.beside(start, ...way);
    const from = event.shiftKey && before !== undefined ? before.from : to;
    this.#keyed = { from, to };
    this.#write(room, to, from);
    grid.pointed.reveal(to);
  }

  #press(event: MouseEvent): void {
    const place = event.button === 0 ? this.#desk.grid?.pointed.at(event.target) : undefined;
    const room = place === undefined ? undefined : this.#room();
    if (place === undefined || room === undefined) return;
    // The field keeps the focus, and the grid does not hear of it: it would select the cell and end the typing.
    event.preventDefault();
    event.stopPropagation();
    this.#anchor = place;
    this.#keyed = { from: place, to: place };
    this.#write(room, place);
  }

  #draw(event: MouseEvent): void {
    if (this.#anchor === undefined) return;
    event.stopPropagation();
    const place = this.#desk.grid?.pointed.at(event.target);
    const room = this.#room();
    if (place !== undefined && room !== undefined && place.sheet === this.#anchor.sheet) this.#write(room, place);
  }

  #write(
    room: { readonly field: TypingField; readonly start: number; readonly end: number },
    place: CellPlace,
    anchor = this.#anchor ?? place,
  ): void {
    const { field, start, end } = room;
    const text = pointedText(anchor, place, typedPlace(this.#desk, field)?.sheet ?? '');
    if (field.value.slice(start, end) === text) return;
    replaceText(field, text, start, end);
    this.#put = { field, text: field.value, start, end: start + text.length };
  }
}
