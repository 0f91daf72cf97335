import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { unsafeHTML } from 'lit-html/directives/unsafe-html.js';
import { isFault } from '../../formula/values.ts';
import { nameOf } from '../../pictures/belt-figures.ts';
import { stepped, type Way } from '../../pictures/part-steps.ts';
import type { Part, Picture } from '../../pictures/picture.ts';
import { unnamedBelt } from '../../records/belt.ts';
import type { TableCell, TableColumn } from '../../sheet/table.ts';
import { digitsOf, rounded } from '../../sheet/words.ts';
import { isDay, isoDate } from '../../units/dates.ts';
import { counted } from '../../units/phrases.ts';
import { isWords, type UnitSystem } from '../../units/quantities.ts';
import type { DrawnAlike } from './drawn-alike.ts';
import { saveBitmap, saveDrawing } from './picture-files.ts';
import type { PicturesSession } from './pictures-session.ts';

/** One picture or its table, with what can be done with it: parts reached by keys, chosen, saved. */

export interface PictureView {
  readonly session: PicturesSession;
  readonly drawn: DrawnAlike;
  /** Closes the pictures and goes to a belt. */
  readonly goTo: (record: number) => void;
  /** Closes the pictures and enters what a part says, for its belt. */
  readonly enter: (part: Part) => void;
  /** Closes the pictures and shows only these belts. */
  readonly only: (records: readonly number[]) => void;
}

const ways: Readonly<Record<string, Way>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'first',
  End: 'last',
};

const partAt = (target: EventTarget | null): SVGElement | undefined => {
  const found = target instanceof Element ? target.closest('[data-part]') : null;
  return found instanceof SVGElement ? found : undefined;
};

const placeOf = (element: SVGElement): number => Number(element.dataset['part']);

/** Writes below the picture what a part is; it is told by its name to who can't see it. */
function readOut(element: SVGElement, picture: Picture): void {
  const line = element.closest('.picture')?.querySelector('.picture-read');
  if (line !== null && line !== undefined) line.textContent = picture.parts[placeOf(element)]?.says ?? '';
}

function choose({ session }: PictureView, picture: Picture, element: SVGElement): void {
  const drawing = element.closest('.picture-drawing');
  for (const other of drawing?.querySelectorAll('.picture-chosen-part') ?? [])
    other.classList.remove('picture-chosen-part');
  element.classList.add('picture-chosen-part');
  session.choose(picture.id, picture.parts[placeOf(element)]);
  // What can be done with it may stand below the window's edge; it is drawn with the next frame.
  const figure = element.closest('.picture');
  requestAnimationFrame(() =>
    requestAnimationFrame(() => figure?.querySelector('.picture-chosen')?.scrollIntoView({ block: 'nearest' })),
  );
}

function onKey(view: PictureView, picture: Picture, event: KeyboardEvent): void {
  const element = partAt(event.target);
  if (element === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === 'Enter' || event.key === ' ') {
    event.preventDefault();
    choose(view, picture, element);
    return;
  }
  const way = ways[event.key];
  if (way === undefined) return;
  event.preventDefault();
  const next = stepped(picture.parts, placeOf(element), way);
  const other = element.closest('svg')?.querySelector<SVGElement>(`[data-part="${next}"]`);
  if (other === null || other === undefined) return;
  element.setAttribute('tabindex', '-1');
  other.setAttribute('tabindex', '0');
  other.focus();
}

/** Belts that are named one by one. */
const mostNamed = 10;

function chosenStrip(view: PictureView, picture: Picture): TemplateResult | typeof nothing {
  const { session } = view;
  if (session.chosen?.picture !== picture.id) return nothing;
  const { part } = session.chosen;
  const { says, records, entered = [] } = part;
  const { book } = session.desk;
  return html`<div class="picture-chosen" role="group" aria-label="Chosen">
    <span role="status">${says}</span>
    ${
      records.length < 2
        ? nothing
        : html`<button class="small" title="Closes the pictures and filters the sheet Belts"
          @click=${() => view.only(records)}>Show only these ${counted(records.length, 'belt')}</button>`
    }
    ${
      entered.length === 0
        ? nothing
        : html`<button class="small" title="Closes the pictures and enters it in the book; Undo reverses it"
          @click=${() =>
            view.enter(part)}>Enter ${entered.map(({ name, words }) => `${name} ${words}`).join(', ')}</button>`
    }
    ${records
      .slice(0, mostNamed)
      .map(
        (record) =>
          html`<button class="link" title="Closes the pictures and goes to this belt" @click=${() =>
            view.goTo(record)}>${nameOf(book, record) || unnamedBelt}</button>`,
      )}
    ${records.length > mostNamed ? html`<span class="soft">and ${records.length - mostNamed} more</span>` : nothing}
  </div>`;
}

