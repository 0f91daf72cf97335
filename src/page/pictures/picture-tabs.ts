import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { checkColumns } from '../../../sheets/belts/check-columns.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { beltDots, PictureRefused } from '../../pictures/belt-dots.ts';
import { beltColumnNamed, beltColumns, holdsWords, nameOf } from '../../pictures/belt-figures.ts';
import { figureDraws } from '../../pictures/failing-chances.ts';
import { beltHistogram, drawnHistogram, pulleyUsed, ratingUsed } from '../../pictures/histogram.ts';
import { expectedFailing, verdictsByArea } from '../../pictures/fleet-areas.ts';
import { jointsDue, spendDue } from '../../pictures/fleet-due.ts';
import { sweptPicture } from '../../pictures/swept-figure.ts';
import { mapPicture } from '../../pictures/verdict-map.ts';
import { beltTitle } from '../../records/belt.ts';
import { isComputed } from '../../sheet/declaration.ts';
import { isWords } from '../../units/quantities.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import { searching } from '../planning/planning-dialog.ts';
import { beltChoice, columnChoice, rangeChoice } from './choices.ts';
import { pictureFigure, type PictureView } from './picture-figure.ts';
import type { PicturesSession, Work } from './pictures-session.ts';

/** The tabs of the pictures: what is asked, above what is drawn. */

/** Pixels of a window beside and above its pictures. */
const [beside, above] = [74, 300];
const gap = 16;
/** From this width of a window on three pictures stand beside each other. */
const wide = 1200;

const wholeSize = (): { width: number; height: number } => ({
  width: Math.max(480, window.innerWidth - beside),
  height: Math.max(300, Math.min(620, window.innerHeight - above)),
});

function overviewSize(): { width: number; height: number } {
  const columns = window.innerWidth >= wide ? 3 : 2;
  // Two rows of pictures, with what stands above, below and between them.
  const height = Math.max(200, Math.min(270, Math.floor((window.innerHeight - 430) / 2)));
  return { width: Math.floor((window.innerWidth - beside - gap * (columns - 1)) / columns) - 22, height };
}

const noBelts = html`<p class="empty">The sheet Belts has no belts yet: enter some, or import a list.</p>`;

/** What is under way for a picture, or why there is none. */
function underWay(session: PicturesSession, work: Work, what: string): TemplateResult | typeof nothing {
  const running = session.running.get(work);
  const problem = session.running.problems.get(work);
  if (running !== undefined) return searching(what, running.progress?.stage, () => session.running.stop(work));
  if (problem !== undefined) return html`<p class="why" role="alert">${problem}</p>`;
  return nothing;
}

export function overviewTab(view: PictureView): TemplateResult {
  const { session } = view;
  const { book } = session.desk;
  if (session.terms.record === undefined) return noBelts;
  const size = overviewSize();
  const made = (id: string, make: (of: typeof book) => ReturnType<typeof verdictsByArea>): TemplateResult =>
    pictureFigure(
      view,
      session.made(id, [book.state], () => make(book)),
      size,
    );
  const used = (id: string, make: (of: typeof book) => ReturnType<typeof ratingUsed>): TemplateResult =>
    pictureFigure(
      view,
      session.made(id, [book.state], () => make(book)),
      size,
    );
  const { chances } = session;
  return html`<div class="pictures-overview">
    ${made('verdicts', verdictsByArea)} ${made('due', jointsDue)} ${made('spend', spendDue)}
    ${used('rating', ratingUsed)} ${used('pulley', pulleyUsed)}
    ${
      chances === undefined
        ? html`<figure class="picture"><figcaption><h3>Expected failing belts by area</h3></figcaption>
          ${underWay(session, 'chances', 'Drawing inputs and assumptions by chance')}
          ${
            session.running.has('chances')
              ? nothing
              : html`<p><button class="small" @click=${() => session.askChances()}>Draw by chance</button></p>`
          }</figure>`
        : pictureFigure(
            view,
            session.made('expected', [book.state, chances], () =>
              expectedFailing(book, new Map(chances.chances), chances.draws),
            ),
            size,
          )
    }
  </div>`;
}

const numbers = (columns: readonly BookColumn[]): BookColumn[] => columns.filter((column) => !holdsWords(column));

export function columnsTab(view: PictureView): TemplateResult {
  const { session } = view;
  const { book } = session.desk;
  if (session.terms.record === undefined) return noBelts;
  const columns = beltColumns(book);
  const [across, upward] = [
    beltColumnNamed(book, session.terms.across) ?? columns[0],
    beltColumnNamed(book, session.terms.upward) ?? columns[0],
  ];
  const terms = html`<p class="planning-terms">
    ${columnChoice(session, 'Across', session.terms.across, columns, (header) => session.ask({ across: header }))}
    ${columnChoice(session, 'Upwards', session.terms.upward, columns, (header) => session.ask({ upward: header }))}
    <button class="small" @click=${() =>
      session.ask({ across: session.terms.upward, upward: session.terms.across })}>Swap</button></p>`;
  if (across === undefined || upward === undefined) return terms;
  try {
    const picture = session.made('columns', [book.state, across, upward], () => beltDots(book, across, upward));
    return html`${terms}${pictureFigure(view, picture, wholeSize())}`;
  } catch (error) {
    if (!(error instanceof PictureRefused)) throw error;
    return html`${terms}<p class="why" role="alert">${error.message}</p>`;
  }
}

