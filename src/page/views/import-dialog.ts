import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import type { ImportProposal, ImportResult } from '../../xlsx/import/import-model.ts';
import type { Desk } from '../desk.ts';
import type { Importing } from '../importing.ts';
import { keepCompared } from '../keeping-variant.ts';
import { type FileComparison, memoryName } from '../library/file-comparison.ts';
import { comparison } from './compare-dialog.ts';
import { dialog } from './dialog.ts';
import { importOptions } from './import-options.ts';
import { importReport } from './import-report.ts';
import { importTable } from './import-tables.ts';

/** A file chosen, read, looked at and corrected before it takes the place of the open book. */

function choose(importing: Importing, problem: string | undefined): TemplateResult {
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    const [file] = event.dataTransfer?.files ?? [];
    if (file !== undefined) void importing.open(file);
  };
  const pick = (event: Event): void => {
    const [file] = (event.target as HTMLInputElement).files ?? [];
    if (file !== undefined) void importing.open(file);
  };
  const paste = (event: SubmitEvent): void => {
    event.preventDefault();
    const text = (event.currentTarget as HTMLFormElement).querySelector('textarea')?.value ?? '';
    if (text.trim() !== '') importing.openText(text);
  };
  return html`
    <div class="dialog-body">
      ${problem === undefined ? nothing : html`<p class="import-problem" role="alert">${problem}</p>`}
      <label class="drop" @dragover=${(event: DragEvent) => event.preventDefault()} @drop=${drop}>
        <input type="file" accept=".xlsx,.xlsm,.xltx,.ods,.csv,.tsv,.txt,.json" autofocus @change=${pick} />
        <span><b>Choose a workbook</b> or drop it here</span>
        <span class="soft">Any list of belts or plates as .xlsx, .ods, .csv or .tsv. Its headers, units and gaps are
          shown as they are understood before anything changes. The file itself is not changed.</span>
      </label>
      <form class="paste" @submit=${paste}>
        <label>Or paste rows with their headers, from a spreadsheet or an e-mail
          <textarea rows="4" spellcheck="false"></textarea></label>
        <button class="small">Read the pasted rows</button>
      </form>
    </div>
  `;
}

const waiting = (desk: Desk, importing: Importing, doing: string): TemplateResult => html`
  <div class="dialog-body"><p role="status">${doing}</p><progress aria-label=${doing}></progress></div>
  <div class="dialog-foot"><button class="button" autofocus @click=${() => {
    importing.end();
    desk.changed();
  }}>Cancel</button></div>
`;

/** How many records the import brings, in words. */
function summary({ report }: ImportResult): string {
  const read = report.tables.filter(({ records, target }) => records > 0 && target !== 'free' && target !== 'ignore');
  return read.map(({ sheet, target, records }) => `${counted(records, 'row')} of ${target} from "${sheet}"`).join(', ');
}

/** Whether a file is first of all to take the book's place: it knows none of its belts, or is the demo as it came. */
const replacing = ({ book, library }: Desk, shared: number): boolean =>
  shared === 0 || (book.state.invented && (library?.past.memories.length ?? 0) === 0);

function lookFoot(desk: Desk, importing: Importing, result: ImportResult | undefined, shared: number): TemplateResult {
  const replaces = replacing(desk, shared);
  return html`
    <div class="dialog-foot">
      <button class="button" @click=${() => {
        importing.end();
        desk.changed();
      }}>Choose another file …</button>
      <span class="gap"></span>
      <button class="button" @click=${() => desk.close()}>Cancel</button>
      ${
        desk.library === undefined
          ? nothing
          : html`<button class="button" ?disabled=${result === undefined}
            @click=${() => importing.acceptAsNew()}>Open as another book</button>`
      }
      ${
        replaces
          ? html`${
              shared === 0
                ? nothing
                : html`<button class="button" @click=${() => void importing.compare()}>Compare with this book</button>`
            }<button class="button primary" autofocus ?disabled=${result === undefined}
            @click=${() => importing.accept()}>Import</button>`
          : html`<button class="button" @click=${() => importing.accept()}>Replace this book</button>
            <button class="button primary" autofocus
            @click=${() => void importing.compare()}>Compare with this book</button>`
      }
    </div>
  `;
}

