import { type Offer, packsFor, type Supplier } from './offers.ts';
import { itemKey } from './order-list.ts';
import type { Column, Row } from '../../solver/program.ts';

/** From whom to buy what, as an integer program. */

/** One offer, its supplier and the need it is for. */
export interface Chance {
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

export interface SupplyProgram {
  readonly tiers: readonly Tier[];
  readonly suppliers: readonly Supplier[];
  readonly rows: readonly Row[];
  readonly columns: readonly Column[];
}

/** The rows of the program: what every item's packs, every offer and every supplier keep to. */
class SupplyRows {
  readonly rows: Row[] = [];
  readonly #chances: readonly Chance[];
  readonly #suppliers: readonly Supplier[];
  readonly #covered: ReadonlyMap<string, number>;
  readonly #offered: ReadonlyMap<Chance, number>;
  /** By supplier. */
  readonly #least: readonly (number | undefined)[];
  readonly #free: readonly ({ readonly value: number; readonly ordered: number } | undefined)[];

  constructor(chances: readonly Chance[], suppliers: readonly Supplier[]) {
    this.#chances = chances;
    this.#suppliers = suppliers;
    const items = new Set(chances.map(({ offer }) => itemKey(offer.item)));
    // As shares of the need, and a pack that covers it covers it once: packs of 10,000 mm for a need of 1 trouble no
    // solver.
    // Sums of packs that were converted between units may fall short in the last digit.
    this.#covered = new Map([...items].map((key) => [key, this.#row({ lower: 1 - 1e-9 })]));
    this.#offered = new Map(chances.map((chance) => [chance, this.#row({ upper: 0 })]));
    this.#least = suppliers.map(({ minimumOrder }) =>
      minimumOrder === undefined ? undefined : this.#row({ lower: 0 }),
    );
    this.#free = suppliers.map(({ freightFreeFrom, freight }) =>
      freightFreeFrom === undefined || freight === undefined
        ? undefined
        : { value: this.#row({ lower: 0 }), ordered: this.#row({ upper: 0 }) },
    );
  }

  #row(bounds: Row): number {
    return this.rows.push(bounds) - 1;
  }

  #rateOf(supplier: Supplier): number {
    return this.#chances.find((chance) => chance.supplier === supplier)?.rate ?? 1;
  }

  /** A tier's packs, and whether it is used. */
  tierColumns({ chance, from, most, price }: Tier): Column[] {
    const place = this.#suppliers.indexOf(chance.supplier);
    const [atMost, atLeast] = [this.#row({ upper: 0 }), this.#row({ lower: 0 })];
    const [leastRow, freeRow] = [this.#least[place], this.#free[place]];
    return [
      {
        cost: price,
        upper: most,
        whole: true,
        entries: [
          [this.#covered.get(itemKey(chance.offer.item)) ?? 0, Math.min(1, chance.offer.pack / chance.need)],
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
          [this.#offered.get(chance) ?? 0, 1],
          [atMost, -most],
          [atLeast, -from],
        ],
      },
    ];
  }

  /** Whether a supplier is ordered from. */
  supplierColumn(supplier: Supplier, place: number): Column {
    const rate = this.#rateOf(supplier);
    const [leastRow, freeRow] = [this.#least[place], this.#free[place]];
    return {
      cost: (supplier.freight ?? 0) * rate,
      upper: 1,
      whole: true,
      entries: [
        ...this.#chances
          .filter((chance) => chance.supplier === supplier)
          .map((chance) => [this.#offered.get(chance) ?? 0, -1] as const),
        ...(leastRow === undefined ? [] : [[leastRow, -(supplier.minimumOrder ?? 0) * rate] as const]),
        ...(freeRow === undefined ? [] : [[freeRow.ordered, -1] as const]),
      ],
    };
  }

  /** Whether an order is sent free of freight; none where it never is. */
  freeColumns(supplier: Supplier, place: number): Column[] {
    const freeRow = this.#free[place];
    if (freeRow === undefined) return [];
    const rate = this.#rateOf(supplier);
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
  }
}

/**
 * The supply as an integer program.
 *
 * A tier has its packs and whether it is used; of an offer at most one tier, and only from a supplier who is ordered
 * from. An item may come from several suppliers: a small pack of one may fill up the large ones of another.
 */
export function programOf(chances: readonly Chance[]): SupplyProgram {
  const suppliers = [...new Set(chances.map(({ supplier }) => supplier))];
  const tiers = chances.flatMap(tiersOf);
  const program = new SupplyRows(chances, suppliers);
  const columns = [
    ...tiers.flatMap((tier) => program.tierColumns(tier)),
    ...suppliers.map((supplier, place) => program.supplierColumn(supplier, place)),
    ...suppliers.flatMap((supplier, place) => program.freeColumns(supplier, place)),
  ];
  return { tiers, suppliers, rows: program.rows, columns };
}
