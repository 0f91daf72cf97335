import { Refusal } from '../formula/define.ts';
import { type Budget, budget } from './search/budget.ts';
import { type Item, itemKey, type ItemKind, type OrderLine, orderList } from './search/order-list.ts';
import type { Limits, Solver } from '../solver/program.ts';
import { firstSupply, type Lacking, singleSupply, splitSupply, type Supply } from './search/supply.ts';
import { isoDate } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import type { ChoiceTerms, Scope } from '../records/chosen-belts.ts';
import { Items } from './items.ts';
import { type FleetJoints, fleetJoints } from './fleet-joints.ts';
import { type Offered, offered } from './offered.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';
import { sites as sitesSheet } from '../../sheets/buying/sites.ts';
import { shelfLevels } from './shelf-levels.ts';
import { deliveredTo, type SiteNeed, siteNeeds } from './site-needs.ts';
import { bookStock, type SiteOf, type Stock } from './stock.ts';

/** The order list of a book: what to buy for chosen joints, belt by belt, net of the shelf. */

export interface FleetOrder {
  readonly joints: FleetJoints;
  /** Of all belts that run today, those that fail a check included: what the shelf is for. */
  readonly running: FleetJoints;
  readonly lines: readonly OrderLine[];
  /** In which it is ordered, as year-month. */
  readonly month: string;
  readonly waste: Partial<Readonly<Record<ItemKind, number>>>;
  readonly stock: Stock;
  readonly offered: Offered;
  /** Of several sites that buy together: what each needs, by the key of the item. */
  readonly sites?: ReadonlyMap<string, readonly SiteNeed[]>;
  /** Cells of the book that could not be used. */
  readonly remarks: readonly CellRemark[];
}

/**
 * The usual list: joints due within the longest lead time and a review period. Those due later can wait for the next
 * one.
 */
export function usualScope(book: Workbook): Scope {
  const { reorders } = bookStock(book, new Items(book), []);
  const lead = Math.max(assumed(book, 'LeadTime'), ...reorders.map(({ leadDays = 0 }) => leadDays));
  return { which: 'due', until: assumed(book, 'ReviewDate') + lead + assumed(book, 'ReviewPeriod') };
}

/** Several sites that one book holds. */
export interface OrderSites {
  readonly names: readonly string[];
  readonly siteOf: SiteOf;
  /** Suppliers deliver to each site apart, for freight each time; otherwise all to the first site. */
  readonly apart: boolean;
}

/** Which joints are ordered for, and the sites they are at. */
interface OrderChoice extends ChoiceTerms {
  readonly sites?: OrderSites | undefined;
}

/** The lines with what each site needs of them, and where they go. */
function sitedLines(
  lines: readonly OrderLine[],
  { names, apart, siteOf }: OrderSites,
  terms: Pick<FleetOrder, 'joints' | 'stock' | 'waste'>,
): Required<Pick<FleetOrder, 'lines' | 'sites'>> {
  const needs = lines.map((line) => siteNeeds(line, { ...terms, sites: names, siteOf }));
  return {
    lines: lines.map((line, place) => ({
      ...line,
      sites: apart ? deliveredTo(line, needs[place] ?? []) : names.slice(0, 1),
    })),
    sites: new Map(lines.map(({ item }, place) => [itemKey(item), needs[place] ?? []])),
  };
}

/** The name of a book's own site, '' where it has none. */
const ownSite = (book: Workbook): string => sheetRows(book, sitesSheet.name, [])[0]?.text('Site') ?? '';

/** The joints with the sites that their belts are at. */
function withSites(joints: FleetJoints, book: Workbook, sites: OrderSites | undefined): FleetJoints {
  const own = ownSite(book);
  return {
    ...joints,
    belts: joints.belts.map((belt) => ({
      ...belt,
      site: sites === undefined ? own : sites.siteOf('Belts', belt.record),
    })),
  };
}

/**
 * Takes no solver: a list of 1,000 belts in a fraction of a second. Throws a Refusal that names an assumption which
 * can't be used.
 */