function looking(
  desk: Desk,
  importing: Importing,
  proposal: ImportProposal,
  result: ImportResult | undefined,
  problem: string | undefined,
): TemplateResult {
  const shared = result === undefined ? 0 : importing.shared(result);
  // The focus goes to what there is to read: on the cross, the next Enter would end the import.
  return html`
    <div class="dialog-body" tabindex="-1" autofocus>
      <p class="import-summary" role="status">${
        problem !== undefined
          ? html`<span
        class="import-problem">${problem}</span>`
          : result === undefined
            ? 'Reading …'
            : html`<b>${importing.file}</b>: ${summary(result)}.`
      }</p>
      ${
        shared === 0
          ? nothing
          : html`<p>This book has ${shared} of these belts already. <b>Compare with this book</b> shows what differs and
              takes what you choose; <b>${
                replacing(desk, shared) ? 'Import' : 'Replace this book'
              }</b> leaves nothing of
              it but a version in its history.</p>`
      }
      ${
        importing.remembered
          ? html`<p>Read as you chose for the last list with these headers.
              <button class="small" @click=${() => importing.forget()}>Forget those choices</button></p>`
          : nothing
      }
      ${
        proposal.ours
          ? html`<p>Skewbook wrote this book: it is read exactly as it is.</p>`
          : html`${importOptions(importing, proposal, desk.book.state.invented)} ${proposal.tables.map((table, index) =>
              importTable(importing, table, result?.report.tables[index]),
            )}`
      }
      ${result === undefined ? nothing : importReport(importing, result.report)}
    </div>
    ${lookFoot(desk, importing, result, shared)}
  `;
}

/** What the book and the file come from, and how one says otherwise. */
function bothComeFrom(desk: Desk, comparison: FileComparison): TemplateResult {
  const { said, memories, base, comparing } = comparison;
  const choose = (event: Event): void => {
    const key = Number((event.target as HTMLSelectElement).value);
    void comparison.choose(memories.find((memory) => memory.key === key)).then(() => desk.changed());
  };
  return html`${said}
    ${
      comparing.threeWay
        ? nothing
        : 'What the file lacks stays unless you take that too. A list counts only in the columns that it has.'
    }
    ${
      memories.length === 0
        ? nothing
        : html`<label class="option">Take for that <select aria-label="What both come from" @change=${choose}>
          <option value="0" ?selected=${base === undefined}>something that nobody knows</option>
          ${memories.map(
            (memory) =>
              html`<option value=${memory.key} ?selected=${memory.key === base?.key}>${memoryName(memory)}</option>`,
          )}</select></label>`
    }`;
}

export function importDialog(desk: Desk, importing: Importing): TemplateResult {
  const { stage } = importing;
  const keep = ({ comparing }: FileComparison): void => {
    const { edits, others } = comparing.changes(desk.book);
    keepCompared(desk, importing.file, edits, others, () => importing.end());
  };
  const content =
    stage.name === 'choose'
      ? choose(importing, stage.problem)
      : stage.name === 'wait'
        ? waiting(desk, importing, stage.doing)
        : stage.name === 'compare'
          ? comparison(desk, stage.comparison.comparing, {
              name: importing.file,
              kind: 'file',
              said: bothComeFrom(desk, stage.comparison),
              back: () => importing.look(),
              accept: () => importing.acceptCompared(),
              keep: () => keep(stage.comparison),
            })
          : looking(desk, importing, stage.proposal, stage.result, stage.problem);
  return dialog(
    desk,
    stage.name === 'compare' ? 'Compare with this book' : 'Import a list of belts',
    stage.name === 'look' || stage.name === 'compare' ? 'import-dialog import-wide' : 'import-dialog',
    content,
  );
}
