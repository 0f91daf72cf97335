import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { shownContent } from '../../merge/item-words.ts';
import type { Change, MergeItem, Side } from '../../merge/merge-item.ts';
import { formatWords, sameFormat } from '../../merge/own-column-facts.ts';
import { counted } from '../../units/phrases.ts';
import type { Comparing, DifferenceGroup } from '../comparing.ts';
import type { Desk } from '../desk.ts';

/** What differs between the open book and another, to be taken or left: each, a column, or all. */

/** Rows of a group that are shown; those beyond are taken or left with it. */
const mostShown = 200;

/** The book beside the open one, as the dialog calls it. */
interface OtherBook {
  /** "list.xlsx", "the version of 2026-11-03 14:02". */
  readonly name: string;
  /** "file" or "version". */
  readonly kind: string;
  /** What both come from and how that is known. */
  readonly said: TemplateResult | string;
  /** What stands in the place of the open book: two others are looked at, and nothing is taken. */
  readonly beside?: string;
  readonly back: () => void;
  readonly accept?: () => void;
  /** Keeps what was taken as a variant, where that is offered. */
  readonly keep?: () => void;
}

const changeWords: Readonly<Record<Change, string>> = { new: 'new', gone: 'deleted', changed: 'changed' };

function subjectOf({ level, record, column, sheet, fact = '', of = 'records' }: MergeItem): string {
  if (level === 'fact') return `the column's ${fact}`;
  if (level === 'view') return `${sheet}, view "${column}"`;
  return record === '' ? column || sheet || `order of ${of}` : record;
}

/** Where an item stands that is not alone in its sheet. */
const placeOf = (item: MergeItem): string =>
  item.level === 'view'
    ? subjectOf(item)
    : item.level === 'fact'
      ? `${item.sheet}, ${item.column}, ${subjectOf(item)}`
      : `${item.sheet}, ${subjectOf(item)}${item.level === 'cell' ? `, ${item.column}` : ''}`;

function cellText({ plan }: Comparing, item: MergeItem, book: 'base' | Side): string {
  const { cells, kind, here, there } = item;
  if (cells !== undefined) {
    const { content, note, format } = cells[book];
    const formatted = [cells.base, cells.mine, cells.theirs].every((cell) => sameFormat(cell.format, format))
      ? ''
      : `, shown as ${format === undefined ? 'its column is' : formatWords(format, plan.units)}`;
    const noted = cells.mine.note !== cells.theirs.note && note !== undefined ? `, remark "${note}"` : '';
    return `${shownContent(content, kind, plan.units)}${formatted}${noted}`;
  }
  if (book === 'base') return item.here === 'new' || there === 'new' ? 'not there' : 'there';
  const change = book === 'mine' ? here : there;
  if (change !== undefined) return changeWords[change];
  const other = book === 'mine' ? there : here;
  return other === 'new' ? 'not there' : 'as before';
}

const takes =
  (desk: Desk, comparing: Comparing, items: readonly MergeItem[]) =>
  (event: Event): void => {
    comparing.take(items, (event.target as HTMLInputElement).checked);
    desk.changed();
  };

const states = (comparing: Comparing, item: MergeItem): TemplateResult => html`<td>${subjectOf(item)}</td>
  ${comparing.threeWay ? html`<td class="soft">${cellText(comparing, item, 'base')}</td>` : nothing}
  <td>${cellText(comparing, item, 'mine')}</td><td>${cellText(comparing, item, 'theirs')}</td>`;

const heads = (comparing: Comparing, first: string, { kind, beside }: OtherBook): TemplateResult =>
  html`<thead><tr>${
    beside === undefined ? html`<th>${first}</th>` : nothing
  }<th>Of</th>${comparing.threeWay ? html`<th>Before</th>` : nothing}<th>${
    beside === undefined ? 'In this book' : `In the ${beside}`
  }</th><th>In the ${kind}</th></tr></thead>`;

const more = (items: readonly MergeItem[]): TemplateResult | typeof nothing =>
  items.length > mostShown ? html`<p class="soft">and ${items.length - mostShown} more</p>` : nothing;

function groupTable(
  desk: Desk,
  comparing: Comparing,
  { name, items }: DifferenceGroup,
  other: OtherBook,
): TemplateResult {
  const looked = other.accept === undefined;
  const box = (item: MergeItem): TemplateResult => html`<td><input type="checkbox"
    aria-label="Take ${subjectOf(item)}${item.level === 'cell' ? `, ${item.column}` : ''}"
    .checked=${live(comparing.takes(item))} @change=${takes(desk, comparing, [item])} /></td>`;
  const row = (item: MergeItem): TemplateResult => html`<tr>
    ${looked ? nothing : box(item)}${states(comparing, item)}</tr>`;
  return html`
    <section class="import-table">
      <h3>${
        looked
          ? name
          : html`<label><input type="checkbox" aria-label="Take all of ${name}"
        .checked=${live(comparing.takesAll(items))} @change=${takes(desk, comparing, items)} /> ${name}</label>`
      }<span class="soft">${counted(items.length, 'difference')}</span></h3>
      <table class="table compare-table">
        ${heads(comparing, 'Take', other)}
        <tbody>${items.slice(0, mostShown).map(row)}</tbody>
      </table>${more(items)}
    </section>
  `;
}

