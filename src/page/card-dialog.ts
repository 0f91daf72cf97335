import { html, nothing, render } from 'lit-html';
import { cardsHtml } from '../card/card-html.ts';
import type { CardPaper } from '../card/card-flow.ts';
import { beltTitle } from '../records/belt.ts';
import { type JobCard, jobCard } from '../card/job-card.ts';
import { type CardFile, cardFiles, isRefused } from './card-files.ts';
import type { Desk } from './desk.ts';
import { download, plainName } from './downloading.ts';
import './styles/card.css';

/** The job cards of some belts over the page: to look at, to print, to take along as files. */

const papers: readonly CardPaper[] = ['A4', 'Letter'];

/** What the open dialog shows. */
interface Shown {
  readonly cards: readonly JobCard[];
  paper: CardPaper;
  /** Label of the file that is being made. */
  busy: string | undefined;
  /** What became of the last file. */
  said: { readonly text: string; readonly problem: boolean } | undefined;
}

const nameOf = (cards: readonly JobCard[]): string =>
  cards.length === 1 ? beltTitle(cards[0]?.belt ?? '') : `${cards.length} belts`;

/** Opens the cards of the records; the focus goes back to the grid when it is closed. */
export function showCards(desk: Desk, records: readonly number[]): void {
  const shown: Shown = {
    cards: records.map((record) => jobCard(desk.book, record)),
    paper: desk.book.units === 'us' ? 'Letter' : 'A4',
    busy: undefined,
    said: undefined,
  };
  const element = document.createElement('dialog');
  element.className = 'dialog card-dialog';
  element.setAttribute('aria-label', 'Job card');
  const frame = document.createElement('iframe');
  frame.title = `Job card of ${nameOf(shown.cards)}`;
  frame.className = 'card-paper';

  const fill = (): void => {
    frame.srcdoc = cardsHtml(shown.cards, shown.paper);
  };
  const print = (): void => {
    frame.contentWindow?.focus();
    frame.contentWindow?.print();
  };
  const take = async ({ label, make, type, ending }: CardFile): Promise<void> => {
    const name = `${plainName(nameOf(shown.cards))}${ending}`;
    shown.busy = label;
    shown.said = undefined;
    draw();
    try {
      const made = await make(shown.cards, shown.paper);
      if (isRefused(made)) shown.said = { text: `${name} was not written: ${made.refused}`, problem: true };
      else {
        download(made, type, name);
        shown.said = { text: `${name} was written.`, problem: false };
      }
    } catch (error) {
      shown.said = {
        text: `${name} could not be written: ${error instanceof Error ? error.message : String(error)}`,
        problem: true,
      };
    }
    shown.busy = undefined;
    draw();
  };
  const fileButton = (file: CardFile): ReturnType<typeof html> => html`
    <button class="button" title=${
      `${file.doc}` + `${file.single === true && shown.cards.length > 1 ? '; of one belt at a ' + 'time' : ''}`
    } ?disabled=${
      shown.busy !== undefined || (file.single === true && shown.cards.length > 1)
    } @click=${() => void take(file)}>${shown.busy === file.label ? 'Writing …' : file.label}</button>`;
  function draw(): void {
    render(
      html`
      <header class="dialog-head"><h2>Job card: ${nameOf(shown.cards)}</h2><button class="small quiet"
        aria-label="Close" @click=${() => element.close()}>✕</button></header>
      <div class="card-bar">
        <label>Paper <select aria-label="Paper" @change=${(event: Event) => {
          shown.paper = papers.find((paper) => paper === (event.target as HTMLSelectElement).value) ?? shown.paper;
          fill();
        }}>${papers.map(
          (paper) => html`<option value=${paper} ?selected=${paper === shown.paper}>${paper}</option>`,
        )}</select></label>
        <button class="button primary" autofocus @click=${print}>Print …</button>
        <span class="card-files" role="group" aria-label="Take along as">${cardFiles.map(fileButton)}</span>
      </div>
      <p class="card-said ${shown.said?.problem === true ? 'why' : ''}"
        role="status">${shown.said === undefined ? nothing : shown.said.text}</p>
      ${frame}`,
      element,
    );
  }
  element.addEventListener('close', () => {
    element.remove();
    desk.grid?.focus();
  });
  frame.addEventListener('load', () =>
    frame.contentDocument?.addEventListener('keydown', ({ key }) => {
      if (key === 'Escape') element.close();
    }),
  );
  fill();
  draw();
  document.body.append(element);
  element.showModal();
}
