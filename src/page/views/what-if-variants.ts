import { html, nothing, type TemplateResult } from 'lit-html';
import { belts } from '../../../sheets/belts/index.ts';
import { beltColumn } from '../../records/belt.ts';
import { amount } from '../../sheet/words.ts';
import type { CellEdit } from '../../workbook/state-changes.ts';
import { totalColumns, type VariantDifferences, variantLines } from '../../what-if/variant-differences.ts';
import { applyVariant, variantSheet, variantsOf } from '../../what-if/variants.ts';
import { selectedCells } from '../actions/selected-cells.ts';
import type { Desk } from '../desk.ts';
import { askToKeep } from '../keeping-variant.ts';
import { comparedRecords, compareVariants, whatIfAsked } from '../what-if.ts';

/** The variants of a book in the panel What if: made, compared, applied. */

/** What stands in the selected cells, as changes; cells that the sheet computes are no input. */
function selectedChanges(desk: Desk): CellEdit[] {
  return selectedCells(desk).flatMap((place) => {
    const content = desk.book.content(place);
    return content === null || desk.sheet === variantSheet ? [] : [{ ...place, content }];
  });
}

/** Cells of a selection that are kept at most: more is a list, not a variant. */
const mostKept = 500;

function keepSelection(desk: Desk): void {
  const changes = selectedChanges(desk);
  if (changes.length === 0 || changes.length > mostKept) {
    desk.say(
      changes.length === 0
        ? 'Select cells that hold something you entered: their contents become the variant.'
        : `${changes.length} cells are selected; a variant takes ${mostKept}. Select fewer.`,
      'problem',
    );
    return;
  }
  askToKeep(desk, 'Keep the selection as a variant', '', changes);
}

/** The variants beside each other: what each changes in all. */
function besideTable(all: readonly VariantDifferences[], { units }: Desk['book']): TemplateResult {
  const signed = (before: number, after: number, header: (typeof totalColumns)[number]): string =>
    before === after
      ? '0'
      : `${after < before ? '\u2212' : '+'}${amount(Math.abs(after - before), beltColumn(header), units)}`;
  const count = (one: VariantDifferences, which: 'gained' | 'lost'): number =>
    one.belts.reduce((sum, belt) => sum + belt[which].length, 0);
  return html`<div class="skew-scroll"><table class="skew-table what-if-beside">
    <caption class="unseen">The variants beside each other, against the book as it is</caption>
    <thead><tr><th scope="col">Variant</th><th scope="col">Belts</th><th scope="col">Checks gained</th><th
      scope="col">Lost</th>${totalColumns.map((header) => html`<th scope="col">${header}</th>`)}</tr></thead>
    <tbody>${all.map(
      (one) => html`<tr><th scope="row">${one.variant.name}</th>
        <td class="skew-number">${one.belts.length}</td><td class="skew-number">${count(one, 'gained')}</td>
        <td class="skew-number">${count(one, 'lost')}</td>${one.totals.map(
          ({ header, before, after }) => html`<td class="skew-number">${signed(before, after, header)}</td>`,
        )}</tr>`,
    )}</tbody></table></div>`;
}

function comparedPart(desk: Desk): TemplateResult | typeof nothing {
  const { differences } = whatIfAsked;
  if (differences === undefined || differences.state !== desk.book.state) return nothing;
  const made = differences.all.filter((one) => typeof one !== 'string');
  return html`${made.length > 1 ? besideTable(made, desk.book) : nothing}
  <div role="status"><ul class="what-if-variants">${differences.all.map((one) =>
    typeof one === 'string'
      ? html`<li class="why">${one}</li>`
      : html`<li>${variantLines(one, desk.book.units).map((text) => html`<p class="what-if-line">${text.trim()}</p>`)}
        <p class="what-if-do"><button class="small" title="Enters all its changes as one step; Undo reverses it"
          @click=${() => applyVariant(desk.book, one.variant)}>Apply ${one.variant.name}</button></p></li>`,
  )}</ul></div>`;
}

export function variantsPart(desk: Desk): TemplateResult {
  const of = comparedRecords(desk).length;
  const every = of === desk.book.sheet(belts.name).rows.length;
  const variants = variantsOf(desk.book);
  return html`
    <p class="caption">${
      variants.length === 0
        ? 'None yet. A variant is a named set of changes; the sheet Variants keeps them, one change a row.'
        : `${variants.map(({ name }) => name).join(', ')}: in the sheet Variants, one change a row.`
    }</p>
    <p class="what-if-do">
      <button class="small" ?disabled=${variants.length === 0} @click=${() =>
        compareVariants(desk)}>Compare with the book${every ? '' : ` for ${of} belts`}</button>
      <button class="small quiet" title="The contents of the selected cells become a variant"
        @click=${() => keepSelection(desk)}>Keep the selection …</button>
    </p>
    ${comparedPart(desk)}`;
}
