import { html, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { belts } from '../../../sheets/belts/index.ts';
import { beltRecords, nameOf } from '../../pictures/belt-figures.ts';
import type { TypedRange } from '../../pictures/tried-values.ts';
import { unnamedBelt } from '../../records/belt.ts';
import { shownHeader } from '../../sheet/header.ts';
import { factorsOf } from '../../what-if/known-factors.ts';
import { groupOf } from '../../workbook/column-layout.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import type { PicturesSession } from './pictures-session.ts';

/** What pictures are asked of, chosen from lists: columns, inputs, belts. */

const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;

/** Columns under the names of their groups, in the order of the sheet. */
function byGroup(columns: readonly BookColumn[]): ReadonlyMap<string, readonly BookColumn[]> {
  const found = new Map<string, BookColumn[]>();
  for (const column of columns) {
    const group = column.own ? 'Your own' : (groupOf(belts.name, column.header) ?? belts.name);
    found.set(group, [...(found.get(group) ?? []), column]);
  }
  return found;
}

export const columnChoice = (
  { desk }: PicturesSession,
  label: string,
  value: string,
  columns: readonly BookColumn[],
  take: (header: string) => void,
): TemplateResult =>
  html`<label>${label} <select aria-label=${label} .value=${live(value)} @change=${(event: Event) =>
    take(chosen(event))}>${[...byGroup(columns)].map(
    ([group, own]) =>
      html`<optgroup label=${group}>${own.map(
        (column) =>
          html`<option value=${column.header} ?selected=${column.header === value}>${shownHeader(
            column,
            desk.book.units,
          )}</option>`,
      )}</optgroup>`,
  )}</select></label>`;

export const beltChoice = (session: PicturesSession, take: (record: number) => void): TemplateResult => {
  const { book } = session.desk;
  const { record } = session.terms;
  return html`<label>Belt <select aria-label="Belt" .value=${live(String(record ?? ''))} @change=${(event: Event) =>
    take(Number(chosen(event)))}>${beltRecords(book).map(
    (one) =>
      html`<option value=${one}
        ?selected=${one === record}>${nameOf(book, one) || `${unnamedBelt} (row ${one + 2})`}</option>`,
  )}</select></label>`;
};

/** Terms that are ranges. */
type RangeTerm = 'sweptBy' | 'mapAcross' | 'mapUpward';

/** An input or a named value, and the ends of its range, which may stay empty. */
export function rangeChoice(
  session: PicturesSession,
  label: string,
  term: RangeTerm,
  take: (range: Partial<Record<RangeTerm, TypedRange>>) => void,
): TemplateResult {
  const range = session.terms[term];
  // Not `live`: what is drawn while an end is being typed, when something tried is ready, leaves the typed text be.
  const end = (which: 'from' | 'to'): TemplateResult => html`<input type="text" class="picture-end" placeholder="auto"
    aria-label="${label}, ${which}" title="With or without a unit; empty for what the cell allows, around its value"
    .value=${range[which]} @change=${(event: Event) =>
      // The other end may have been typed since this was drawn.
      take({ [term]: { ...session.terms[term], [which]: (event.target as HTMLInputElement).value } })} />`;
  const factors = factorsOf(session.desk.book);
  const options = (of: 'belt' | 'book'): TemplateResult[] =>
    factors
      .filter((factor) => factor.of === of)
      .map(({ name }) => html`<option value=${name} ?selected=${name === range.by}>${name}</option>`);
  return html`<span class="picture-range"><label>${label} <select aria-label=${label} .value=${live(range.by)}
    @change=${(event: Event) => take({ [term]: { by: chosen(event), from: '', to: '' } })}>
      <optgroup label="Inputs of the belt">${options('belt')}</optgroup>
      <optgroup label="Named values">${options('book')}</optgroup></select></label>
    <span>from ${end('from')} to ${end('to')}</span></span>`;
}