/** Rows of a table that are shown; a file has them all. */
const mostRows = 1000;

function cellText(column: TableColumn, cell: TableCell, units: UnitSystem): string {
  if (cell === null) return '';
  if (isFault(cell)) return cell.code;
  if (typeof cell === 'object') return String(cell.value);
  if (typeof cell !== 'number') return String(cell);
  if (column.kind === 'date') return isDay(cell) ? isoDate(Math.floor(cell)) : String(cell);
  const digits = digitsOf(column, units) ?? 3;
  return column.percent === true ? `${rounded(cell * 100, digits)} %` : rounded(cell, digits);
}

function table(picture: Picture, units: UnitSystem): TemplateResult {
  const { columns, rows, keys } = picture.table;
  const kind = (column: TableColumn): string => (isWords(column.kind) ? '' : 'number');
  return html`<div class="picture-table" tabindex="0" role="region" aria-label="Table: ${picture.title}">
    <table class="table planning-table">
      <thead><tr>${columns.map(
        (column) => html`<th scope="col" class=${kind(column)}>${column.header}</th>`,
      )}</tr></thead>
      <tbody>${rows.slice(0, mostRows).map(
        (row) =>
          html`<tr>${row.map((cell, place) => {
            const column = columns[place];
            if (column === undefined) return nothing;
            const text = cellText(column, cell, units);
            return place < keys && place === 0
              ? html`<th scope="row" class=${kind(column)}>${text}</th>`
              : html`<td class=${kind(column)}>${text}</td>`;
          })}</tr>`,
      )}</tbody>
    </table>
    ${rows.length > mostRows ? html`<p class="soft">and ${rows.length - mostRows} more rows</p>` : nothing}
    ${rows.length === 0 ? html`<p class="soft">Nothing to show.</p>` : nothing}
  </div>`;
}

export function pictureFigure(
  view: PictureView,
  picture: Picture,
  size: { readonly width: number; readonly height: number },
): TemplateResult {
  const { session, drawn } = view;
  const empty = picture.parts.length === 0;
  return html`<figure class="picture" data-picture=${picture.id}>
    <figcaption>
      <h3>${picture.title}</h3>
      <span class="picture-saves"><button class="small quiet" ?disabled=${empty}
        aria-label="Save ${picture.title} as SVG"
        title="Saves the picture as a drawing that can be enlarged" @click=${() =>
          saveDrawing(session, picture, drawn)}>SVG</button><button class="small quiet" ?disabled=${empty}
        aria-label="Save ${picture.title} as PNG" title="Saves the picture as a bitmap" @click=${() =>
          saveBitmap(session, picture, drawn)}>PNG</button></span>
      <p>${picture.says}</p>
    </figcaption>
    ${
      session.tables
        ? table(picture, session.desk.book.units)
        : empty
          ? html`<p class="picture-empty soft">Nothing to draw.</p>`
          : html`<div class="picture-drawing" @click=${(event: Event) => {
              const element = partAt(event.target);
              if (element !== undefined) choose(view, picture, element);
            }} @keydown=${(event: KeyboardEvent) => onKey(view, picture, event)} @focusin=${(event: Event) => {
              const element = partAt(event.target);
              if (element !== undefined) readOut(element, picture);
            }} @pointerover=${(event: Event) => {
              const element = partAt(event.target);
              if (element !== undefined) readOut(element, picture);
            }}>${guard([picture, size.width, size.height], () => unsafeHTML(drawn.draw(picture, size)))}</div>
            <p class="picture-read soft" aria-hidden="true"></p>`
    }
    ${chosenStrip(view, picture)}
    ${picture.leftOut === '' ? nothing : html`<p class="picture-left soft">${picture.leftOut}</p>`}
  </figure>`;
}