export function spreadTab(view: PictureView): TemplateResult {
  const { session } = view;
  const { book } = session.desk;
  if (session.terms.record === undefined) return noBelts;
  const { spread, spreadOf, record } = session.terms;
  const isDeclared = ({ own }: BookColumn): boolean => spreadOf === 'belts' || !own;
  const columns = numbers(beltColumns(book)).filter(isDeclared);
  const column = columns.find(({ header }) => header === spread) ?? columns[0];
  const ask = (terms: Partial<PicturesSession['terms']>): void => {
    session.ask(terms);
    if (session.terms.spreadOf === 'draws') session.askDraws();
  };
  const of = html`<label>Of <select aria-label="Of" .value=${live(spreadOf)} @change=${(event: Event) =>
    ask({ spreadOf: (event.target as HTMLSelectElement).value === 'draws' ? 'draws' : 'belts' })}>
    <option value="belts" ?selected=${spreadOf === 'belts'}>all belts</option>
    <option value="draws" ?selected=${spreadOf === 'draws'} ?disabled=${record === undefined}>one belt, drawn by
      chance</option></select></label>`;
  const terms = html`<p class="planning-terms">
    ${columnChoice(session, 'Figure', spread, columns, (header) => ask({ spread: header }))} ${of}
    ${spreadOf === 'draws' ? beltChoice(session, (chosen) => ask({ record: chosen })) : nothing}</p>`;
  if (column === undefined) return terms;
  if (spreadOf === 'belts')
    return html`${terms}${pictureFigure(
      view,
      session.made('spread', [book.state, column], () => beltHistogram(book, column)),
      wholeSize(),
    )}`;
  const { draws } = session;
  if (draws === undefined || record === undefined)
    return html`${terms}${underWay(session, 'draws', 'Drawing inputs and assumptions by chance')}`;
  const belt = { name: beltTitle(nameOf(book, record)), record };
  return html`${terms}${pictureFigure(
    view,
    session.made('draws', [book.state, draws, column], () =>
      drawnHistogram(book, column, belt, { figures: draws.figures, draws: figureDraws }),
    ),
    wholeSize(),
  )}`;
}

const computedNumbers = new Set(
  belts.columns.filter((column) => isComputed(column) && !isWords(column.kind)).map(({ header }): string => header),
);

function variantTicks(
  session: PicturesSession,
  ask: (variants: readonly string[]) => void,
): TemplateResult | typeof nothing {
  const { variants } = session.terms;
  if (session.variants.length === 0)
    return html`<span class="soft">The book has no variants: keep some in the panel What if to compare them
      here.</span>`;
  return html`<span class="picture-variants" role="group" aria-label="Variants">${session.variants.map(
    (name) =>
      html`<label><input type="checkbox" .checked=${live(variants.includes(name))} @change=${(event: Event) =>
        ask(
          (event.target as HTMLInputElement).checked ? [...variants, name] : variants.filter((one) => one !== name),
        )} /> ${name}</label>`,
  )}</span>`;
}

export function sweepTab(view: PictureView): TemplateResult {
  const { session } = view;
  const { book } = session.desk;
  const { swept: header, record } = session.terms;
  if (record === undefined) return noBelts;
  const ask = (terms: Partial<PicturesSession['terms']>): void => {
    session.ask(terms);
    session.askSweep();
  };
  const columns = beltColumns(book).filter((column) => computedNumbers.has(column.header));
  const take = (wanted: string): void => {
    const found = belts.columns.find((column) => column.header === wanted);
    if (found !== undefined) ask({ swept: found.header });
  };
  const { swept } = session;
  return html`<p class="planning-terms">
      ${columnChoice(session, 'Figure', header, columns, take)} ${beltChoice(session, (one) => ask({ record: one }))}
      ${rangeChoice(session, 'Over', 'sweptBy', ask)}
      ${variantTicks(session, (variants) => ask({ variants }))}</p>
    ${underWay(session, 'sweep', 'Trying values')}
    ${
      swept === undefined
        ? nothing
        : pictureFigure(
            view,
            session.made('sweep', [book.state, swept], () => sweptPicture(book, swept)),
            wholeSize(),
          )
    }`;
}

export function mapTab(view: PictureView): TemplateResult {
  const { session } = view;
  const { book } = session.desk;
  const { mapped, record } = session.terms;
  if (record === undefined) return noBelts;
  const ask = (terms: Partial<PicturesSession['terms']>): void => {
    session.ask(terms);
    session.askMap();
  };
  const checks = ['Verdict' as const, ...checkColumns.map(({ header }) => header)];
  const { map } = session;
  return html`<p class="planning-terms">
      <label>Verdict of <select aria-label="Verdict of" .value=${live(mapped)} @change=${(event: Event) =>
        ask({
          mapped: checks.find((one) => one === (event.target as HTMLSelectElement).value) ?? mapped,
        })}>${checks.map(
        (one) =>
          html`<option value=${one} ?selected=${one === mapped}>${one === 'Verdict' ? 'all checks' : one}</option>`,
      )}</select></label>
      ${beltChoice(session, (one) => ask({ record: one }))}
      ${rangeChoice(session, 'Across', 'mapAcross', ask)}
      ${rangeChoice(session, 'Upwards', 'mapUpward', ask)}</p>
    ${underWay(session, 'map', 'Trying pairs of values')}
    ${
      map === undefined
        ? nothing
        : pictureFigure(
            view,
            session.made('map', [book.state, map], () => mapPicture(book, map)),
            wholeSize(),
          )
    }`;
}
