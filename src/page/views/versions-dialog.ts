import { html, nothing, type TemplateResult } from 'lit-html';
import { counted } from '../../units/phrases.ts';
import { Comparing } from '../comparing.ts';
import type { Desk, Dialog } from '../desk.ts';
import { changeAll } from '../book-changes.ts';
import { takenWords } from '../import-comparison.ts';
import type { BookLibrary } from '../library/book-library.ts';
import { libraryLimits, type Version } from '../library/library-store.ts';
import { momentOf, sizeOf } from '../library/library-words.ts';
import { addressOf } from '../library/window-book.ts';
import { comparison } from './compare-dialog.ts';
import { dialog } from './dialog.ts';

/** How the open book was at earlier times: to look at, to compare with, to bring back. */

const versionName = ({ at }: Version): string => `the version of ${momentOf(at)}`;

/** Puts a version beside the open book, or beside another version. */
async function compare(desk: Desk, library: BookLibrary, version: Version, than?: Version): Promise<void> {
  const content = await library.past.content('versions', version.key);
  if (content === undefined) return;
  if (than === undefined) {
    desk.open({ kind: 'versions', comparing: { version, comparing: new Comparing(desk.book.state, content) } });
    return;
  }
  const other = await library.past.content('versions', than.key);
  if (other === undefined) return;
  const [earlier, later] = than.key < version.key ? [other, content] : [content, other];
  desk.open({ kind: 'versions', comparing: { version, than, comparing: new Comparing(earlier.state, later) } });
}

const thisBook = 'this book';

/** Chooses what a version is compared with. */
function compareWith(desk: Desk, library: BookLibrary, version: Version, than: Version | undefined): TemplateResult {
  const chosen = (event: Event): void => {
    const key = (event.target as HTMLSelectElement).value;
    const other = library.past.versions.find((one) => String(one.key) === key);
    void compare(desk, library, version, other);
  };
  return html`<label>Compared with <select aria-label="Compared with" @change=${chosen}>
    <option value="" ?selected=${than === undefined}>${thisBook}, as it is now</option>
    ${library.past.versions
      .filter(({ key }) => key !== version.key)
      .map(
        (one) =>
          html`<option value=${one.key} ?selected=${one.key === than?.key}>${versionName(one)}, ${one.why}</option>`,
      )}</select></label>`;
}

async function bringBack(desk: Desk, library: BookLibrary, version: Version): Promise<void> {
  const content = await library.past.content('versions', version.key);
  if (content === undefined) return;
  const before = desk.book.state;
  const step = `bringing back ${versionName(version)}`;
  const replace = (): void => desk.book.replace(content.state, step);
  const done = (): void => {
    void library.past.keepAround(step, before);
    desk.close();
    desk.goTo({ sheet: content.state.sheets[0]?.name ?? '', record: 0, column: 0 });
    desk.say(`This is the book of ${momentOf(version.at)} again. Undo brings back what was open before.`);
  };
  changeAll(desk, step, replace, done, content.state);
}

function versionRow(desk: Desk, library: BookLibrary, version: Version): TemplateResult {
  const moment = momentOf(version.at);
  return html`<tr><td>${moment}</td><td>${version.why}</td><td>${counted(version.belts, 'belt')}</td>
    <td class="row-actions">
      <a class="small" role="button" target="_blank" rel="opener" aria-label="Look at ${moment}, ${version.why}"
        href=${addressOf(library.id, version.key)}>Look</a>
      <button class="small" aria-label="Compare with ${moment}, ${version.why}"
        @click=${() => void compare(desk, library, version)}>Compare …</button>
      <button class="small" aria-label="Bring back ${moment}, ${version.why}"
        ?disabled=${desk.book.closed !== undefined} @click=${() => void bringBack(desk, library, version)}>Bring
        back</button>
    </td></tr>`;
}

function list(desk: Desk, library: BookLibrary): TemplateResult {
  const { versions, memories, gone } = library.past;
  const bytes = [...versions, ...memories].reduce((sum, { size }) => sum + size, 0);
  const keep = (): void =>
    desk.open({
      kind: 'ask',
      title: 'Keep this version',
      label: 'What it is, for the list',
      initial: '',
      answer(text) {
        if (text.trim() === '') return 'Enter a few words, such as "before the winter outage".';
        void library.past.keep(text.trim());
        desk.open({ kind: 'versions' });
        return undefined;
      },
    });
  return html`
    <div class="dialog-body">
      ${
        versions.length === 0
          ? html`<p>None yet. A version is kept before and after each import and merge, of each day on which the book
            was
              changed, and whenever you ask for one.</p>`
          : html`<table class="table">
        <thead><tr><th>When</th><th>What</th><th>Belts</th><th><span class="unseen">What to do with
          it</span></th></tr></thead>
        <tbody>${versions.map((version) => versionRow(desk, library, version))}</tbody></table>`
      }
      ${
        memories.length === 0
          ? nothing
          : html`<h3>Files it remembers</h3>
          <p class="soft">When one of these comes back changed, Import tells what changed in it from what changed
            here.</p>
          <ul>${memories.map(({ file, how, at }) => html`<li>${file}, ${how} ${momentOf(at)}</li>`)}</ul>`
      }
      ${gone.length === 0 ? nothing : html`<h3>Gone</h3><ul>${gone.map((text) => html`<li>${text}</li>`)}</ul>`}
      <p class="soft">${sizeOf(bytes)} used. At most ${libraryLimits.versions} versions and ${libraryLimits.files} files
        are kept of a book, within ${sizeOf(libraryLimits.versionBytes + libraryLimits.fileBytes)}; then the oldest go,
        and the page says so.</p>
    </div>
    <div class="dialog-foot">
      <button class="button" ?disabled=${desk.book.closed !== undefined} @click=${keep}>Keep this version …</button>
      <span class="gap"></span>
      <button class="button primary" autofocus @click=${() => desk.close()}>Close</button>
    </div>
  `;
}

export function versionsDialog(
  desk: Desk,
  library: BookLibrary,
  { comparing: compared }: Extract<Dialog, { readonly kind: 'versions' }>,
): TemplateResult {
  if (compared === undefined) return dialog(desk, 'Versions of this book', 'versions-dialog', list(desk, library));
  const { version, than, comparing } = compared;
  const back = (): void => desk.open({ kind: 'versions' });
  const choice = compareWith(desk, library, version, than);
  if (than !== undefined) {
    const [earlier, later] = than.key < version.key ? [than, version] : [version, than];
    return dialog(
      desk,
      `Compare ${versionName(earlier)} with ${versionName(later)}`,
      'import-dialog import-wide',
      comparison(desk, comparing, {
        name: versionName(later),
        kind: `version of ${momentOf(later.at)}`,
        beside: `version of ${momentOf(earlier.at)}`,
        said: html`${choice} Two earlier states are compared to be looked at: nothing is taken into this book.`,
        back,
      }),
    );
  }
  const accept = (): void => {
    const before = desk.book.state;
    const step = `what was taken of ${versionName(version)}`;
    const replace = (): void => desk.book.replace(comparing.merged(), step);
    changeAll(desk, step, replace, () => {
      void library.past.keepAround(step, before);
      desk.close();
      desk.say(takenWords(comparing));
    });
  };
  return dialog(
    desk,
    `Compare with ${versionName(version)}`,
    'import-dialog import-wide',
    comparison(desk, comparing, {
      name: versionName(version),
      kind: 'version',
      said: html`${choice} What you take becomes as it was then (${version.why}). What this version lacks stays unless
        you take that too.`,
      back,
      accept,
    }),
  );
}
