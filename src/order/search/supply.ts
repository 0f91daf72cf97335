import type { Limits, Solver } from '../../solver/program.ts';
import { cheapestOffers, ofOffer, type Packs } from './cheapest-offers.ts';
import {
  checkOffer,
  discountOf,
  freightOf,
  inCents,
  type Offer,
  type PackContent,
  packPrice,
  type Rates,
  rateOf,
  type Supplier,
  surchargeOf,
} from './offers.ts';
import { type Item, itemKey, type OrderLine } from './order-list.ts';
import { type Chance, coveredItems, deliverySites, type Need, programOf } from './supply-program.ts';

/**
 * From whom to buy what, at minimum total cost: goods, price breaks, discounts, surcharges and freight, within the
 * suppliers' minimum orders.
 */

export interface Purchase {
  /** What it is bought for: of an alternative, the item that it stands in for. */
  readonly item: Item;
  /** What is bought. */
  readonly offer: Offer;
  readonly supplier: string;
  readonly packs: number;
  readonly pack: number;
  readonly quantity: number;
  /** What comes with the packs in all. */
  readonly included: readonly PackContent[];
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
  /** Packs times price, as it is invoiced. */
  readonly amount: number;
  /** The same in the book's money. */
  readonly cost: number;
}

/** An order of one supplier: its own amounts in its currency, and in the book's money. */
interface SupplierOrder {
  readonly supplier: string;
  readonly currency: string;
  readonly invoiced: Readonly<Record<'goods' | 'discount' | 'surcharge' | 'freight', number>>;
  /** Deliveries that are charged freight each, unless the goods are worth that it is free. */
  readonly deliveries: number;
  /** In the book's money: the lines, and freight and surcharge less the discount, each rounded. */
  readonly goods: number;
  readonly charges: number;
}

export interface Supply {
  readonly purchases: readonly Purchase[];
  readonly orders: readonly SupplierOrder[];
  readonly goods: number;
  readonly charges: number;
  readonly total: number;
  /** No supply costs less; but for the rounding of lines. */
  readonly bound: number;
  readonly proven: boolean;
  /** Items that nobody offers: not in the total. */
  readonly unsupplied: readonly Item[];
}

/** For tests: small questions are tried out. */
export interface SupplyQuestion {
  readonly lines: readonly (Pick<OrderLine, 'item' | 'toOrder'> & Partial<Pick<OrderLine, 'before' | 'sites'>>)[];
  readonly suppliers: readonly Supplier[];
  readonly offers: readonly Offer[];
  readonly rates: Rates;
}

/** A supplier who cannot serve the whole list, with what is lacking. */
export interface Lacking {
  readonly supplier: string;
  readonly items: readonly Item[];
}

const needsOf = ({ lines }: SupplyQuestion): Need[] =>
  lines
    .filter(({ toOrder }) => toOrder > 0)
    .map(({ item, toOrder, before = [], sites = [] }) => ({ item, quantity: toOrder, before, sites }));

/**
 * A kit may be bought for its bolts alone where its plates are on the list too: what the list does not know has no line
 * that its surplus could be told in.
 */
function chancesOf({ lines, suppliers, offers, rates }: SupplyQuestion, needs: readonly Need[]): Chance[] {
  const listed = new Set(lines.map(({ item }) => itemKey(item)));
  const wanted = new Map(needs.map((need) => [itemKey(need.item), need]));
  const named = new Map(suppliers.map((supplier) => [supplier.name, supplier]));
  return offers.flatMap((offer): Chance[] => {
    checkOffer(offer);
    const supplier = named.get(offer.supplier);
    if (supplier === undefined) return [];
    const included = (offer.included ?? []).flatMap(({ item, quantity }) => {
      const need = wanted.get(itemKey(item));
      return need === undefined ? [] : [{ need, quantity }];
    });
    const served = [offer.item, ...(offer.alternativeFor ?? [])].flatMap((item) => {
      const need = wanted.get(itemKey(item));
      return need === undefined ? [] : [{ item, covers: [{ need, quantity: offer.pack }, ...included] }];
    });
    const used =
      served.length === 0 && included.length > 0 && listed.has(itemKey(offer.item))
        ? [{ item: offer.item, covers: included }]
        : served;
    return used.map((one) => ({ offer, supplier, rate: rateOf(supplier, rates), ...one }));
  });
}

function purchaseOf(chance: Chance, number: number, packs: Packs): Purchase {
  const { offer, supplier, rate, item } = chance;
  const price = packPrice(ofOffer(packs, chance), offer);
  const amount = inCents(number * price);
  return {
    item,
    offer,
    supplier: supplier.name,
    packs: number,
    pack: offer.pack,
    quantity: number * offer.pack,
    included: (offer.included ?? []).map((content) => ({ ...content, quantity: number * content.quantity })),
    price,
    amount,
    cost: inCents(amount * rate),
  };
}

const sum = (numbers: readonly number[]): number => inCents(numbers.reduce((total, number) => total + number, 0));

