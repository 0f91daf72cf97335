import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { recordSheets } from '../../../sheets/index.ts';
import { isComputed } from '../../sheet/declaration.ts';
import { listed } from '../../sheet/words.ts';
import { unitsFor } from '../../units/reading.ts';
import type { ColumnProposal, ColumnReport, TableProposal, TableReport } from '../../xlsx/import/import-model.ts';
import { importTargets } from '../../xlsx/import/proposal.ts';
import type { Importing } from '../importing.ts';

/** What each sheet and column of the file is taken for, to look over and correct. */

const targetNames: Readonly<Record<string, string>> = { free: 'keep as my own sheet', ignore: 'leave out' };

const declared = (sheet: string, header: string): (typeof recordSheets)[number]['columns'][number] | undefined =>
  recordSheets.find(({ name }) => name === sheet)?.columns.find((column) => column.header === header);

function targetSelect(importing: Importing, table: TableProposal, column: ColumnProposal): TemplateResult {
  const headers =
    recordSheets
      .find(({ name }) => name === table.target)
      ?.columns.filter((item) => !isComputed(item))
      .map(({ header }) => header) ?? [];
  const likely = column.suggestions.map(({ target }) => target).filter((target) => headers.includes(target));
  const rest = headers.filter((header) => !likely.includes(header));
  const known = [...headers, 'own', 'ignore'];
  const option = (value: string, label = value): TemplateResult =>
    html`<option value=${value} ?selected=${value === column.target}>${label}</option>`;
  return html`<select aria-label="Column ${column.letter} is" @change=${(event: Event) =>
    importing.correct(table, column, { target: (event.target as HTMLSelectElement).value })}>
    ${option('own', 'my own column')}${option('ignore', 'left out')}
    ${known.includes(column.target) ? nothing : option(column.target)}
    ${likely.length > 0 ? html`<optgroup label="likely">${likely.map((header) => option(header))}</optgroup>` : nothing}
    <optgroup label="all columns of ${table.target}">${rest.map((header) => option(header))}</optgroup>
  </select>`;
}

function unitSelect(
  importing: Importing,
  table: TableProposal,
  column: ColumnProposal,
): TemplateResult | typeof nothing {
  const kind = declared(table.target, column.target)?.kind;
  const symbols = kind === undefined ? [] : [...new Set(unitsFor(kind).map(({ symbol }) => symbol))];
  if (symbols.length < 2) return html`${column.unit ?? ''}`;
  return html`<select aria-label="Unit of column ${column.letter}" @change=${(event: Event) =>
    importing.correct(table, column, { unit: (event.target as HTMLSelectElement).value })}>
    ${column.unit === undefined ? html`<option value="" selected>unknown</option>` : nothing}
    ${symbols.map((symbol) => html`<option ?selected=${symbol === column.unit}>${symbol}</option>`)}
  </select>`;
}

const certainty = ({ target, confidence }: ColumnProposal): string =>
  target === 'own' || target === 'ignore' ? '' : confidence >= 0.85 ? 'sure' : confidence >= 0.6 ? 'likely' : 'a guess';

/** What a column that stays the list's own may mean all the same. */
const perhaps = ({ target, suggestions }: ColumnProposal): string =>
  target === 'own' && suggestions.length > 0
    ? `; perhaps ${listed(
        suggestions.map((item) => item.target),
        'or',
      )}?`
    : '';

function columnRow(
  importing: Importing,
  table: TableProposal,
  column: ColumnProposal,
  report: ColumnReport | undefined,
): TemplateResult {
  const sure = certainty(column);
  return html`<tr class=${sure === 'a guess' || sure === 'likely' ? 'import-unsure' : ''}>
    <td class="soft">${column.letter}</td>
    <td>${column.header === '' ? html`<i class="soft">no header</i>` : column.header}</td>
    <td>${targetSelect(importing, table, column)}</td>
    <td>${unitSelect(importing, table, column)}</td>
    <td class="import-number">${report?.filled ?? ''}</td>
    <td class="soft">${[sure, column.why].filter((text) => text !== '').join(': ')}${perhaps(column)}${
      report !== undefined && report.formulas > 0 ? `; ${report.formulas} formulas kept` : ''
    }${
      report !== undefined && report.values > 0
        ? `; ${report.values} formulas kept as values ` +
          `only${report.valuesWhy === undefined ? '' : `: ${report.valuesWhy}`}`
        : ''
    }</td>
  </tr>`;
}

export function importTable(
  importing: Importing,
  table: TableProposal,
  report: TableReport | undefined,
): TemplateResult {
  const skipped = table.skipped.length === 0 ? '' : `; ${counted(table.skipped.length, 'row')} skipped`;
  const place =
    table.headerRow === 0
      ? ''
      : `${table.turned ? 'header in column' : 'header in row'} ` +
        `${table.headerRow}${table.unitsRow === undefined ? '' : `, units in ${table.unitsRow}`}${skipped}`;
  return html`
    <section class="import-table">
      <h3>Sheet "${table.sheet}"
        <select aria-label="Sheet ${table.sheet} is" @change=${(event: Event) =>
          importing.takeFor(table, (event.target as HTMLSelectElement).value)}>
          ${importTargets.map(
            (target) =>
              html`<option value=${target} ?selected=${target === table.target} ?disabled=${
                table.columns.length === 0 && recordSheets.some(({ name }) => name === target)
              }>${targetNames[target] ?? `list of ${target}`}</option>`,
          )}
        </select>
        <span class="soft">${
          report === undefined ? '' : `${report.records} rows`
        }${table.hidden ? ', hidden in the file' : ''}</span>
      </h3>
      <p class="soft">${[table.why, place].filter((text) => text !== '').join('; ')}${
        table.areaFrom === undefined ? '' : `; Area is taken from the ${table.areaFrom}`
      }.</p>
      ${
        table.columns.length === 0 || table.target === 'free' || table.target === 'ignore'
          ? nothing
          : html`
        <table class="table">
          <thead><tr><th><span
            class="unseen">Column in file</span></th><th>Header in file</th><th>Maps to</th><th>Unit</th><th
            class="import-number">Filled</th><th>Why</th></tr></thead>
          <tbody>${table.columns.map((column, index) =>
            columnRow(importing, table, column, report?.columns[index]),
          )}</tbody>
        </table>`
      }
      ${
        table.skipped.length === 0
          ? nothing
          : html`<details><summary>Skipped rows</summary><ul>${table.skipped
              .slice(0, 100)
              .map(
                ({ row, what, text }) => html`<li>${row}: ${what}${text === '' ? '' : ` — ${text}`}</li>`,
              )}</ul></details>`
      }
    </section>
  `;
}
