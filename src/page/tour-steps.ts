import { belts } from '../../sheets/belts/index.ts';
import type { Desk, View } from './desk.ts';
import { verdictLook, verdictOrder } from './verdict-look.ts';

/** The three short tours of the page, over whatever book is open: a planner's, an engineer's, a buyer's. */

interface TourStep {
  readonly says: string;
  /** Brings on show what the step speaks of. */
  readonly show?: (desk: Desk) => void;
  /** Which part of the page, by a CSS selector; a part that is not there leaves the step in the middle. */
  readonly part: string;
}

export interface Tour {
  readonly name: string;
  readonly doc: string;
  readonly steps: readonly TourStep[];
}

const marks = verdictOrder.map((verdict) => `${verdictLook(verdict)?.mark ?? ''} ${verdict}`).join(', ');

const panel = (view: View) => (desk: Desk) => {
  desk.view = view;
  desk.changed();
};

/** To the first belt of the worst verdict there is, at a column. */
function toWorst(desk: Desk, column: string): void {
  const { book } = desk;
  const list = desk.findings.groups.all();
  const worst =
    list.find(({ sheet, verdict }) => sheet === belts.name && verdict === 'fails') ??
    list.find(({ sheet }) => sheet === belts.name);
  desk.goTo({ sheet: belts.name, record: worst?.record ?? 0, column: book.findColumn(belts.name, column) ?? 0 });
}

const toSheet =
  (sheet: string, column = 0) =>
  (desk: Desk) =>
    desk.goTo({ sheet, record: 0, column });

const grid = '.work > :first-child';

export const tours = {
  planner: {
    name: 'A verdict and its cure',
    doc: 'tour for planners: what fails, why, and what would make it pass',
    steps: [
      {
        says: `Each row is a belt. The mark before its name is its verdict: ${marks}.`,
        show: (desk) => toWorst(desk, belts.key),
        part: grid,
      },
      {
        says:
          'Findings say what fails, by how much and in which cell; the worst come first. Click one to go ' +
          'to its cell.',
        show(desk) {
          desk.findingsShown = true;
          desk.changed();
        },
        part: '[data-area=findings]',
      },
      {
        says:
          '“Try a cure …” shows what each way out would change. Nothing is changed until you take one, and Undo ' +
          '(Ctrl+Z) takes it back.',
        part: '[data-area=findings]',
      },
      {
        says:
          'The joint is drawn to scale. Print the crew’s sheets with Book, Job card; a filter or the outage plan ' +
          'chooses whose.',
        show: panel('joint'),
        part: '[data-area=joint]',
      },
    ],
  },
  engineer: {
    name: 'Where a figure comes from',
    doc: 'tour for engineers: how a figure is computed, the assumptions behind it, what if they were others',
    steps: [
      {
        says:
          'Columns whose header begins with = are computed. Select a cell, and the bar shows its value, limits ' +
          'and formula.',
        show: (desk) => toWorst(desk, 'Joint pulley'),
        part: '[data-area=formula]',
      },
      {
        says:
          'Calculation takes the figure apart, down to what was entered, each with its source. Click a line ' +
          'to go there.',
        show: panel('working'),
        part: '[data-area=working]',
      },
      {
        says: 'Every assumption is a cell with its unit and source. Change one, and all belts follow at once.',
        show: toSheet('Assumptions', 1),
        part: grid,
      },
      {
        says:
          'What if answers the way back: which input reaches a target, what drives a figure, how sure it is; ' +
          'variants stand side by side.',
        show(desk) {
          toWorst(desk, 'Joint pulley');
          panel('what-if')(desk);
        },
        part: '[data-area=what-if]',
      },
    ],
  },
  buyer: {
    name: 'From joints to an order',
    doc: 'tour for buyers: offers and stock, what is needed, orders to send',
    steps: [
      {
        says:
          'Offers: what each supplier asks, in whose currency, until when, by which packs. Paste a quote here or ' +
          'take in a file.',
        show: toSheet('Offers'),
        part: grid,
      },
      {
        says: 'Shelf: what lies in stock, and the point below which it is filled up again.',
        show: toSheet('Shelf'),
        part: grid,
      },
      {
        says:
          'The order list joins both with the joints that fall due, finds the cheapest way to buy, and writes ' +
          'orders, requests for quotation and budgets.',
        show: toSheet(belts.name),
        part: '.top .menu .menu-button',
      },
    ],
  },
} as const satisfies Readonly<Record<string, Tour>>;

export type TourName = keyof typeof tours;
