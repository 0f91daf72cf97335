import { counted } from '../../units/phrases.ts';
import type { SimulatedShelf } from '../../order/search/shelf-simulation.ts';
import type { ItemPlan } from '../../order/fleet-cutting.ts';
import { usualScope, fleetOrder, type FleetOrder, type SuppliedOrder } from '../../order/fleet-order.ts';
import {
  type FeasibleFleet,
  type FleetSeries,
  seriesChanges,
  type SeriesChange,
  seriesEdits,
} from '../../order/fleet-series.ts';
import type { FleetShelf } from '../../order/shelf-lines.ts';
import type { FleetComparison } from '../../order/square-or-skew.ts';
import { Refusal } from '../../formula/define.ts';
import type { Desk } from '../desk.ts';
import { madeOf } from '../downloading.ts';
import { Background, type TimeLimit } from '../background.ts';
import type { BookState } from '../../workbook/state.ts';
import type { OrderAnswer, OrderTask, OrderTerms } from '../workers/order-worker.ts';
import { fileTask, handedOver, type KnownOrder, papersTask } from './order-writing.ts';
import { firstAnswer, wantedPlans } from './first-answer.ts';
import { AddedSites, readFiles } from './added-sites.ts';
import type { SiteFile } from './site-books.ts';
import { listed } from '../../sheet/words.ts';
import type { Workbook } from '../../workbook/workbook.ts';

/** What the order dialog knows so far, and the workers that find out the rest. */

type Work = 'order' | 'join' | 'series' | 'compare' | 'file' | 'papers' | 'requests' | 'take';

/** Seconds that the searches may take before the best that was found is given. */
const patience = 20;

export class OrderSession {
  readonly desk: Desk;
  readonly #changed: () => void;
  terms: OrderTerms;
  order: FleetOrder | undefined;
  supplied: SuppliedOrder | undefined;
  shelf: FleetShelf | undefined;
  played: readonly (SimulatedShelf | undefined)[] = [];
  plans: readonly ItemPlan[] = [];
  plansWanted = 0;
  series: { readonly fleet: FeasibleFleet; readonly answer: FleetSeries } | undefined;
  /** Series may be chosen with skews below a belt's own. */
  anySkew = false;
  comparison: FleetComparison | undefined;
  said = '';
  readonly sites = new AddedSites();
  readonly running: Background<Work, OrderAnswer>;
  /** The book that files were taken over into. */
  #before: BookState | undefined;

  constructor(desk: Desk, changed: () => void) {
    this.desk = desk;
    this.#changed = changed;
    this.running = new Background((_, answer) => this.#take(answer), changed);
    this.terms = { scope: usualScope(desk.book), failing: false, from: 'split' };
  }

  /** The open book, or it and those of the added sites as one. */
  get book(): Workbook {
    return this.sites.book ?? this.desk.book;
  }

  /** What files say that they were made of. */
  get from(): string {
    return listed([madeOf(this.desk.book.state.title), ...this.sites.files.map(({ name }) => name)]);
  }

  /** Why something could not be done, by what it was. */
  get problems(): Map<Work, string> {
    return this.running.problems;
  }

  /** The list at once; suppliers, shelf and cutting plan follow. */
  ask(terms: OrderTerms = this.terms): void {
    this.terms = terms;
    this.stop('order');
    this.problems.delete('order');
    this.plans = [];
    try {
      this.order = fleetOrder(this.book, terms.scope, { failing: terms.failing, sites: this.sites.terms });
    } catch (error) {
      [this.order, this.supplied] = [undefined, undefined];
      if (!(error instanceof Refusal)) throw error;
      this.problems.set('order', `${error.argument} ${error.message}`);
      this.#changed();
      return;
    }
    this.supplied = firstAnswer(this.order);
    this.plansWanted = wantedPlans(this.order);
    this.#changed();
    const until = Date.now() + 1000 * patience;
    this.#start(
      'order',
      { do: 'order', state: this.book.state, order: this.order, terms, until },
      { milliseconds: 1000 * (patience + 1), why: `Stopped after ${patience} s: what was found so far is shown.` },
    );
  }

  askSeries(): void {
    if (this.series === undefined && !this.running.has('series'))
      this.#start('series', { do: 'series', state: this.book.state, anySkew: this.anySkew, seconds: patience });
  }

  allowSkews(any: boolean): void {
    this.anySkew = any;
    this.stop('series');
    this.series = undefined;
    this.askSeries();
  }

  askComparison(): void {
    if (this.comparison === undefined && !this.running.has('compare'))
      this.#start('compare', { do: 'compare', state: this.book.state });
  }

  /** The changes of a point of the curve; the best when none is named. */
  changesOf(count?: number): readonly SeriesChange[] {
    if (this.series === undefined) return [];
    const { fleet, answer } = this.series;
    const choice = count === undefined ? answer.best : answer.curve.find(({ series }) => series === count)?.choice;
    return choice === undefined ? [] : seriesChanges(this.book, fleet, choice);
  }

  /** Puts a proposal into the book as one step; everything is asked anew. */
  apply(changes: readonly SeriesChange[], count: number): void {
    this.desk.book.edit(seriesEdits(this.desk.book, changes), `cover the fleet with ${count} plate series`);
    this.said = `${counted(changes.length, 'belt was', 'belts were')} changed in one step: Undo reverses it.`;
    this.#anew();
  }

