import { html, type TemplateResult } from 'lit-html';
import { act, actionName } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import type { Desk } from '../desk.ts';

/** How to begin, as a page of Help: the ways to a book of one's own, the tours, how the page is kept. */

const ways = [
  [
    'import',
    'a list in .xlsx, .ods or .csv, or rows pasted from a spreadsheet or an e-mail; each column is shown first',
  ],
  ['new-book', 'type or paste belts row by row'],
  ['demo-metric', 'look at a whole plant whose figures are invented'],
] as const satisfies readonly (readonly [ActionName, string])[];

const tourNames = ['tour-planner', 'tour-engineer', 'tour-buyer'] as const satisfies readonly ActionName[];

function choice(desk: Desk, id: ActionName, says: string): TemplateResult {
  const item = action(id);
  const run = (): void => {
    desk.close();
    act(item, desk);
  };
  return html`<li><button class="button" @click=${run}>${actionName(item, desk)}</button> <span>${says}</span></li>`;
}

export const firstSteps = (desk: Desk): TemplateResult => html`
  <h3>A book of your own</h3>
  <ul class="first-steps">${ways.map(([id, says]) => choice(desk, id, says))}</ul>
  <p>Verdicts need your supplier’s figures: enter them in the sheet Plate series, or take them from a book that has
    them when you import. What a list does not give is asked for once, for all belts, with the usual value and its
    source.</p>
  <h3>Tours, a minute each</h3>
  <ul class="first-steps">${tourNames.map((id) => choice(desk, id, action(id).doc))}</ul>
  <h3>Where your work is</h3>
  <p>The book is saved in this browser, on this machine, as you type; nothing is sent anywhere. Export it as .xlsx to
    pass it on or to keep a copy elsewhere. Once loaded, the page starts without its server, too.</p>
`;
