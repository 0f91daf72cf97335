import { html, render } from 'lit-html';
import { unitOf } from '../units/quantities.ts';
import { columnLetters, sheetRow } from '../formula/address.ts';
import { cellLook } from './grid/cell-look.ts';
import { columnsOnShow } from './column-view.ts';
import type { Desk } from './desk.ts';
import { findingsNow, namesOf } from './findings-list.ts';

/**
 * The sheet on paper: plain tables in place of the page, which shows only what fits the window.
 *
 * A sheet wider than the paper is printed in strips of columns one below the other, each beginning with the record's
 * name.
 */

/** Characters that fit across a landscape page in the print's type. */
const lineLength = 150;
const longText = 44;
const mostRows = 2000;

interface Strip {
  readonly columns: readonly number[];
}

function strips(widths: readonly number[], columns: readonly number[], key: number): Strip[] {
  const found: number[][] = [];
  let room = 0;
  for (const column of columns) {
    const width = widths[column] ?? 0;
    const last = found.at(-1);
    if (column === key) continue;
    if (last === undefined || room < width) {
      found.push([column]);
      room = lineLength - (widths[key] ?? 0) - 6 - width;
    } else {
      last.push(column);
      room -= width;
    }
  }
  return found.map((own) => ({ columns: key < 0 ? own : [key, ...own] }));
}

/** The line at the head of a print: whose book, what of it, in which units, and whether its figures are invented. */
export const printTitle = ({ book: { state } }: Desk, part: string): ReturnType<typeof html> =>
  html`<b>${state.title === '' ? '' : `${state.title}: `}${part}</b> <span>${
    state.units === 'metric' ? 'metric' : 'US customary'
  } units${state.invented ? ', invented ' + 'figures' : ''}, printed ${new Date().toLocaleDateString('en-CA')}</span>`;

function printed(desk: Desk): ReturnType<typeof html> {
  const { book, sheet } = desk;
  const columns = book.columns(sheet);
  const all = desk.grid?.shownRecords() ?? [];
  const records = all.slice(0, mostRows);
  const key = columns.findIndex(({ own, declared }) => !own && declared !== undefined);
  const looks = records.map((record) =>
    columns.map((column, position) => cellLook(book, column, { sheet, record, column: position }, position === key)),
  );
  const shown = columnsOnShow(book, sheet).filter((position) =>
    looks.some((row) => (row[position]?.text ?? '') !== ''),
  );
  const widths = columns.map(({ header }, position) => {
    const longest = looks.reduce((most, row) => Math.max(most, row[position]?.text.length ?? 0), 0);
    return Math.min(longText, Math.max(longest, ...header.split(' ').map((word) => word.length), 4)) + 2;
  });
  return html`
    <header>${printTitle(desk, sheet)}</header>
    ${
      records.length < all.length
        ? html`<p>The first ${records.length} of ${all.length} rows. Filter the sheet to print other rows.</p>`
        : ''
    }
    ${
      records.length === 0
        ? html`<p>The sheet has no rows.</p>`
        : strips(widths, shown, key).map(
            ({ columns: strip }) => html`
      <table>
        <thead>
          <tr><th class="print-row"></th>${strip.map(
            (position) =>
              html`<th>${columnLetters(position)}<small>${unitOf(
                columns[position]?.kind ?? 'text',
                book.units,
              )}</small><br />${columns[position]?.header}</th>`,
          )}</tr>
        </thead>
        <tbody>
          ${records.map(
            (record, row) =>
              html`<tr><td class="print-row">${sheetRow(record)}</td>${strip.map(
                (position) =>
                  html`<td class=${[
                    ...(looks[row]?.[position]?.classes ?? []),
                    (widths[position] ?? 0) > longText ? 'print-long' : '',
                  ].join(' ')}>${looks[row]?.[position]?.text ?? ''}</td>`,
              )}</tr>`,
          )}
        </tbody>
      </table>`,
          )
    }
  `;
}

/** More than anyone prints. */
const mostFindings = 2000;

function printedFindings(desk: Desk): ReturnType<typeof html> {
  const found = findingsNow(desk);
  return html`<header>${printTitle(desk, 'Findings')}</header>
    ${
      found.length > mostFindings
        ? html`<p>The first ${mostFindings} of ${found.length} findings. Choose a check or an area to print others.</p>`
        : ''
    }
    <table class="print-findings"><thead><tr><th>Verdict</th><th>Belts</th><th>Check</th><th>Finding</th>
      <th>Cures</th><th>Done, by, on</th></tr></thead>
    <tbody>${found.slice(0, mostFindings).map(
      ({ finding: { verdict, check, message, cures }, all }) => html`<tr><td>${verdict}</td>
        <td>${namesOf(all)}</td><td>${check}</td><td>${message}</td>
        <td>${cures.map((cure) => html`<div>${cure}</div>`)}</td><td></td></tr>`,
    )}</tbody></table>`;
}

/** Prints the findings that are listed, in place of the sheet. */
export function printFindings(): void {
  document.body.dataset['printing'] = 'findings';
  window.addEventListener('afterprint', () => delete document.body.dataset['printing'], { once: true });
  window.print();
}

/** Prints the panel beside the grid in place of the sheet: the print's styles then leave out all else. */
export function printPanel(): void {
  document.body.dataset['printing'] = 'panel';
  window.addEventListener('afterprint', () => delete document.body.dataset['printing'], { once: true });
  window.print();
}

/** What a planning dialog shows, in place of the sheets behind it; undefined when none is open. */
function printedDialog(desk: Desk): ReturnType<typeof html> | undefined {
  const dialog = document.querySelector<HTMLDialogElement>('dialog.planning-dialog[open]');
  if (dialog === null) return undefined;
  const copies = ['.planning-sum', '.planning-body'].map((part) => dialog.querySelector(part)?.cloneNode(true));
  const tab = dialog.querySelector('[role=tab][aria-selected=true]')?.textContent ?? '';
  return html`<header>${printTitle(
    desk,
    [dialog.ariaLabel ?? '', tab].filter((part, place, all) => part !== '' && all.indexOf(part) === place).join(', '),
  )}</header><div class="print-dialog">${copies}</div>`;
}

const printedNow = (desk: Desk): ReturnType<typeof html> =>
  document.body.dataset['printing'] === 'findings' ? printedFindings(desk) : (printedDialog(desk) ?? printed(desk));

export function printSheets(desk: Desk): void {
  const paper = document.createElement('div');
  paper.id = 'paper';
  document.body.append(paper);
  window.addEventListener('beforeprint', () => render(printedNow(desk), paper));
  window.addEventListener('afterprint', () => render(html``, paper));
}
