import { checkOffer, freightOf, type Offer, packPrice, packsFor, type Rates, rateOf, type Supplier } from './offers.ts';
import { type Item, itemKey, type OrderLine } from './order-list.ts';
import type { Answer, Column, Limits, Row, Solver } from '../../solver/program.ts';

/** From whom to buy what, at least total cost: goods, price breaks and freight, within the suppliers' least orders. */

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

/** One offer, its supplier and the need it is for. */
interface Chance {
  readonly offer: Offer;
  readonly supplier: Supplier;
  readonly need: number;
  readonly rate: number;
}

/** The part of an offer between two price breaks. */
interface Tier {
  readonly chance: Chance;
  readonly from: number;
  readonly most: number;
  /** In the book's money. */
  readonly price: number;
}

/**
 * More packs than these are never worth buying: they cover the need, reach the break, and the supplier's thresholds.
 */
function mostPacks({ offer, supplier, need }: Chance, { from, price }: Offer['breaks'][number]): number {
  const threshold = Math.max(supplier.minimumOrder ?? 0, supplier.freightFreeFrom ?? 0);
  return Math.max(1, packsFor(need, offer), from) + (threshold > 0 && price > 0 ? Math.ceil(threshold / price) : 0);
}

const tiersOf = (chance: Chance): Tier[] =>
  chance.offer.breaks
    .map((one, place, breaks) => ({
      chance,
      from: Math.max(1, one.from),
      most: Math.min(mostPacks(chance, one), (breaks[place + 1]?.from ?? Number.POSITIVE_INFINITY) - 1),
      price: one.price * chance.rate,
    }))
    .filter(({ from, most }) => most >= from);

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

interface SupplyProgram {
  readonly tiers: readonly Tier[];
  readonly suppliers: readonly Supplier[];
  readonly rows: readonly Row[];
  readonly columns: readonly Column[];
}

/**
 * The supply as an integer program.
 *
 * A tier has its packs and whether it is used; of an offer at most one tier, and only from a supplier who is ordered
 * from. An item may come from several suppliers: a small pack of one may fill up the large ones of another.
 */
function programOf(chances: readonly Chance[]): SupplyProgram {
  const suppliers = [...new Set(chances.map(({ supplier }) => supplier))];
  const items = new Set(chances.map(({ offer }) => itemKey(offer.item)));
  const tiers = chances.flatMap(tiersOf);
  const rows: Row[] = [];
  const row = (bounds: Row): number => rows.push(bounds) - 1;
  // As shares of the need, and a pack that covers it covers it once: packs of 10,000 mm for a need of 1 trouble no
  // solver.
  // Sums of packs that were converted between units may fall short in the last digit.
  const covered = new Map([...items].map((key) => [key, row({ lower: 1 - 1e-9 })]));
  const offered = new Map(chances.map((chance) => [chance, row({ upper: 0 })]));
  const least = suppliers.map(({ minimumOrder }) => (minimumOrder === undefined ? undefined : row({ lower: 0 })));
  const free = suppliers.map(({ freightFreeFrom, freight }) =>
    freightFreeFrom === undefined || freight === undefined
      ? undefined
      : { value: row({ lower: 0 }), ordered: row({ upper: 0 }) },
  );
  const tierColumns = tiers.flatMap(({ chance, from, most, price }): Column[] => {
    const place = suppliers.indexOf(chance.supplier);
    const [atMost, atLeast] = [row({ upper: 0 }), row({ lower: 0 })];
    const [leastRow, freeRow] = [least[place], free[place]];
    return [
      {
        cost: price,
        upper: most,
        whole: true,
        entries: [
          [covered.get(itemKey(chance.offer.item)) ?? 0, Math.min(1, chance.offer.pack / chance.need)],
          [atMost, 1],
          [atLeast, 1],
          ...(leastRow === undefined ? [] : [[leastRow, price] as const]),
          ...(freeRow === undefined ? [] : [[freeRow.value, price] as const]),
        ],
      },
      {
        cost: 0,
        upper: 1,
        whole: true,
        entries: [
          [offered.get(chance) ?? 0, 1],
          [atMost, -most],
          [atLeast, -from],
        ],
      },
    ];
  });
  const supplierColumns = suppliers.map((supplier, place): Column => {
    const rate = chances.find((chance) => chance.supplier === supplier)?.rate ?? 1;
    const [leastRow, freeRow] = [least[place], free[place]];
    return {
      cost: (supplier.freight ?? 0) * rate,
      upper: 1,
      whole: true,
      entries: [
        ...chances
          .filter((chance) => chance.supplier === supplier)
          .map((chance) => [offered.get(chance) ?? 0, -1] as const),
        ...(leastRow === undefined ? [] : [[leastRow, -(supplier.minimumOrder ?? 0) * rate] as const]),
        ...(freeRow === undefined ? [] : [[freeRow.ordered, -1] as const]),
      ],
    };
  });
  const freeColumns = suppliers.flatMap((supplier, place): Column[] => {
    const freeRow = free[place];
    if (freeRow === undefined) return [];
    const rate = chances.find((chance) => chance.supplier === supplier)?.rate ?? 1;
    return [
      {
        cost: -(supplier.freight ?? 0) * rate,
        upper: 1,
        whole: true,
        entries: [
          [freeRow.value, -(supplier.freightFreeFrom ?? 0) * rate],
          [freeRow.ordered, 1],
        ],
      },
    ];
  });
  return { tiers, suppliers, rows, columns: [...tierColumns, ...supplierColumns, ...freeColumns] };
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
 * The supply of least total cost from any of the suppliers, each item from one or several of them.
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
 * The supply of least total cost from one supplier alone: of those who sell everything on the list that anybody sells.
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