export function fleetOrder(book: Workbook, scope: Scope, { sites, ...terms }: OrderChoice = {}): FleetOrder {
  const remarks: CellRemark[] = [];
  const items = new Items(book);
  const stock = bookStock(book, items, remarks, sites?.siteOf);
  const joints = withSites(fleetJoints(book, items, stock.consumables, scope, terms), book, sites);
  const running = fleetJoints(book, items, stock.consumables, { which: 'all' }, { failing: true });
  const waste = {
    plates: assumed(book, 'PlateAllowance'),
    bolts: assumed(book, 'BoltAllowance'),
    strip: assumed(book, 'StripAllowance'),
  };
  const lines = orderList(
    joints.belts.flatMap(({ needs }) => needs),
    {
      waste,
      shelf: stock.shelf,
      onOrder: stock.onOrder,
      // Chosen belts are ordered for by themselves: the shelf is filled with the whole list.
      levels: scope.which === 'belts' ? [] : shelfLevels(book, stock, running),
    },
  );
  const wanted = new Map([...lines, ...stock.reorders].map(({ item }) => [itemKey(item), item]));
  const lead = new Map(stock.reorders.map(({ item, leadDays }) => [itemKey(item), leadDays]));
  const usualLead = assumed(book, 'LeadTime');
  const offerTerms = {
    items,
    today: assumed(book, 'ReviewDate'),
    leadDays: (item: Item) => lead.get(itemKey(item)) ?? usualLead,
    wanted: [...wanted.values()],
  };
  const month = isoDate(offerTerms.today).slice(0, 7);
  const order = { joints, running, lines, month, waste, stock, offered: offered(book, offerTerms, remarks), remarks };
  return sites === undefined ? order : { ...order, ...sitedLines(lines, sites, order) };
}

/** What the order costs from several suppliers, and from one alone. */
export interface SuppliedOrder {
  readonly split: Supply;
  readonly single: { readonly supply?: Supply; readonly lacking: readonly Lacking[] };
  /** Of the split supply, or the single one when it was asked for. */
  readonly budget: Budget;
  readonly chosen: 'split' | 'single';
  /** Nothing was searched for yet: each item is from its own cheapest offer. */
  readonly first?: true;
}

/** The supply that is ordered. */
export const chosenSupply = ({ split, single, chosen }: Omit<SuppliedOrder, 'budget'>): Supply =>
  chosen === 'single' ? (single.supply ?? split) : split;

/** An order before any search, at once: each item from the offer that is cheapest for it by itself. */
export function firstOrder({ lines, month, offered: { suppliers, offers, rates } }: FleetOrder): SuppliedOrder {
  const split = firstSupply({ lines, suppliers, offers, rates });
  return { split, single: { lacking: [] }, chosen: 'split', budget: budget(lines, split, month), first: true };
}

/** Throws a Refusal when no supplier's minimum order can be met, or a limit came before any answer. */
export function suppliedOrder(
  { lines, month, offered: { suppliers, offers, rates } }: FleetOrder,
  solver: Solver,
  { from = 'split', ...limits }: Limits & { readonly from?: 'split' | 'single' } = {},
): SuppliedOrder {
  const question = { lines, suppliers, offers, rates };
  const begun = performance.now();
  const { seconds } = limits;
  const left = (): Limits =>
    seconds === undefined ? limits : { ...limits, seconds: Math.max(0, seconds - (performance.now() - begun) / 1000) };
  const split = splitSupply(question, solver, seconds === undefined ? limits : { ...limits, seconds: 0.7 * seconds });
  if (split === undefined)
    throw new Refusal('offers', 'must allow an order: no set of suppliers was found within the limits');
  const single = singleSupply(question, solver, left);
  const chosen = from === 'single' && single.supply !== undefined ? 'single' : 'split';
  const supplied = { split, single, chosen } as const;
  return { ...supplied, budget: budget(lines, chosenSupply(supplied), month) };
}