  undo(): void {
    this.desk.book.undo();
    this.said = 'The change was undone.';
    this.#anew();
  }

  #anew(): void {
    this.stop('series');
    this.stop('compare');
    const wanted = { series: this.series !== undefined, comparison: this.comparison !== undefined };
    this.series = undefined;
    this.comparison = undefined;
    if (this.sites.files.length > 0) return this.useSites();
    this.ask();
    if (wanted.series) this.askSeries();
    if (wanted.comparison) this.askComparison();
  }

  /** Lets the sites of further books buy together with the open one. */
  async addSites(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    const read = await readFiles(files);
    this.useSites([...this.sites.files, ...read]);
  }

  /** Delivers to each site apart, or all to the first. */
  deliverApart(apart: boolean): void {
    this.sites.apart = apart;
    this.ask();
  }

  /** Lets what the open book says of series and strips count for all sites. */
  useOwnFigures(): void {
    this.sites.ownFigures = true;
    this.useSites();
  }

  /** Reads and joins the books of these sites; the list is asked for when they are one. */
  useSites(files: readonly SiteFile[] = this.sites.files): void {
    for (const work of ['join', 'order', 'series', 'compare'] as const) this.stop(work);
    [this.series, this.comparison, this.said] = [undefined, undefined, ''];
    this.problems.delete('join');
    this.sites.leave();
    this.sites.files = files;
    if (files.length === 0) {
      this.ask();
      return;
    }
    [this.order, this.supplied, this.shelf, this.plans, this.plansWanted] = [undefined, undefined, undefined, [], 0];
    const { state } = this.desk.book;
    this.#start('join', { do: 'join', state, name: madeOf(state.title), files, ownFigures: this.sites.ownFigures });
  }

  /** What is known of the order so far; undefined before its suppliers are. */
  get #known(): KnownOrder | undefined {
    const { order, supplied, shelf, plans, comparison, book, from, terms, sites } = this;
    if (order === undefined || supplied === undefined) return undefined;
    const series = this.series === undefined ? undefined : { answer: this.series.answer, changes: this.changesOf() };
    const unfinished = this.unfinished();
    return { order, supplied, shelf, plans, comparison, series, book, from, terms, sites, unfinished };
  }

  export(): void {
    const known = this.#known;
    if (known === undefined || this.running.has('file')) return;
    this.said = '';
    this.#start('file', fileTask(known));
  }

  writeOrders(): void {
    const known = this.#known;
    if (known === undefined || this.running.has('papers')) return;
    this.said = '';
    this.#start('papers', papersTask(known));
  }

  /** A request for quotation per supplier, as files that can be sent. */
  writeRequests(): void {
    const { order } = this;
    if (order === undefined || this.running.has('requests')) return;
    this.said = '';
    this.#start('requests', { do: 'requests', state: this.book.state, order });
  }

  /** Takes over what came back: answers to requests into Offers, orders that were sent into Orders. */
  async takeFiles(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    this.said = '';
    const read = await readFiles(files);
    this.#before = this.desk.book.state;
    this.#start('take', { do: 'take', state: this.#before, files: read });
  }

  /** As one step to undo; everything is asked anew. */
  #taken({ state, changed, said }: Extract<OrderAnswer, { readonly done: 'taken' }>): void {
    this.said = said.join('\n');
    if (!changed) return;
    if (this.desk.book.state === this.#before) {
      this.desk.book.replace(state, 'take over files that came back');
      this.#anew();
    } else this.said = 'The book was changed meanwhile, so nothing was taken over: choose the files again.';
  }

  /** Searches that are still under way, for files that are written meanwhile. */
  unfinished(): string[] {
    const cheapest = this.supplied?.first === true ? ['the search for the cheapest order'] : [];
    if (!this.running.has('order')) return cheapest;
    return [
      ...cheapest,
      ...(this.shelf === undefined ? ['the shelf'] : []),
      ...(this.plans.length < this.plansWanted ? ['the cutting plan'] : []),
    ];
  }

  /** Ends a search; what it had found so far stays. */
  stop(work: Work): void {
    this.running.stop(work);
  }

  end(): void {
    this.running.end();
  }

  #start(work: Work, task: OrderTask, limit?: TimeLimit): void {
    this.running.start(
      work,
      new Worker(new URL('../workers/order-worker.ts', import.meta.url), { type: 'module' }),
      task,
      limit,
    );
  }

  #take(answer: OrderAnswer): void {
    switch (answer.done) {
      case 'joined':
        this.sites.take(answer.books);
        if (this.sites.conflicts.length === 0) this.ask();
        break;
      case 'supply':
        this.order = answer.order;
        this.supplied = answer.supplied;
        break;
      case 'shelf':
        this.shelf = answer.shelf;
        this.played = answer.played;
        break;
      case 'cut':
        this.plans = [...this.plans, answer.plan];
        this.plansWanted = answer.of;
        break;
      case 'series':
        this.series = { fleet: answer.fleet, answer: answer.series };
        break;
      case 'comparison':
        this.comparison = answer.comparison;
        break;
      case 'taken':
        this.#taken(answer);
        break;
      default:
        this.said = handedOver(answer, this.desk.book.state.title) ?? this.said;
    }
  }
}