/** What both changed: each is decided by hand, or all are, but none by itself. */
function conflictTable(desk: Desk, comparing: Comparing, other: OtherBook): TemplateResult | typeof nothing {
  const { conflicts } = comparing;
  if (conflicts.length === 0) return nothing;
  const decide = (items: readonly MergeItem[], side: Side) => (): void => {
    comparing.take(items, side === 'theirs');
    desk.changed();
  };
  const row = (item: MergeItem, place: number): TemplateResult => {
    const place_ = placeOf(item);
    const choice = (side: Side, label: string): TemplateResult => html`<label class="option"><input type="radio"
      name="conflict-${place}" aria-label="${place_}: ${label}" .checked=${live(comparing.side(item) === side)}
      @change=${decide([item], side)} />${label}</label>`;
    return html`<tr class=${comparing.side(item) === undefined ? 'undecided' : ''}>
      <td class="conflict-choice">${choice('mine', 'mine')} ${choice('theirs', other.kind)}</td>
      <td>${place_}</td><td class="soft">${cellText(comparing, item, 'base')}</td>
      <td>${cellText(comparing, item, 'mine')}</td><td>${cellText(comparing, item, 'theirs')}</td></tr>`;
  };
  return html`
    <section class="import-table conflicts">
      <h3>Changed here and in the ${other.kind}, not alike<span class="soft">${
        comparing.undecided === 0 ? 'all decided' : `${comparing.undecided} to decide`
      }</span><span class="gap"></span><button class="small" @click=${decide(conflicts, 'mine')}>Keep all of
        mine</button> <button class="small" @click=${decide(conflicts, 'theirs')}>Take all of the
        ${other.kind}</button></h3>
      <table class="table compare-table">
        ${heads(comparing, 'Whose', other)}
        <tbody>${conflicts.slice(0, mostShown).map(row)}</tbody>
      </table>${more(conflicts)}
    </section>
  `;
}

function summary(comparing: Comparing, { name, beside: other }: OtherBook): TemplateResult {
  const { offered, conflicts, own, alike, undecided, taken } = comparing;
  const differences = offered.length + conflicts.length;
  const beside = [
    ...(own === 0 ? [] : [`${counted(own, 'change')} made only here ${own === 1 ? 'stays' : 'stay'}`]),
    ...(alike === 0 ? [] : [`${alike} made alike in both`]),
  ];
  return html`<p class="import-summary" role="status">${
    differences === 0
      ? comparing.threeWay
        ? html`<b>${name}</b> brings nothing new`
        : html`Nothing differs between ${other === undefined ? 'this book' : `the ${other}`} and <b>${name}</b>`
      : html`<b>${name}</b>: ${counted(differences, 'difference')}${other === undefined ? `, ${taken} taken` : ''}`
  }${undecided === 0 ? '' : `, ${counted(undecided, 'conflict')} to decide`}.${
    beside.length === 0 ? '' : ` ${beside.join('; ')}.`
  }</p>`;
}

/** Below what is only looked at. */
const lookedFoot = (desk: Desk, { back }: OtherBook): TemplateResult => html`<div class="dialog-foot">
  <button class="button" @click=${back}>Back</button><span class="gap"></span>
  <button class="button primary" autofocus @click=${() => desk.close()}>Close</button></div>`;

export function comparison(desk: Desk, comparing: Comparing, other: OtherBook): TemplateResult {
  const { plan, offered, conflicts, undecided, taken } = comparing;
  const { told } = plan;
  const all = (taken: boolean) => (): void => {
    comparing.take(offered, taken);
    desk.changed();
  };
  const decided = undecided === 0 && (taken > 0 || comparing.threeWay);
  return html`
    <div class="dialog-body">
      ${summary(comparing, other)}
      <p>${other.said}</p>
      ${told.length === 0 ? nothing : html`<ul>${told.map((text) => html`<li>${text}</li>`)}</ul>`}
      ${conflictTable(desk, comparing, other)}
      ${comparing.groups.map((group) => groupTable(desk, comparing, group, other))}
    </div>
    ${
      other.accept === undefined
        ? lookedFoot(desk, other)
        : html`<div class="dialog-foot">
      <button class="button" @click=${other.back}>Back</button>
      <button class="button" ?disabled=${offered.length === 0} @click=${all(true)}>Take all</button>
      <button class="button" ?disabled=${offered.length === 0} @click=${all(false)}>Take none</button>
      <span class="gap"></span>
      <button class="button" @click=${() => desk.close()}>Cancel</button>
      ${
        other.keep === undefined
          ? nothing
          : html`<button class="button" ?disabled=${taken === 0}
              title="Keeps what is taken in the sheet Variants, to be compared; the book's cells stay"
              @click=${other.keep}>Keep as a variant</button>`
      }
      <button class="button primary" autofocus ?disabled=${!decided} title=${
        undecided === 0 ? '' : `${counted(undecided, 'conflict')} above must be decided first`
      } @click=${other.accept}>${
        conflicts.length + offered.length === 0 && comparing.threeWay ? 'Note it as read' : 'Take into this book'
      }</button>
    </div>`
    }
  `;
}
