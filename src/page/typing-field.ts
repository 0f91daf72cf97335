import type { CellPlace } from '../workbook/place.ts';
import type { Desk } from './desk.ts';

/** Where a formula is being typed: in the formula bar or over its cell. */
export type TypingField = HTMLTextAreaElement | HTMLInputElement;

/** The field that an event comes from, if a cell's content is typed there. */
export function contentField(target: EventTarget | null): TypingField | undefined {
  const field = target instanceof HTMLTextAreaElement || target instanceof HTMLInputElement ? target : undefined;
  return field !== undefined && (field.id === 'formula' || field.classList.contains('handsontableInput'))
    ? field
    : undefined;
}

/** The cell that a field's content is meant for; undefined while nothing is being typed into it. */
export function typedPlace(desk: Desk, field: TypingField): CellPlace | undefined {
  if (field.id === 'formula') return desk.typing;
  return desk.grid?.editing === true ? desk.selection.place : undefined;
}

/** Puts a text in the place of another and tells whoever follows the field. */
export function replaceText(field: TypingField, text: string, start: number, end: number): void {
  field.setRangeText(text, start, end, 'end');
  field.dispatchEvent(new Event('input', { bubbles: true }));
}
