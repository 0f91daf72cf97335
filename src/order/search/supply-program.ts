import type { Column, Row } from '../../solver/program.ts';
import { ProgramBuilder } from '../../solver/program-builder.ts';
import type { Offer, Supplier } from './offers.ts';
import { type Item, itemKey } from './order-list.ts';

/** From whom to buy what, as an integer program. */

/** What has to be covered of an item, and by when. */
export interface Need {
  readonly item: Item;
  readonly quantity: number;
  /** Of it, what is due before a day, for each day on which an offer arrives later; ascending, sums so far. */
  readonly before: readonly { readonly day: number; readonly quantity: number }[];
  /** Sites that whoever sells it delivers to. */
  readonly sites: readonly string[];
}

/** One offer used for one item, with its supplier. */
export interface Chance {
  readonly offer: Offer;
  readonly supplier: Supplier;
  readonly rate: number;
  /** What a pack covers: the item that it is bought for, and what it includes that is needed too. */
  readonly covers: readonly { readonly need: Need; readonly quantity: number }[];
  /** The item that it is bought for. */
  readonly item: Item;
}

/** The part of an offer between two price breaks, for one item. */
interface Tier {
  readonly chance: Chance;
  /** Place of its column: how many packs. */
  readonly packs: number;
}

interface SupplyProgram {
  readonly tiers: readonly Tier[];
  readonly suppliers: readonly Supplier[];
  readonly rows: readonly Row[];
  readonly columns: readonly Column[];
}

const thresholds = ({ minimumOrder, freightFreeFrom, surchargeBelow, discounts = [] }: Supplier): number[] =>
  [minimumOrder, freightFreeFrom, surchargeBelow, ...discounts.map(({ from }) => from)].filter(
    (value) => value !== undefined,
  );

/** Whole packs of an offer that cover everything it may be bought for. */
const coveringPacks = (chances: readonly Chance[]): number =>
  chances.reduce(
    (sum, { covers }) =>
      sum + Math.max(...covers.map(({ need, quantity }) => Math.ceil((need.quantity / quantity) * (1 - 1e-9)))),
    0,
  );

/**
 * More packs than these are never worth buying: they cover the need, reach the break, and the supplier's thresholds.
 */
function mostPacks(chances: readonly Chance[], supplier: Supplier, from: number, price: number): number {
  const threshold = Math.max(0, ...thresholds(supplier));
  return Math.max(1, coveringPacks(chances), from) + (threshold > 0 && price > 0 ? Math.ceil(threshold / price) : 0);
}

type Entries = [column: number, coefficient: number][];

/** Sites that a supplier delivers to when it sells all of these. */
export const deliverySites = (chances: readonly Chance[]): string[] => [
  ...new Set(chances.flatMap(({ covers }) => covers.flatMap(({ need }) => need.sites))),
];

/** Columns that say whether a supplier is ordered from, and which sites it then delivers to; none for one delivery. */
interface Ordered {
  readonly ordered: number;
  readonly deliveries: ReadonlyMap<string, number>;
}

/** The columns and rows of the program: what every item's packs, every offer and every supplier keep to. */
class SupplyBuilder {
  readonly #builder = new ProgramBuilder();
  readonly #costs: number[] = [];
  readonly tiers: Tier[] = [];
  readonly #covered = new Map<Need, { readonly arrival: number; readonly entry: [number, number] }[]>();
  /** Of each supplier: value of the goods in its currency, by column. */
  readonly #goods = new Map<Supplier, Entries>();
  readonly #most = new Map<Supplier, number>();

