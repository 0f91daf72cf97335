import { html, nothing, type TemplateResult } from 'lit-html';
import { exceptions, ownColumnAt } from '../../workbook/own-columns.ts';
import { withColumnNames } from '../../workbook/column-references.ts';
import type { UserColumn } from '../../workbook/state.ts';
import { ownKind } from '../../workbook/state-changes.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import { headersOnShow } from '../column-view.ts';
import type { Desk, Dialog } from '../desk.ts';
import { kindOf } from '../kind-words.ts';
import { putOwnColumn } from '../own-column.ts';
import { dialog } from './dialog.ts';
import { digitsField, fieldDigits, fieldText, kindField } from './form-fields.ts';

/** All that the user says of a column of their own, in one place. */

type Asked = Extract<Dialog, { readonly kind: 'own-column' }>;

function columnOf(form: HTMLFormElement): UserColumn {
  const [unit, doc, formula] = [fieldText(form, 'unit'), fieldText(form, 'doc'), fieldText(form, 'formula')];
  return {
    header: fieldText(form, 'header'),
    ...kindOf(fieldText(form, 'kind')),
    ...fieldDigits(form),
    ...(unit === '' ? {} : { unit }),
    ...(doc === '' ? {} : { doc }),
    ...(formula === '' ? {} : { formula: formula.startsWith('=') ? formula : `=${formula}` }),
  };
}

/** The header that a column stands behind. */
const before = (shown: readonly string[], header: string): string | undefined => shown[shown.indexOf(header) - 1];

export function ownColumnDialog(desk: Desk, asked: Asked): TemplateResult {
  const { book, sheet } = desk;
  const { position, at, why } = asked;
  const column = position === undefined ? undefined : ownColumnAt(book.state, sheet, position);
  const present: UserColumn = column ?? { header: '', kind: ownKind(sheet) };
  const place = { sheet, record: 0, column: position ?? at };
  const formula = present.formula === undefined ? '' : withColumnNames(present.formula, place, book.state);
  const shown = headersOnShow(book, sheet);
  const behind = before(shown, present.header) ?? (position === undefined ? shown.at(-1) : undefined);
  const differing = position === undefined ? 0 : exceptions(book.state, sheet, position);
  const answer = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const after = fieldText(form, 'after');
    const moves = after !== '' && after !== behind;
    const refusal = putOwnColumn(desk, { position, at, column: columnOf(form), after: moves ? after : undefined });
    if (refusal === undefined) desk.close();
    else desk.open({ ...asked, why: refusal });
  };
  const remove = (): void => {
    if (position !== undefined) book.removeColumn(sheet, position);
    desk.close();
  };
  return dialog(
    desk,
    position === undefined ? `A column of your own in ${sheet}` : `Column ${present.header}`,
    'ask-dialog own-dialog',
    html`
    <form class="dialog-body" @submit=${answer}>
      <label>Name<input name="header" value=${present.header} autocomplete="off" autofocus /></label>
      <div class="own-row">${kindField(desk, present)}
        <label>Unit, where the kind has none<input name="unit" value=${present.unit ?? ''} autocomplete="off"
          placeholder="bar, pcs …" /></label>
        ${digitsField(present)}</div>
      <label>Meaning<input name="doc" value=${present.doc ?? ''} autocomplete="off" /></label>
      ${
        compiledSheets.has(sheet)
          ? html`<label>Formula of the whole column<input name="formula" class="own-formula" value=${formula}
              autocomplete="off" spellcheck="false" placeholder="=[Width]*2" /></label>
            <p class="soft">Write <code>[Width]</code> for the same row and <code>${sheet}[Width]</code> for the whole
              column. Rows that are added get the formula; cells with an entry of their own keep it.${
                differing === 0 ? '' : ` ${differing} of ${book.sheet(sheet).rows.length} cells differ from it now.`
              }</p>`
          : nothing
      }
      <label>Shown after<select name="after">${shown
        .filter((header) => header !== present.header)
        .map((header) => html`<option ?selected=${header === behind}>${header}</option>`)}</select></label>
      ${why === undefined ? nothing : html`<p class="why" role="alert">${why}</p>`}
      <div class="dialog-foot">${
        position === undefined || book.columns(sheet).length < 2
          ? nothing
          : html`<button type="button" class="button own-remove" @click=${remove}>Remove column</button>`
      }<button type="button" class="button" @click=${() => desk.close()}>Cancel</button><button
        class="button primary">OK</button></div>
    </form>
  `,
  );
}
