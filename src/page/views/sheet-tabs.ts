import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { ref } from 'lit-html/directives/ref.js';
import { act } from '../actions/action.ts';
import { action } from '../actions/index.ts';
import { counted } from '../../units/phrases.ts';
import { demoCounts } from '../../workbook/demo-records.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import type { Desk, Saving } from '../desk.ts';
import { selectionWords } from '../selection-words.ts';

/** The line below: the sheets, and what became of the work. */

const time = (at: Date): string => at.toLocaleTimeString('en-GB');

function savedText(saving: Saving): string {
  switch (saving.state) {
    case 'new':
      return 'Kept in this browser';
    case 'saving':
      return 'Saving …';
    case 'saved':
      return `Saved ${time(saving.at)}`;
    case 'shown':
      return saving.why;
    case 'failed':
      return `Not saved: ${saving.why}`;
  }
}

/** The end of the line fades while more tabs follow. */
function fadeOut(line: Element): void {
  line.classList.toggle('tabs-more', line.scrollLeft + line.clientWidth < line.scrollWidth - 1);
}

let last = { sheet: '', room: 0 };

/**
 * Tabs that have no room scroll: the one that is shown is brought into view, again when what stands beside them takes
 * some of their room, and the end says that there are more.
 */
function seen(sheet: string): (element: Element | undefined) => void {
  return (element) => {
    if (element === undefined) return;
    requestAnimationFrame(() => {
      const room = element.clientWidth;
      if (last.sheet !== sheet || last.room !== room)
        element.querySelector('[aria-selected=true]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      last = { sheet, room };
      fadeOut(element);
    });
  };
}

function onKey(event: KeyboardEvent): void {
  const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
  if (step === 0) return;
  const tabs = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>('[role=tab]')];
  const at = tabs.indexOf(document.activeElement as HTMLElement);
  const next = tabs[(at + step + tabs.length) % tabs.length];
  next?.click();
  next?.focus();
}

export function sheetTabs(desk: Desk): TemplateResult {
  const { sheets, invented } = desk.book.state;
  const ofDemo = new Map(invented ? demoCounts(desk.book.state) : []);
  const demoWords = (name: string): string => {
    const count = ofDemo.get(name);
    return count === undefined ? '' : `. ${counted(count, 'row')} of it from the demo, invented`;
  };
  return html`
    <footer class="foot" data-area="tabs">
      <div class="tabs" role="tablist" aria-label="Sheets" @keydown=${onKey}
        @scroll=${(event: Event) => fadeOut(event.currentTarget as HTMLElement)} ${ref(seen(desk.sheet))}>
        ${sheets.map(
          ({ name }) => html`<button
          role="tab" class="tab ${ofDemo.has(name) ? 'tab-demo' : ''}" aria-selected=${name === desk.sheet}
            tabindex=${name === desk.sheet ? 0 : -1}
          title="${compiledSheets.get(name)?.declaration.purpose ?? 'your own sheet'}${demoWords(name)}" @mousedown=${(
            event: Event,
          ) => {
            // A formula in the bar goes on while its cells are looked for on another sheet.
            if (desk.typing !== undefined) event.preventDefault();
          }} @click=${() => {
            // The sheet's own tab leads into it.
            if (name === desk.sheet && desk.typing === undefined) desk.grid?.focus();
            desk.show(name);
          }}>${name}</button>`,
        )}
      </div>
      <button class="tab add-tab" title=${action('add-sheet').doc} aria-label="Add a blank sheet"
        @click=${() => act(action('add-sheet'), desk)}>+</button>
      <select class="sheet-choice" aria-label="Go to a sheet" .value=${live(desk.sheet)}
        @change=${(event: Event) => {
          desk.show((event.target as HTMLSelectElement).value);
          desk.grid?.focus();
        }}>${sheets.map(({ name }) => html`<option ?selected=${name === desk.sheet}>${name}</option>`)}</select>
      <span class="gap"></span>
      <span class="count">${selectionWords(desk)}</span>
      <span class="saved ${desk.saving.state === 'failed' ? 'saved-failed' : ''}"
        role="status">${savedText(desk.saving)}</span>
      ${
        desk.saving.state === 'failed' && desk.saving.raw !== undefined
          ? html`<button class="small" title="All that is stored, as a text file for whoever can make something of it"
        @click=${desk.saving.raw}>Download the stored book</button>`
          : nothing
      }
      ${
        desk.saving.state === 'failed' && desk.saving.replace !== undefined
          ? html`<button class="small" title="This discards the stored book, which cannot be read here"
        @click=${desk.saving.replace}>Keep the open book instead</button>`
          : nothing
      }
    </footer>
  `;
}
