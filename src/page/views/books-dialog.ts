import { html, nothing, type TemplateResult } from 'lit-html';
import { counted } from '../../units/phrases.ts';
import { act } from '../actions/action.ts';
import { action } from '../actions/index.ts';
import type { Desk } from '../desk.ts';
import { beltCount } from '../library/book-past.ts';
import type { BookLibrary } from '../library/book-library.ts';
import type { BookEntry } from '../library/library-store.ts';
import { momentOf, sizeOf } from '../library/library-words.ts';
import { dialog } from './dialog.ts';

/** The books that this browser keeps: opened, named, copied, put into the bin and taken out of it. */

const titleOf = ({ title }: BookEntry): string => (title === '' ? 'Untitled book' : title);

/** What is kept and the open book, which is not in the list before its first change. */
function shownBooks({ book, saving }: Desk, { id, books }: BookLibrary): readonly BookEntry[] {
  const { title, units } = book.state;
  const kept = books.find((entry) => entry.id === id);
  // Where the stored book can't be read, another stands in for it on the page, and has no place in the list.
  if (saving.state === 'failed' && kept !== undefined) return books;
  const open: BookEntry = {
    id,
    title,
    units,
    belts: beltCount(book.state),
    at: saving.state === 'saved' ? saving.at : new Date(),
  };
  return [open, ...books.filter((entry) => entry !== kept)];
}

function rename(desk: Desk, library: BookLibrary, entry: BookEntry): void {
  desk.open({
    kind: 'ask',
    title: `Rename ${titleOf(entry)}`,
    label: 'Name',
    initial: entry.title,
    answer(text) {
      void library.rename(entry, text.trim());
      desk.open({ kind: 'books' });
      return undefined;
    },
  });
}

function openRow(desk: Desk, library: BookLibrary, entry: BookEntry): TemplateResult {
  const here = entry.id === library.id;
  const name = titleOf(entry);
  return html`<tr aria-current=${here ? 'true' : nothing}>
    <td>${
      here
        ? html`<b>${name}</b> <span class="soft">open here</span>`
        : html`<button class="link" aria-label="Open ${name}"
          @click=${() => void library.open(entry.id)}>${name}</button>`
    }</td>
    <td>${counted(entry.belts, 'belt')}</td><td>${entry.units === 'us' ? 'US customary' : 'metric'}</td>
    <td>${momentOf(entry.at)}</td>
    <td class="row-actions">
      <button class="small" aria-label="Duplicate ${name}" @click=${() => void library.duplicate(entry)}
      >Duplicate</button>
      <button class="small" aria-label="Rename ${name}" @click=${() => rename(desk, library, entry)}>Rename …</button>
      <button class="small" aria-label="Delete ${name}" title="Puts it into the bin"
        @click=${() => void library.bin(entry)}
      >Delete</button>
    </td></tr>`;
}

function binRow(desk: Desk, library: BookLibrary, entry: BookEntry): TemplateResult {
  const name = titleOf(entry);
  const purge = (): void => {
    desk.open({
      kind: 'ask',
      title: `Delete ${name} for good`,
      label: `Its versions go with it, and nothing brings it back. Type ${name} to delete it`,
      initial: '',
      answer(text) {
        if (text.trim() !== name) return `This is not its name: ${name}`;
        void library.purge([entry]);
        desk.open({ kind: 'books' });
        return undefined;
      },
    });
  };
  return html`<tr><td>${name}</td><td>${counted(entry.belts, 'belt')}</td>
    <td>${entry.binned === undefined ? '' : momentOf(entry.binned)}</td>
    <td>${entry.size === undefined ? '' : sizeOf(entry.size)}</td>
    <td class="row-actions">
      <button class="small" aria-label="Bring back ${name}" @click=${() => void library.bringBack(entry)}
      >Bring back</button>
      <button class="small" aria-label="Delete for good: ${name}" @click=${purge}>Delete for good …</button></td></tr>`;
}

/** "2 books, 3.1 MB" */
function binSize(binned: readonly BookEntry[]): string {
  const bytes = binned.reduce((sum, { size = 0 }) => sum + size, 0);
  return `${counted(binned.length, 'book')}${bytes === 0 ? '' : `, ${sizeOf(bytes)}`}`;
}

function emptyBin(desk: Desk, library: BookLibrary, binned: readonly BookEntry[]): void {
  const word = 'empty';
  desk.open({
    kind: 'ask',
    title: `Empty the bin: ${binSize(binned)}`,
    label: `The books and their versions go for good: ${binned.map(titleOf).join(', ')}. Type ${word} to delete them`,
    initial: '',
    answer(text) {
      if (text.trim().toLowerCase() !== word) return `Type ${word}, or cancel: nothing was deleted.`;
      void library.purge(binned);
      desk.open({ kind: 'books' });
      return undefined;
    },
  });
}

export function booksDialog(desk: Desk, library: BookLibrary): TemplateResult {
  const books = shownBooks(desk, library);
  const binned = books.filter((entry) => entry.binned !== undefined);
  const { usage } = library;
  return dialog(
    desk,
    'Books in this browser',
    'books-dialog',
    html`
      <div class="dialog-body">
        <table class="table">
          <thead><tr><th>Name</th><th>Belts</th><th>Units</th><th>Last changed</th><th><span
            class="unseen">What to do with it</span></th></tr></thead>
          <tbody>${books
            .filter((entry) => entry.binned === undefined)
            .map((entry) => openRow(desk, library, entry))}</tbody>
        </table>
        ${
          binned.length === 0
            ? nothing
            : html`<h3>Bin<span class="soft">${binSize(binned)}</span><span class="gap"></span><button class="small"
                @click=${() => emptyBin(desk, library, binned)}>Empty the bin …</button></h3>
          <table class="table"><thead><tr><th>Name</th><th>Belts</th><th>Deleted</th><th>Size</th><th><span
            class="unseen">What to do with it</span></th></tr></thead>
          <tbody>${binned.map((entry) => binRow(desk, library, entry))}</tbody></table>`
        }
        <p class="soft">Books are kept in this browser on this computer only${
          usage === undefined ? '' : `: ${sizeOf(usage.used)} of ${sizeOf(usage.room)} that it gives are used`
        }. Export a book to keep it elsewhere too.</p>
      </div>
      <div class="dialog-foot">
        ${(['new-book', 'demo-metric', 'demo-us'] as const).map(
          (id) => html`<button class="button" title=${action(id).doc} @click=${() => act(action(id), desk)}
          >${id === 'new-book' ? 'New empty book' : id === 'demo-us' ? 'Demo, US units' : 'Demo, metric'}</button>`,
        )}
        <span class="gap"></span>
        <button class="button primary" autofocus @click=${() => desk.close()}>Close</button>
      </div>
    `,
  );
}
