import { AutocompleteEditor, registerEditor, TextEditor } from 'handsontable/editors';
import type { CellProperties } from 'handsontable/settings';

/**
 * Editors that open on what stands behind a cell (a formula, a number in full, a day) instead of what it shows.
 *
 * The grid hands editors its own copy of the value; the column's settings carry `entry`, which asks the book.
 */
export type EntryOf = (visualRow: number, column: number) => string;

interface WithEntry {
  readonly entry?: EntryOf;
}

const entered = (row: number, column: number, value: unknown, properties: CellProperties): unknown => (properties as WithEntry).entry?.(row, column) ?? value;

class EntryEditor extends TextEditor {
  override prepare(row: number, col: number, prop: string | number, td: HTMLTableCellElement, value: unknown, properties: CellProperties): void {
    super.prepare(row, col, prop, td, entered(row, col, value, properties), properties);
  }
}

class ChoiceEditor extends AutocompleteEditor {
  override prepare(row: number, col: number, prop: string | number, td: HTMLTableCellElement, value: unknown, properties: CellProperties): void {
    super.prepare(row, col, prop, td, entered(row, col, value, properties), properties);
  }
}

export const entryEditor = 'entry';
export const choiceEditor = 'choice';

export function registerEntryEditors(): void {
  registerEditor(entryEditor, EntryEditor);
  registerEditor(choiceEditor, ChoiceEditor);
}

/** Choices for what is typed so far: of several words with commas between, the last one is offered. */
export function offered(choices: readonly string[], typed: string, several: boolean): string[] {
  if (!several) return [...choices];
  const comma = Math.max(typed.lastIndexOf(','), typed.lastIndexOf(';'));
  const before = comma < 0 ? '' : `${typed.slice(0, comma).trim()}, `;
  const used = before.split(',').map((word) => word.trim().toLowerCase());
  return choices.filter((choice) => !used.includes(choice.toLowerCase())).map((choice) => `${before}${choice}`);
}
