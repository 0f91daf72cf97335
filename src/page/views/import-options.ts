import type { BeltHeader } from '../../../sheets/index.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { belts } from '../../../sheets/belts/index.ts';
import { isComputed } from '../../sheet/declaration.ts';
import type { ImportChoices, ImportProposal } from '../../xlsx/import/import-model.ts';
import type { Importing } from '../importing.ts';

/** What the user may say of the whole file. */

interface Choice<Value extends string> {
  readonly value: Value | '';
  readonly label: string;
}

function select<Value extends string>(
  label: string,
  chosen: Value | undefined,
  choices: readonly Choice<Value>[],
  take: (value: Value | undefined) => void,
): TemplateResult {
  return html`<label class="option">${label}
    <select @change=${(event: Event) => {
      const { value } = event.target as HTMLSelectElement;
      take(choices.find((choice) => choice.value !== '' && choice.value === value)?.value as Value | undefined);
    }}>${choices.map(
      ({ value, label: text }) => html`<option value=${value}
      ?selected=${value === (chosen ?? '')}>${text}</option>`,
    )}</select>
  </label>`;
}

/** The choices with one of them set, or unset. */
function withChoice<Name extends keyof ImportChoices>(
  choices: ImportChoices,
  name: Name,
  value: ImportChoices[Name] | undefined,
): ImportChoices {
  const { [name]: _, ...rest } = choices;
  return value === undefined ? rest : { ...rest, [name]: value };
}

const inputs = belts.columns.filter((column) => !isComputed(column)).map(({ header }) => header);

function fills(importing: Importing): TemplateResult {
  const { choices } = importing;
  const list = choices.fill ?? [];
  const set = (fill: ImportChoices['fill']): void =>
    importing.choose(withChoice(choices, 'fill', fill === undefined || fill.length === 0 ? undefined : fill));
  const add = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const column = form.querySelector('select')?.value ?? '';
    const value = form.querySelector('input')?.value.trim() ?? '';
    if (column === '' || value === '') return;
    set([...list.filter((fill) => fill.column !== column), { column, value }]);
    form.reset();
  };
  return html`
    <form class="option fill" @submit=${add}>
      <span>Blank cells of</span>
      <select aria-label="Column whose blank cells are filled"><option
        value="">column …</option>${inputs.map((header) => html`<option>${header}</option>`)}</select>
      <span>filled with</span>
      <input aria-label="Value for the blank cells" size="10" /><button class="small">Set</button>
      ${list.map(
        ({ column, value }) => html`<span class="chip">${column} = ${value} <button type="button"
        class="small quiet" aria-label="Do not fill ${column}"
          @click=${() => set(list.filter((fill) => fill.column !== column))}>✕</button></span>`,
      )}
    </form>
  `;
}

/** Rows by their names: those that are no belts, and those that were skipped although they are. */
function rows(importing: Importing): TemplateResult {
  const { choices } = importing;
  const set = (name: 'leaveOut' | 'takeRows', list: readonly string[]): void =>
    importing.choose(withChoice(choices, name, list.length === 0 ? undefined : list));
  const add = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const kind = form.querySelector('select')?.value === 'takeRows' ? 'takeRows' : 'leaveOut';
    const name = form.querySelector('input')?.value.trim() ?? '';
    if (name === '') return;
    set(kind, [...(choices[kind] ?? []), name]);
    form.reset();
  };
  const chips = (kind: 'leaveOut' | 'takeRows', what: string): TemplateResult[] =>
    (choices[kind] ?? []).map(
      (name) => html`<span class="chip">${name} ${what} <button type="button" class="small quiet"
        aria-label="Undo for ${name}" @click=${() =>
          set(
            kind,
            (choices[kind] ?? []).filter((other) => other !== name),
          )}>✕</button></span>`,
    );
  return html`
    <form class="option fill" @submit=${add}>
      <select aria-label="What to do with a row"><option value="leaveOut">Leave out</option><option
        value="takeRows">Take</option></select>
      <span>the row called</span>
      <input aria-label="Name or first text of the row" size="12" /><button class="small">Set</button>
      ${chips('leaveOut', 'is left out')} ${chips('takeRows', 'is taken')}
      ${(choices.values ?? []).map(
        ({ column, from, to }) => html`<span class="chip">${column}: ${from} = ${to} <button type="button"
        class="small quiet" aria-label="Forget what ${from} means"
          @click=${() =>
            importing.choose(
              withChoice(
                choices,
                'values',
                choices.values?.filter((value) => value.column !== column || value.from !== from),
              ),
            )}>✕</button></span>`,
      )}
    </form>
  `;
}

const skewOrigin = (importing: Importing): TemplateResult =>
  select(
    'Skew measured from',
    importing.choices.skewFrom,
    [
      { value: '', label: 'as the header says' },
      { value: 'square', label: 'the square line: square is 0°' },
      { value: 'edge', label: 'the belt’s edge: square is 90°' },
    ],
    (from) => importing.choose(withChoice(importing.choices, 'skewFrom', from)),
  );

function headerRow(importing: Importing): TemplateResult {
  const { choices } = importing;
  const take = (event: Event): void => {
    const row = Number((event.target as HTMLInputElement).value);
    importing.choose(withChoice(choices, 'headerRow', Number.isInteger(row) && row > 0 ? row : undefined));
  };
  return html`<label class="option">Header in row
    <input type="number" min="1" max="1000" size="8" placeholder="detected"
      .value=${choices.headerRow === undefined ? '' : String(choices.headerRow)} @change=${take} />
  </label>`;
}

export function importOptions(importing: Importing, proposal: ImportProposal, invented: boolean): TemplateResult {
  const { choices } = importing;
  const skewed = proposal.tables.some(({ columns }) =>
    columns.some(({ target }) => target === ('Skew' satisfies BeltHeader)),
  );
  return html`
    <div class="options">
      ${select(
        'Units of the book',
        choices.units,
        [
          { value: '', label: `as in the list: ${proposal.units === 'us' ? 'US customary' : 'metric'}` },
          { value: 'metric', label: 'metric units' },
          { value: 'us', label: 'US customary units' },
        ],
        (units) => importing.choose(withChoice(choices, 'units', units)),
      )}
      ${select(
        'Decimal mark',
        choices.decimal,
        [
          { value: '', label: 'detected from the cells' },
          { value: 'point', label: 'point: 457.2' },
          { value: 'comma', label: 'comma: 457,2' },
        ],
        (decimal) => importing.choose(withChoice(choices, 'decimal', decimal)),
      )}
      ${select(
        'Dates',
        choices.dateOrder,
        [
          { value: '', label: 'detected from the cells' },
          { value: 'day first', label: 'day first: 31/3/2026' },
          { value: 'month first', label: 'month first: 3/31/2026' },
        ],
        (order) => importing.choose(withChoice(choices, 'dateOrder', order)),
      )}
      ${skewed ? skewOrigin(importing) : nothing}
      ${headerRow(importing)}
      ${fills(importing)}
      ${rows(importing)}
      <label class="option"><input type="checkbox" .checked=${importing.keepOpen} @change=${(event: Event) =>
        importing.keep((event.target as HTMLInputElement).checked)} />
        ${
          invented
            ? "Use the demo's invented plate figures (to try things out only)"
            : 'Take plate series, strips and assumptions that the file lacks from the open book'
        }</label>
    </div>
  `;
}