function orderOf(
  supplier: Supplier,
  own: readonly Purchase[],
  { rate, deliveries }: { readonly rate: number; readonly deliveries: number },
): SupplierOrder {
  const goods = sum(own.map(({ amount }) => amount));
  const discount = inCents(goods * discountOf(supplier, goods));
  const surcharge = inCents(surchargeOf(supplier, goods));
  const freight = inCents(deliveries * inCents(freightOf(supplier, goods)));
  return {
    supplier: supplier.name,
    currency: supplier.currency,
    invoiced: { goods, discount, surcharge, freight },
    deliveries,
    goods: sum(own.map(({ cost }) => cost)),
    charges: sum([inCents(freight * rate), inCents(surcharge * rate), -inCents(discount * rate)]),
  };
}

/** A supply of so many packs. */
function supplyOf(packs: Packs, unsupplied: readonly Item[]): Supply {
  const bought = [...packs].filter(([, number]) => number > 0);
  const purchases = bought.map(([chance, number]) => purchaseOf(chance, number, packs));
  const orders = [...new Set(bought.map(([{ supplier }]) => supplier))].map((supplier) => {
    const own = bought.map(([chance]) => chance).filter((chance) => chance.supplier === supplier);
    return orderOf(
      supplier,
      purchases.filter((purchase) => purchase.supplier === supplier.name),
      { rate: own[0]?.rate ?? 1, deliveries: Math.max(1, deliverySites(own).length) },
    );
  });
  const [goods, charges] = [sum(orders.map((order) => order.goods)), sum(orders.map((order) => order.charges))];
  const total = sum([goods, charges]);
  return { purchases, orders, goods, charges, total, bound: 0, proven: false, unsupplied };
}

/**
 * A supply before any search: every item from the offer that is cheapest for it by itself, and more of it where
 * a supplier's minimum order is not reached.
 */
export function firstSupply(question: SupplyQuestion): Supply {
  const needs = needsOf(question);
  const chances = chancesOf(question, needs);
  return supplyOf(cheapestOffers(chances, needs), unsuppliedOf(needs, chances));
}

/** Needs that nobody sells anything for. */
function unsuppliedOf(needs: readonly Need[], chances: readonly Chance[]): Item[] {
  const offered = new Set(chances.flatMap(coveredItems));
  return needs.map(({ item }) => item).filter((item) => !offered.has(itemKey(item)));
}

/**
 * The supply of minimum total cost from any of the suppliers, each item from one or several of them.
 *
 * Exact by integer programming, before lines are rounded to the hundredth. Where a limit ends the search, the best that
 * it found or the cheapest offer for each item, whichever costs less; undefined when neither holds.
 */
export function splitSupply(question: SupplyQuestion, solver: Solver, limits: Limits = {}): Supply | undefined {
  const needs = needsOf(question);
  const chances = chancesOf(question, needs);
  const unsupplied = unsuppliedOf(needs, chances);
  const program = programOf(chances);
  const answer = solver.whole(program, { ...limits, stage: 'suppliers' });
  if (answer.outcome === 'infeasible') return undefined;
  if (answer.outcome === 'optimal') {
    const best = supplyOf(packsIn(program, answer.values), unsupplied);
    return { ...best, bound: best.total, proven: true };
  }
  const first = supplyOf(cheapestOffers(chances, needs), unsupplied);
  const found = answer.outcome === 'found' ? supplyOf(packsIn(program, answer.values), unsupplied) : first;
  const best = found.total < first.total ? found : first;
  return { ...best, bound: Math.max(0, Math.min(answer.bound, best.total)) };
}

function packsIn({ tiers }: ReturnType<typeof programOf>, values: readonly number[]): Packs {
  const packs: Packs = new Map();
  for (const { chance, packs: column } of tiers) {
    const number = values[column] ?? 0;
    if (number > 0) packs.set(chance, (packs.get(chance) ?? 0) + number);
  }
  return packs;
}

/**
 * The supply of minimum total cost from one supplier alone: of those who sell everything on the list that anybody
 * sells.
 *
 * `supply` is undefined when nobody does. `limits` are asked before each supplier is tried.
 */
export function singleSupply(
  question: SupplyQuestion,
  solver: Solver,
  limits: () => Limits = () => ({}),
): { readonly supply?: Supply; readonly lacking: readonly Lacking[] } {
  const needs = needsOf(question);
  const chances = chancesOf(question, needs);
  const offered = new Set(chances.flatMap(coveredItems));
  const lacking: Lacking[] = [];
  let supply: Supply | undefined;
  for (const supplier of question.suppliers) {
    const own = new Set(chances.filter((chance) => chance.supplier === supplier).flatMap(coveredItems));
    const items = needs.map(({ item }) => item).filter((item) => offered.has(itemKey(item)) && !own.has(itemKey(item)));
    if (items.length > 0) {
      lacking.push({ supplier: supplier.name, items });
      continue;
    }
    const one = splitSupply({ ...question, suppliers: [supplier] }, solver, limits());
    if (one !== undefined && (supply === undefined || one.total < supply.total)) supply = one;
  }
  return { ...(supply === undefined ? {} : { supply }), lacking };
}