  #column(cost: number, upper: number, whole = true): number {
    this.#costs.push(cost);
    return this.#builder.column(upper, whole);
  }

  /** One offer: its tiers, of which at most one is used, and only from a supplier who is ordered from. */
  offer(chances: readonly Chance[], { ordered, deliveries }: Ordered): void {
    const [{ offer, supplier, rate } = {}] = chances;
    if (offer === undefined || supplier === undefined || rate === undefined) return;
    const used: Entries = [[ordered, -1]];
    offer.breaks.forEach(({ from: first, price }, place) => {
      const from = Math.max(1, first, offer.minimumPacks ?? 1);
      const next = offer.breaks[place + 1]?.from ?? Number.POSITIVE_INFINITY;
      const most = Math.min(mostPacks(chances, supplier, from, price), next - 1);
      if (most < from) return;
      const packs = chances.map((chance) => {
        const column = this.#column(price * rate, most);
        this.tiers.push({ chance, packs: column });
        for (const { need, quantity } of chance.covers)
          this.#covered.set(need, [
            ...(this.#covered.get(need) ?? []),
            { arrival: offer.arrival ?? Number.NEGATIVE_INFINITY, entry: [column, quantity] },
          ]);
        for (const site of deliverySites([chance])) {
          const delivered = deliveries.get(site);
          if (delivered !== undefined)
            this.#builder.row({ upper: 0 }, [
              [column, 1],
              [delivered, -most],
            ]);
        }
        return column;
      });
      const use = this.#column(0, 1);
      used.push([use, 1]);
      const all = packs.map((column): [number, number] => [column, 1]);
      this.#builder.row({ upper: 0 }, [...all, [use, -most]]);
      this.#builder.row({ lower: 0 }, [...all, [use, -from]]);
      const goods = this.#goods.get(supplier) ?? [];
      goods.push(...packs.map((column): [number, number] => [column, price]));
      this.#goods.set(supplier, goods);
      this.#most.set(supplier, (this.#most.get(supplier) ?? 0) + most * price);
    });
    this.#builder.row({ upper: 0 }, used);
  }

  /** Freight is charged once, or for each delivery where there are sites. */
  supplier({ freight = 0 }: Supplier, rate: number, sites: readonly string[]): Ordered {
    return {
      ordered: this.#column(sites.length === 0 ? freight * rate : 0, 1),
      deliveries: new Map(sites.map((site) => [site, this.#column(freight * rate, 1)])),
    };
  }

  /** Spares a charge where the goods are worth a limit. */
  #spared(supplier: Supplier, ordered: number, limit: number | undefined, saving: number): void {
    if (limit === undefined || saving === 0) return;
    const spared = this.#column(-saving, 1);
    this.#builder.row({ lower: 0 }, [...(this.#goods.get(supplier) ?? []), [spared, -limit]]);
    this.#builder.row({ upper: 0 }, [
      [spared, 1],
      [ordered, -1],
    ]);
  }

  /** A discount on all goods: they are counted in the class that they reach, and only there. */
  #discounted(supplier: Supplier, ordered: number, rate: number): void {
    const { discounts = [] } = supplier;
    if (discounts.length === 0) return;
    const most = Math.max(1, this.#most.get(supplier) ?? 0);
    const [values, classes]: [Entries, Entries] = [[], []];
    for (const { from, share } of [{ from: 0, share: 0 }, ...discounts]) {
      // In parts of the most that the goods can be worth: no coefficient is far from 1.
      const [value, reached] = [this.#column(-share * most * rate, 1, false), this.#column(0, 1)];
      values.push([value, -most]);
      classes.push([reached, 1]);
      this.#builder.row({ upper: 0 }, [
        [value, 1],
        [reached, -1],
      ]);
      this.#builder.row({ lower: 0 }, [
        [value, 1],
        [reached, -from / most],
      ]);
    }
    this.#builder.row({ lower: 0, upper: 0 }, [...(this.#goods.get(supplier) ?? []), ...values]);
    this.#builder.row({ lower: 0, upper: 0 }, [...classes, [ordered, -1]]);
  }

  /** What a supplier asks of the value of an order. */
  terms(supplier: Supplier, { ordered, deliveries }: Ordered, rate: number): void {
    const { minimumOrder, freight = 0, freightFreeFrom, surcharge = 0, surchargeBelow } = supplier;
    if (minimumOrder !== undefined)
      this.#builder.row({ lower: 0 }, [...(this.#goods.get(supplier) ?? []), [ordered, -minimumOrder]]);
    for (const delivered of deliveries.size === 0 ? [ordered] : deliveries.values())
      this.#spared(supplier, delivered, freightFreeFrom, freight * rate);
    if (surchargeBelow !== undefined && surcharge > 0) {
      this.#costs[ordered] = (this.#costs[ordered] ?? 0) + surcharge * rate;
      this.#spared(supplier, ordered, surchargeBelow, surcharge * rate);
    }
    this.#discounted(supplier, ordered, rate);
  }

  /**
   * Every need is covered, and what is due before an offer arrives by others that arrive sooner. What is due before
   * the first of all arrives is late anyhow: it is due then.
   *
   * In parts of the need, and a pack that covers it covers it once: packs of 10,000 mm for a need of 1 trouble no
   * solver. Sums of packs that were converted between units may fall short in the last digit.
   */
  cover(): void {
    for (const [need, entries] of this.#covered) {
      const days = [...new Set(entries.map(({ arrival }) => arrival))].toSorted((one, other) => one - other);
      const wanted = days.map((day, place) => ({
        day,
        quantity:
          place === days.length - 1
            ? need.quantity
            : (need.before.findLast((part) => part.day <= (days[place + 1] ?? day))?.quantity ?? 0),
      }));
      for (const { day, quantity } of wanted) {
        if (!(quantity > 0)) continue;
        this.#builder.row(
          { lower: 1 - 1e-9 },
          entries
            .filter(({ arrival }) => arrival <= day)
            .map(({ entry: [column, held] }): [number, number] => [column, Math.min(1, held / quantity)]),
        );
      }
    }
  }

  get program(): Pick<SupplyProgram, 'rows' | 'columns'> {
    const { rows, columns } = this.#builder.withCosts(this.#costs);
    return { rows, columns };
  }
}

/**
 * The supply as an integer program.
 *
 * A tier has its packs for each item that its offer may serve, and whether it is used. An item may come from several
 * suppliers: a small pack of one may fill up the large ones of another.
 */
export function programOf(chances: readonly Chance[]): SupplyProgram {
  const suppliers = [...new Set(chances.map(({ supplier }) => supplier))];
  const builder = new SupplyBuilder();
  for (const supplier of suppliers) {
    const own = chances.filter((chance) => chance.supplier === supplier);
    const rate = own[0]?.rate ?? 1;
    const ordered = builder.supplier(supplier, rate, deliverySites(own));
    for (const offer of new Set(own.map((chance) => chance.offer)))
      builder.offer(
        own.filter((chance) => chance.offer === offer),
        ordered,
      );
    builder.terms(supplier, ordered, rate);
  }
  builder.cover();
  return { tiers: builder.tiers, suppliers, ...builder.program };
}

/** The items that a chance helps to cover. */
export const coveredItems = ({ covers }: Chance): string[] => covers.map(({ need }) => itemKey(need.item));
