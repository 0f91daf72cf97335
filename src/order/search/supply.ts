import { checkOffer, freightOf, type Offer, packPrice, type Rates, rateOf, type Supplier } from './offers.ts';
import { type Item, itemKey, type OrderLine } from './order-list.ts';
import { type Chance, programOf, type SupplyProgram } from './supply-program.ts';
import type { Answer, Limits, Solver } from '../../solver/program.ts';

/**
 * From whom to buy what, at minimum total cost: goods, price breaks and freight, within the suppliers' minimum orders.
 */

export interface Purchase {
  readonly item: Item;
  readonly supplier: string;
  readonly packs: number;
  readonly pack: number;
  readonly quantity: number;
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
  /** In the book's money. */
  readonly cost: number;
}

interface SupplierOrder {
  readonly supplier: string;
  readonly currency: string;
  /** In the book's money. */
  readonly goods: number;
  readonly freight: number;
}

export interface Supply {
  readonly purchases: readonly Purchase[];
  readonly orders: readonly SupplierOrder[];
  readonly goods: number;
  readonly freight: number;
  readonly total: number;
  /** No supply costs less. */
  readonly bound: number;
  readonly proven: boolean;
  /** Items that nobody offers: not in the total. */
  readonly unsupplied: readonly Item[];
}

/** For tests: small questions are tried out. */
export interface SupplyQuestion {
  readonly lines: readonly Pick<OrderLine, 'item' | 'toOrder'>[];
  readonly suppliers: readonly Supplier[];
  readonly offers: readonly Offer[];
  readonly rates: Rates;
}

/** A supplier who cannot serve the whole list, with what is lacking. */
export interface Lacking {
  readonly supplier: string;
  readonly items: readonly Item[];
}

function chancesOf({ lines, suppliers, offers, rates }: SupplyQuestion): Chance[] {
  const needs = new Map(
    lines.filter(({ toOrder }) => toOrder > 0).map(({ item, toOrder }) => [itemKey(item), toOrder]),
  );
  const named = new Map(suppliers.map((supplier) => [supplier.name, supplier]));
  return offers.flatMap((offer) => {
    checkOffer(offer);
    const [need, supplier] = [needs.get(itemKey(offer.item)), named.get(offer.supplier)];
    return need === undefined || supplier === undefined
      ? []
      : [{ offer, supplier, need, rate: rateOf(supplier, rates) }];
  });
}

function supplyOf(
  { tiers, suppliers }: SupplyProgram,
  { values, bound, outcome }: Answer,
  unsupplied: readonly Item[],
): Supply {
  const purchases = tiers.flatMap(({ chance: { offer, supplier, rate } }, place): Purchase[] => {
    const number = values[2 * place] ?? 0;
    if (number === 0) return [];
    const price = packPrice(number, offer);
    return [
      {
        item: offer.item,
        supplier: supplier.name,
        packs: number,
        pack: offer.pack,
        quantity: number * offer.pack,
        price,
        cost: number * price * rate,
      },
    ];
  });
  const orders = suppliers.flatMap((supplier): SupplierOrder[] => {
    const own = purchases.filter((purchase) => purchase.supplier === supplier.name);
    if (own.length === 0) return [];
    const goods = own.reduce((sum, { cost }) => sum + cost, 0);
    const rate = tiers.find(({ chance }) => chance.supplier === supplier)?.chance.rate ?? 1;
    return [
      {
        supplier: supplier.name,
        currency: supplier.currency,
        goods,
        freight: freightOf(supplier, goods / rate) * rate,
      },
    ];
  });
  const goods = orders.reduce((sum, order) => sum + order.goods, 0);
  const freight = orders.reduce((sum, order) => sum + order.freight, 0);
  const total = goods + freight;
  return {
    purchases,
    orders,
    goods,
    freight,
    total,
    bound: outcome === 'optimal' ? total : Math.min(bound, total),
    proven: outcome === 'optimal',
    unsupplied,
  };
}

const wanted = ({ lines }: SupplyQuestion): Item[] =>
  lines.filter(({ toOrder }) => toOrder > 0).map(({ item }) => item);

/**
 * The supply of minimum total cost from any of the suppliers, each item from one or several of them.
 *
 * Exact by integer programming; undefined when a limit came before any answer.
 */
export function splitSupply(question: SupplyQuestion, solver: Solver, limits: Limits = {}): Supply | undefined {
  const chances = chancesOf(question);
  const offered = new Set(chances.map(({ offer }) => itemKey(offer.item)));
  const program = programOf(chances);
  const answer = solver.whole(program, { ...limits, stage: 'suppliers' });
  if (answer.outcome === 'infeasible' || answer.outcome === 'none') return undefined;
  return supplyOf(
    program,
    answer,
    wanted(question).filter((item) => !offered.has(itemKey(item))),
  );
}

/**
 * The supply of minimum total cost from one supplier alone: of those who sell everything on the list that anybody
 * sells.
 *
 * `supply` is undefined when nobody does, or a limit came first.
 */
export function singleSupply(
  question: SupplyQuestion,
  solver: Solver,
  limits: Limits = {},
): { readonly supply?: Supply; readonly lacking: readonly Lacking[] } {
  const chances = chancesOf(question);
  const offered = new Set(chances.map(({ offer }) => itemKey(offer.item)));
  const lacking: Lacking[] = [];
  let supply: Supply | undefined;
  for (const supplier of question.suppliers) {
    const own = new Set(
      chances.filter((chance) => chance.supplier === supplier).map(({ offer }) => itemKey(offer.item)),
    );
    const items = wanted(question).filter((item) => offered.has(itemKey(item)) && !own.has(itemKey(item)));
    if (items.length > 0) {
      lacking.push({ supplier: supplier.name, items });
      continue;
    }
    const one = splitSupply({ ...question, suppliers: [supplier] }, solver, limits);
    if (one !== undefined && (supply === undefined || one.total < supply.total)) supply = one;
  }
  return { ...(supply === undefined ? {} : { supply }), lacking };
}
