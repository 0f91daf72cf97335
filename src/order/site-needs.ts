import { byLength } from './items.ts';
import type { FleetJoints } from './fleet-joints.ts';
import { type Item, itemKey, type ItemKind, type OrderLine, type Stocked } from './search/order-list.ts';
import type { SiteOf, Stock } from './stock.ts';

/** What each of several sites takes of what they buy together. */

/** A site's part of a line of the order list. */
export interface SiteNeed {
  readonly site: string;
  /** Of its planned joints, with what is spoilt on top, and what the shelf there is to hold. */
  readonly need: number;
  readonly allowance: number;
  readonly shelfLevel: number;
  readonly onShelf: number;
  readonly onOrder: number;
}

/** What is delivered to a site. */
export interface SiteDelivery {
  readonly site: string;
  readonly quantity: number;
}

/** What a site lacks by itself; what another site has too much is not counted. */
const lackOf = ({ need, allowance, shelfLevel, onShelf, onOrder }: SiteNeed): number =>
  Math.max(0, need + allowance + shelfLevel - onShelf - onOrder);

interface SiteTerms {
  readonly sites: readonly string[];
  readonly siteOf: SiteOf;
  readonly joints: FleetJoints;
  readonly stock: Stock;
  readonly waste: Partial<Readonly<Record<ItemKind, number>>>;
}

/** The parts of all sites of a line, in the order of the sites. */
export function siteNeeds(
  { item, shelfLevel }: Pick<OrderLine, 'item' | 'shelfLevel'>,
  { sites, siteOf, joints, stock, waste }: SiteTerms,
): SiteNeed[] {
  const key = itemKey(item);
  const kept = stock.reorders.find((reorder) => itemKey(reorder.item) === key)?.site;
  const sum = (stocked: readonly Stocked[], site: string): number =>
    stocked.reduce((total, one) => (one.site === site && itemKey(one.item) === key ? total + one.quantity : total), 0);
  return sites.map((site) => {
    const need = joints.belts
      .filter(({ record }) => siteOf('Belts', record) === site)
      .flatMap(({ needs }) => needs)
      .reduce((total, one) => (itemKey(one.item) === key ? total + one.quantity : total), 0);
    return {
      site,
      need,
      allowance: need * (waste[item.kind] ?? 0),
      shelfLevel: site === kept ? shelfLevel : 0,
      onShelf: sum(stock.shelf, site),
      onOrder: sum(stock.onOrder, site),
    };
  });
}

/**
 * The sites that a line is delivered to: those that lack it; of pieces no more sites than there are pieces to order,
 * those that lack most. So one punch that two sites wear goes to one of them.
 */
export function deliveredTo(line: Pick<OrderLine, 'item' | 'toOrder'>, needs: readonly SiteNeed[]): string[] {
  if (!(line.toOrder > 0)) return [];
  const most = byLength(line.item) ? needs.length : Math.ceil(line.toOrder * (1 - 1e-9));
  const lacking = needs
    .filter((one) => lackOf(one) > 1e-9 * (one.need + one.shelfLevel))
    .toSorted((one, other) => lackOf(other) - lackOf(one))
    .slice(0, most);
  const [first] = needs;
  return lacking.length > 0 ? lacking.map(({ site }) => site) : first === undefined ? [] : [first.site];
}

/**
 * A quantity that is bought, shared among the sites that it is delivered to, by what they lack.
 *
 * What packs hold beyond goes to the site that lacks most. Pieces stay whole, and every site gets one if there are
 * enough: whoever sells it delivers to all of them, as its freight was counted.
 */
export function sharedDelivery(
  item: Pick<Item, 'kind'>,
  quantity: number,
  sites: readonly string[],
  needs: readonly SiteNeed[],
): SiteDelivery[] {
  const lacks = sites.map((site) => Math.max(0, ...needs.filter((one) => one.site === site).map(lackOf)));
  const lacking = lacks.reduce((sum, lack) => sum + lack, 0);
  const wanted = lacks.map((lack, place) =>
    lacking <= quantity
      ? lack + (place === 0 ? quantity - lacking : 0)
      : lacking === 0
        ? quantity / sites.length
        : (quantity * lack) / lacking,
  );
  if (byLength(item)) return sites.map((site, place) => ({ site, quantity: wanted[place] ?? 0 }));
  const shared = wanted.map((part) => Math.max(1, Math.floor(part + 1e-9)));
  const most = (value: (place: number) => number): number =>
    shared.reduce((best, _, place) => (value(place) > value(best) ? place : best), 0);
  for (let left = quantity - shared.reduce((sum, part) => sum + part, 0); Math.abs(left) > 1e-9;) {
    const step = left > 0 ? Math.min(1, left) : -Math.min(1, -left);
    const place = most((one) => Math.sign(left) * ((wanted[one] ?? 0) - (shared[one] ?? 0)));
    shared[place] = (shared[place] ?? 0) + step;
    left -= step;
  }
  return sites.map((site, place) => ({ site, quantity: shared[place] ?? 0 })).filter((one) => one.quantity > 0);
}
