import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { columnUnit, shownHeader } from '../../sheet/header.ts';
import { type Fault, isFault } from '../../formula/values.ts';
import { unitOf } from '../../units/quantities.ts';
import { withRoom } from '../../workbook/state-changes.ts';
import type { BookState } from '../../workbook/state.ts';
import { cellBeyond, destination, destinationNames, nearDestinations } from '../../workbook/destinations.ts';
import { cellName, columnLetters, sheetRow } from '../../formula/address.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { unusual } from '../../records/unusual-inputs.ts';
import { act } from '../actions/action.ts';
import { action } from '../actions/index.ts';
import { contentText, dateText, entryText } from '../cell-text.ts';
import type { Desk } from '../desk.ts';
import { attempt } from '../book-changes.ts';
import { changeable, enter, growing } from '../editing.ts';
import { complaint } from '../../records/typed-entry.ts';
import { withKey } from './top-bar.ts';

/** Names beyond these are found by typing them whole. */
const mostOffered = 1500;

/** The cell's name, its formula or content, and below them its value in full and what the column is. */

/** Goes to what was typed: "J7", "Strips!B3", the name of a belt, a column, a named value or a sheet. */
function jump(desk: Desk, typed: string): void {
  const { book } = desk;
  const beyond = cellBeyond(typed, book.state, desk.selection.place);
  const place =
    destination(typed, book.state, desk.selection.place) ??
    (beyond !== undefined && attempt(desk, () => book.replace(withRoom(book.state, [beyond]), 'enlarge sheet'))
      ? beyond
      : undefined);
  if (place === undefined) {
    const near = nearDestinations(typed, book.state, desk.sheet);
    const meant = near.length === 0 ? '' : ` Nearest: ${near.join(', ')}.`;
    desk.say(`No cell, column, record, named value or sheet is called "${typed}".${meant}`, 'problem');
    return;
  }
  const last = book.sheet(place.sheet).rows.length - (growing(place.sheet) ? 0 : 1);
  // Nothing more is typed into this field: a sheet that is put on show for the place takes the keys.
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
  desk.goTo({ ...place, record: Math.min(place.record, Math.max(0, last)) });
  desk.grid?.focus();
}

/** The field keeps what is typed until it is entered or left. */
function commit(desk: Desk, field: HTMLTextAreaElement): void {
  const place = desk.typing;
  desk.typing = undefined;
  if (place !== undefined) enter(desk, [{ ...place, text: field.value }]);
}

function onKey(desk: Desk, event: KeyboardEvent): void {
  const field = event.currentTarget as HTMLTextAreaElement;
  const onward = event.key === 'Tab' && desk.typing !== undefined;
  if (event.key !== 'Enter' && event.key !== 'Escape' && !onward) return;
  // The grid takes the focus now: what is left of the event would open its editor on what the cell held before.
  event.preventDefault();
  event.stopPropagation();
  const place = desk.typing;
  if (event.key === 'Escape') desk.typing = undefined;
  else commit(desk, field);
  const beside = place === undefined || !onward ? undefined : desk.grid?.beside(place.column, event.shiftKey ? -1 : 1);
  if (place !== undefined && beside !== undefined) desk.goTo({ ...place, column: beside });
  // Pointing may have led to another sheet.
  else if (place !== undefined && place.sheet !== desk.sheet) desk.goTo(place);
  desk.grid?.focus();
}

/** What an error says, without the cell that it comes from where that is this one. */
const faultText = ({ message }: Fault, { sheet, record, column }: CellPlace): string =>
  message.replace(` (comes from ${cellName(sheet, record, column)})`, '');

