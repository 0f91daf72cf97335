import { html, nothing, render, type TemplateResult } from 'lit-html';
import { cardsHtml } from '../card/card-html.ts';
import type { CardPaper } from '../card/card-flow.ts';
import type { CardForm } from '../card/card-form.ts';
import { beltTitle } from '../records/belt.ts';
import { recordsWithin, type Scope } from '../records/chosen-belts.ts';
import { counted } from '../units/phrases.ts';
import { type JobCard, jobCard } from '../card/job-card.ts';
import { type CardFile, cardFiles, isRefused } from './card-files.ts';
import type { Desk } from './desk.ts';
import { download } from './downloading.ts';
import { type NamedBelts, ScopeChoice } from './planning/scope-choice.ts';
import { selectedBelts } from './shown-belt.ts';
import { plainName } from '../sheet/file-names.ts';
import './styles/card.css';

/** The job cards of some belts over the page: to look at, to print, to take along as files. */

const papers: readonly CardPaper[] = ['A4', 'Letter'];
const forms: readonly { readonly form: CardForm; readonly name: string }[] = [
  { form: 'long', name: 'Full' },
  { form: 'short', name: 'One sheet, both sides' },
];

/** Cards of more belts than this would keep the page from answering; a filter chooses the next ones. */
const mostCards = 100;

const nameOf = (cards: readonly JobCard[]): string =>
  cards.length === 1 ? beltTitle(cards[0]?.belt ?? '') : `${cards.length} belts`;

interface Said {
  readonly text: string;
  readonly problem: boolean;
}

class CardDialog {
  readonly #desk: Desk;
  readonly #scopes: ScopeChoice;
  #scope: Scope;
  #cards: readonly JobCard[] = [];
  /** Belts of the choice that have no card here, being too many. */
  #beyond = 0;
  readonly #element = document.createElement('dialog');
  readonly #frame = document.createElement('iframe');
  #paper: CardPaper;
  #form: CardForm = 'long';
  /** Label of the file that is being made. */
  #busy: string | undefined;
  /** What became of the last file. */
  #said: Said | undefined;

  constructor(desk: Desk, first: NamedBelts) {
    const selected = first.word === 'selected' ? first.records : selectedBelts(desk);
    this.#desk = desk;
    this.#scope = { which: 'belts', records: first.records };
    this.#scopes = new ScopeChoice(
      desk,
      selected,
      (scope) => this.#choose(scope),
      () => this.#draw(),
      undefined,
      first.word === 'selected' ? [] : [first],
    );
    this.#paper = desk.book.units === 'us' ? 'Letter' : 'A4';
    this.#element.className = 'dialog card-dialog';
    this.#element.setAttribute('aria-label', 'Job card');
    this.#frame.className = 'card-paper';
    this.#element.addEventListener('close', () => {
      this.#element.remove();
      // A dialog that it was opened from takes the focus back by itself.
      if (document.querySelector('dialog[open]') === null) desk.grid?.focus();
    });
    this.#frame.addEventListener('load', () =>
      this.#frame.contentDocument?.addEventListener('keydown', ({ key }) => {
        if (key === 'Escape') this.#element.close();
      }),
    );
  }

  show(): void {
    this.#choose(this.#scope);
    document.body.append(this.#element);
    this.#element.showModal();
  }

  #choose(scope: Scope): void {
    const records = scope.which === 'belts' ? scope.records : recordsWithin(this.#desk.book, scope);
    this.#scope = scope;
    this.#cards = records.slice(0, mostCards).map((record) => jobCard(this.#desk.book, record));
    this.#beyond = records.length - this.#cards.length;
    this.#said = this.#choiceSaid();
    this.#frame.title = `Job card of ${nameOf(this.#cards)}`;
    this.#fill();
    this.#draw();
  }

  #choiceSaid(): Said | undefined {
    if (this.#beyond > 0)
      return {
        text:
          `These are the cards of the first ${mostCards} belts. Filter the sheet Belts and choose the filtered ones ` +
          `for the other ${counted(this.#beyond, 'belt')}.`,
        problem: true,
      };
    return this.#cards.length === 0 ? { text: 'No belt is in this choice: choose others.', problem: true } : undefined;
  }

  #fill(): void {
    this.#frame.srcdoc = cardsHtml(this.#cards, this.#paper, this.#form);
  }

  #print(): void {
    this.#frame.contentWindow?.focus();
    this.#frame.contentWindow?.print();
  }

  /** What became of a file. */
  async #taken({ make, type, ending }: CardFile): Promise<Said> {
    const name = `${plainName(nameOf(this.#cards))}${ending}`;
    try {
      const made = await make(this.#cards, this.#paper, this.#form);
      if (isRefused(made)) return { text: `${name} was not written: ${made.refused}`, problem: true };
      download(made, type, name);
      return { text: `${name} was written.`, problem: false };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return { text: `${name} could not be written: ${why}`, problem: true };
    }
  }

  async #take(file: CardFile): Promise<void> {
    this.#busy = file.label;
    this.#said = undefined;
    this.#draw();
    this.#said = await this.#taken(file);
    this.#busy = undefined;
    this.#draw();
  }

  #fileButton(file: CardFile): TemplateResult {
    const tooMany = file.single === true && this.#cards.length > 1;
    return html`
      <button class="button" title=${`${file.doc}${tooMany ? '; one belt at a time' : ''}`} ?disabled=${
        this.#busy !== undefined || tooMany || this.#cards.length === 0
      } @click=${() => void this.#take(file)}>${this.#busy === file.label ? 'Writing …' : file.label}</button>`;
  }

  #draw(): void {
    render(
      html`
      <div class="dialog-head"><h2>Job card: ${nameOf(this.#cards)}</h2><button class="small quiet"
        aria-label="Close" @click=${() => this.#element.close()}>✕</button></div>
      <div class="card-bar">
        ${this.#scopes.controls(this.#scope)}
        <label>Paper <select aria-label="Paper" @change=${(event: Event) => {
          this.#paper = papers.find((paper) => paper === (event.target as HTMLSelectElement).value) ?? this.#paper;
          this.#fill();
        }}>${papers.map(
          (paper) => html`<option value=${paper} ?selected=${paper === this.#paper}>${paper}</option>`,
        )}</select></label>
        <label>Form <select aria-label="Form" @change=${(event: Event) => {
          this.#form = forms.find(({ form }) => form === (event.target as HTMLSelectElement).value)?.form ?? this.#form;
          this.#fill();
        }}>${forms.map(
          ({ form, name }) => html`<option value=${form} ?selected=${form === this.#form}>${name}</option>`,
        )}</select></label>
        <button class="button primary" autofocus ?disabled=${this.#cards.length === 0}
          @click=${() => this.#print()}>Print …</button>
        <span class="card-files" role="group"
          aria-label="Save as">${cardFiles.map((file) => this.#fileButton(file))}</span>
      </div>
      <p class="card-said ${this.#said?.problem === true ? 'why' : ''}"
        role="status">${this.#said === undefined ? nothing : this.#said.text}</p>
      ${this.#frame}`,
      this.#element,
    );
  }
}

/** Opens the cards of some belts; others can be chosen in it. The focus goes back to where it was when it is closed. */
export const showCards = (desk: Desk, first: NamedBelts): void => new CardDialog(desk, first).show();
