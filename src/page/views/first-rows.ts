import { html, render, type TemplateResult } from 'lit-html';
import { grouped } from '../../xlsx/read/read-limits.ts';
import type { FirstLook } from '../first-look.ts';

/** The first rows of a large book while it is read and worked out: to read, and no more. */

/** Rows of a book that is opened faster than this could be read. */
const mostAtOnce = 3_000;

/** How far the opening has come. */
type OpeningStage =
  | { readonly stage: 'reading'; readonly rows: number; readonly of: number }
  | { readonly stage: 'working out'; readonly of: number };

const stageWords = (stage: OpeningStage): string =>
  stage.stage === 'reading'
    ? `Reading the book: ${grouped(stage.rows)} of ${grouped(stage.of)} rows.`
    : `Working out ${grouped(stage.of)} rows.`;

const table = ({ sheet, headers, rows }: FirstLook): TemplateResult => html`
  <div class="first-rows-sheet"><table aria-label=${`First rows of ${sheet}`}>
    <thead><tr><td></td>${headers.map((header) => html`<th scope="col">${header}</th>`)}</tr></thead>
    <tbody>${rows.map(
      ({ row, cells }) => html`<tr><th scope="row">${row}</th>${cells.map((text) => html`<td>${text}</td>`)}</tr>`,
    )}</tbody>
  </table></div>`;

/** Until the next frame was drawn; a page that nobody sees draws none. */
const drawn = (): Promise<void> =>
  new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
    setTimeout(done, 100);
  });

export class FirstRows {
  readonly #host: HTMLElement;
  #look: FirstLook | undefined;
  #shown = false;

  constructor(host: HTMLElement) {
    this.#host = document.createElement('div');
    this.#host.className = 'first-rows';
    host.append(this.#host);
  }

  /** Shows the rows of a book that takes long to open. */
  async show(title: string, look: FirstLook, of: number): Promise<void> {
    if (of <= mostAtOnce) return;
    this.#look = look;
    this.#shown = true;
    document.title = title === '' ? 'Skewbook' : `${title} · Skewbook`;
    await this.tell({ stage: 'reading', rows: 0, of });
  }

  /** Says that a book, which may have few rows, is being tried. */
  async trying(): Promise<void> {
    if (!this.#shown) this.#host.textContent = 'Opening the book …';
    await drawn();
  }

  /** Says how far the opening has come, once that is seen. */
  async tell(stage: OpeningStage): Promise<void> {
    if (!this.#shown) return;
    render(
      html`<p role="status">${stageWords(stage)} These are its first rows as they were shown last; none of the figures
        is worked out anew yet.</p>${this.#look === undefined ? '' : table(this.#look)}`,
      this.#host,
    );
    await drawn();
  }

  end(): void {
    this.#host.remove();
  }
}