function told(desk: Desk): TemplateResult {
  const {
    book,
    selection: { place },
  } = desk;
  const column = book.columnAt(place);
  if (column === undefined) return html``;
  const value = book.shown(place);
  const kind = book.kind(place);
  const unit =
    column.own || column.kind === kind ? columnUnit({ ...column, kind }, book.units) : unitOf(kind, book.units);
  const why = complaint(book, place) ?? unusual(book, place);
  const shown = isFault(value)
    ? value.code
    : value === null
      ? 'empty'
      : typeof value === 'number' && kind === 'date'
        ? `${dateText(value)}, day ${value}`
        : contentText(value, kind);
  const formula = book.formula(place);
  return html`
    <p class="told">
      <b>${shownHeader(column, book.units)}</b>
      ${
        formula === undefined && typeof value === 'string'
          ? nothing
          : html`<output
        class="value">${shown}${unit === '' || typeof value !== 'number' ? '' : ` ${unit}`}</output>`
      }
      ${isFault(value) ? html`<span class="why">${faultText(value, place)}</span>` : nothing}
      ${why === undefined ? nothing : html`<span class="why">${why}</span>`}
      ${
        book.overridden(place)
          ? html`<span class="override">overrides the sheet's formula <button class="small"
            @click=${() => act(action('own-formula'), desk)}>Restore formula</button></span>`
          : nothing
      }
      <span class="doc">${column.doc}</span>
      ${
        desk.view === 'working'
          ? nothing
          : html`<button class="small" title=${withKey(action('panel-working'), desk)}
        @click=${() => act(action('panel-working'), desk)}>Calculation</button>`
      }
    </p>
  `;
}

/** The text of a field, or what is being typed into it while it has the focus: drawing must not disturb it. */
function kept({ typing }: Desk, id: string, text: string): ReturnType<typeof live> {
  const { activeElement } = document;
  const typed = activeElement instanceof HTMLInputElement || activeElement instanceof HTMLTextAreaElement;
  return live(
    typed && activeElement.id === id && (id === 'cell-name' || typing !== undefined) ? activeElement.value : text,
  );
}

let lastOffered: { readonly state: BookState; readonly sheet: string; readonly names: readonly string[] } | undefined;

function offered({ book: { state }, sheet }: Desk): readonly string[] {
  if (lastOffered?.state !== state || lastOffered.sheet !== sheet)
    lastOffered = { state, sheet, names: destinationNames(state, sheet, mostOffered).slice(0, mostOffered) };
  return lastOffered.names;
}

/** What the box offers while it is typed into: columns first, then belts, named values and sheets. */
const destinations = (desk: Desk): TemplateResult =>
  html`<datalist id="destinations">${
    document.activeElement?.id === 'cell-name'
      ? offered(desk).map((name) => html`<option value=${name}></option>`)
      : nothing
  }</datalist>`;

/** What the selected cell holds; nothing below the last row. */
function selectedText({ book, selection: { place } }: Desk): string {
  const blank = book.sheet(place.sheet).rows[place.record] === undefined;
  return blank ? '' : entryText(book, place);
}

export function formulaBar(desk: Desk): TemplateResult {
  const { place } = desk.selection;
  const name = `${columnLetters(place.column)}${sheetRow(place.record)}`;
  const text = selectedText(desk);
  return html`
    <section class="formula-bar" data-area="formula" aria-label="Formula bar">
      <form class="name-form" @submit=${(event: SubmitEvent) => {
        event.preventDefault();
        jump(desk, (event.currentTarget as HTMLFormElement).querySelector('input')?.value ?? '');
      }}>
        <input id="cell-name" aria-label="Cell: type a place to go to"
          title="Type a cell, or the name of a belt, column or value, to go there (Ctrl+G)"
          autocomplete="off" spellcheck="false" list="destinations" .value=${kept(desk, 'cell-name', name)}
          @focus=${() => desk.changed()}
          @blur=${() => desk.changed()} @keydown=${(event: KeyboardEvent) => {
            if (event.key === 'Escape') desk.grid?.focus();
          }} />
        ${destinations(desk)}
      </form>
      <div class="formula-field">
        <textarea id="formula" rows="1" aria-label="Formula or content of ${name}" autocomplete="off"
          spellcheck="false" ?readonly=${!changeable(desk.typing ?? place, desk.book.state)}
          .value=${kept(desk, 'formula', text)}
          @focus=${(event: FocusEvent) => {
            // A click may come before the bar is drawn for the cell that was selected just now.
            if (desk.typing === undefined) (event.currentTarget as HTMLTextAreaElement).value = selectedText(desk);
          }}
          @input=${() => (desk.typing ??= desk.selection.place)}
          @keydown=${(event: KeyboardEvent) => onKey(desk, event)}
          @blur=${(event: FocusEvent) => {
            commit(desk, event.currentTarget as HTMLTextAreaElement);
            desk.changed();
          }}></textarea>
      </div>
      ${told(desk)}
    </section>
  `;
}
