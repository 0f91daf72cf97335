import { AutocompleteEditor, registerEditor, TextEditor } from 'handsontable/editors';
import type { CellProperties } from 'handsontable/settings';

/**
 * Editors that open on what stands behind a cell (a formula, a number in full, a day) instead of what it shows, and
 * that hand what was typed straight to the book.
 *
 * The grid's own way of saving draws the whole view anew; the book's change list says which cells to paint.
 */
export interface EntryPorts {
  /** What the editor opens on. */
  readonly entry: (visualRow: number, column: number) => string;
  /** Takes what was typed; `everywhere` when it is meant for all selected cells. */
  readonly save: (visualRow: number, column: number, text: string, everywhere: boolean) => void;
}

const ports = (properties: CellProperties): Partial<EntryPorts> => properties as CellProperties & Partial<EntryPorts>;

function save({ row, col, cellProperties }: TextEditor, value: unknown, everywhere: boolean): void {
  const typed: unknown = Array.isArray(value) && Array.isArray(value[0]) ? value[0][0] : value;
  if (row !== null && col !== null)
    ports(cellProperties).save?.(row, col, typed === null || typed === undefined ? '' : String(typed), everywhere);
}

/**
 * What a cell holds now. An editor is prepared when its cell is selected, and opens whenever it is asked to: what has
 * been entered, filled or taken back since would give way to what stood there before.
 */
const present = ({ row, col, cellProperties, originalValue }: TextEditor): unknown =>
  row === null || col === null ? originalValue : (ports(cellProperties).entry?.(row, col) ?? originalValue);

/** The cell that is typed into has told its own name. */
const fieldName = 'Content of the cell';

/** An editor that closes without having been opened stops watching its size, which fails where that has not begun. */
const beginSize = ({ autoResize, TEXTAREA }: TextEditor): void =>
  autoResize.init(TEXTAREA, { minWidth: 1, maxWidth: 1, minHeight: 1, maxHeight: 1 });

/** An editor of the package that opens on what stands behind its cell and hands on what was typed. */
const entering = (Editor: typeof TextEditor): typeof TextEditor =>
  class extends Editor {
    /** While it waits over its cell, out of sight, it needs no size: that is measured when it opens. */
    #preparing = false;

    override createElements(type?: string): void {
      super.createElements(type);
      this.TEXTAREA.setAttribute('aria-label', fieldName);
      beginSize(this);
    }

    override prepare(
      row: number,
      col: number,
      prop: string | number,
      td: HTMLTableCellElement,
      value: unknown,
      properties: CellProperties,
    ): void {
      this.#preparing = true;
      super.prepare(row, col, prop, td, ports(properties).entry?.(row, col) ?? value, properties);
      this.#preparing = false;
    }

    override refreshDimensions(force?: boolean): void {
      if (!this.#preparing) super.refreshDimensions(force);
    }

    override beginEditing(typed?: unknown, event?: Event): void {
      this.originalValue = present(this);
      super.beginEditing(typed, event);
    }

    override saveValue(value: unknown[][], ctrlDown: boolean): void {
      save(this, value, ctrlDown);
    }
  };

export const entryEditor = 'entry';
export const choiceEditor = 'choice';

export function registerEntryEditors(): void {
  registerEditor(entryEditor, entering(TextEditor));
  registerEditor(choiceEditor, entering(AutocompleteEditor));
}

/**
 * Choices for what is typed so far, all of them while nothing is or while the cell's own content stands there.
 *
 * Of several words with commas between, the last one is offered, and after a whole word each that may follow it.
 */
export function offered(choices: readonly string[], typed: string, several: boolean, content: string): string[] {
  const holding = (begun: string): string[] =>
    choices.filter((choice) => choice.toLowerCase().includes(begun.toLowerCase()));
  if (!several) return typed === content ? [...choices] : holding(typed);
  const words = typed.split(/[,;]/).map((word) => word.trim());
  const last = words.at(-1) ?? '';
  const known = (word: string): boolean => choices.some((choice) => choice.toLowerCase() === word.toLowerCase());
  const before = known(last) ? words : words.slice(0, -1);
  const used = new Set(before.map((word) => word.toLowerCase()));
  const next = (known(last) ? choices : holding(last))
    .filter((choice) => !used.has(choice.toLowerCase()))
    .map((choice) => [...before, choice].join(', '));
  return typed === content && content !== '' ? [...new Set([...choices, ...next])] : next;
}
