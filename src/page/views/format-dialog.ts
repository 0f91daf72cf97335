import { html, type TemplateResult } from 'lit-html';
import type { CellFormat, SheetState } from '../../workbook/state.ts';
import { declaredWidth } from '../../workbook/state-changes.ts';
import { selectedCells } from '../actions/selected-cells.ts';
import type { Desk } from '../desk.ts';
import { changeCells } from '../editing.ts';
import { kindOf } from '../kind-words.ts';
import { dialog } from './dialog.ts';
import { digitsField, fieldDigits, fieldText, kindField } from './form-fields.ts';

/** How a cell of the user's own shows what it holds: as it says itself, or as its column does. */
const formatAt = ({ name, rows, userColumns }: SheetState, record: number, column: number): CellFormat =>
  rows[record]?.formats?.[column] ?? userColumns[column - declaredWidth(name)] ?? { kind: 'number' };

/** How the selected cells of the user's own show what they hold. */
export function formatDialog(desk: Desk): TemplateResult {
  const { book, selection } = desk;
  const { sheet, record, column } = selection.place;
  const present = formatAt(book.sheet(sheet), record, column);
  const answer = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const format: CellFormat = { ...kindOf(fieldText(form, 'kind')), ...fieldDigits(form) };
    const cells = selectedCells(desk).filter((place) => book.columnAt(place)?.own === true);
    const edits = cells.map((place) => ({ ...place, content: book.content(place), format }));
    changeCells(desk, cells, 'format cells', () => book.edit(edits, 'format cells'));
    desk.close();
  };
  return dialog(
    desk,
    'Format of the selected cells',
    'ask-dialog own-dialog',
    html`
    <form class="dialog-body" @submit=${answer}>
      <div class="own-row">${kindField(desk, present)}${digitsField(present)}</div>
      <p class="soft">A measure turns with the book's units. What the cells hold stays the same.</p>
      <div class="dialog-foot"><button type="button" class="button" @click=${() => desk.close()}>Cancel</button><button
        class="button primary" autofocus>OK</button></div>
    </form>
  `,
  );
}
