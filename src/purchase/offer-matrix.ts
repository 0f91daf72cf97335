import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { PriceHistory } from '../order/price-history.ts';
import { packPrice } from '../order/search/offers.ts';
import { assumed } from '../records/assumed.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type ComparedOffer, comparedOffers, reason } from './compared-offers.ts';

/** The offers for an order side by side: an item a row, a supplier a column, in the book's money. */

/** The best of a supplier's offers for an item, as if all of it were bought there. */
interface MatrixCell {
  /** Of the goods: freight, charges and discounts are of whole orders. */
  readonly cost: number;
  /** No goods for this item cost less. */
  readonly cheapest: boolean;
  /** Packs that the order buys there, of any of the supplier's offers. */
  readonly bought: number;
  readonly article: string;
  readonly leadDays: number;
  /** The price against the article's last one; undefined where none is kept. */
  readonly change: ReturnType<PriceHistory['change']>;
  readonly why: string;
  /** Places of the supplier's offers among all that are compared. */
  readonly offers: readonly number[];
}

interface MatrixRow {
  /** Of the order list. */
  readonly line: number;
  readonly item: string;
  /** In the order of the suppliers; undefined where one has no offer. */
  readonly cells: readonly (MatrixCell | undefined)[];
  /** Supplier of the cheapest goods, the first where several are. */
  readonly cheapest: string;
  readonly bought: readonly string[];
  /** Suppliers that nothing is bought from, each with the reason. */
  readonly lost: string;
}

export interface OfferMatrix {
  /** Those who offer anything that is to be ordered. */
  readonly suppliers: readonly string[];
  readonly rows: readonly MatrixRow[];
  /** Number of offers that are compared. */
  readonly offers: number;
}

type Placed = readonly [place: number, offer: ComparedOffer];

function cellOf(
  own: readonly Placed[],
  all: readonly Placed[],
  day: number,
  history: PriceHistory,
): MatrixCell | undefined {
  const [best] = own.toSorted(([, one], [, other]) => one.cost - other.cost);
  if (best === undefined) return undefined;
  const others = all.map(([, offer]) => offer);
  const bought = own.reduce((sum, [, offer]) => sum + offer.bought, 0);
  const [, told] = own.find(([, offer]) => offer.bought > 0) ?? best;
  return {
    cost: best[1].cost,
    cheapest: best[1].cost <= Math.min(...others.map(({ cost }) => cost)),
    bought,
    article: told.offer.article,
    leadDays: told.offer.leadDays,
    change: history.change(told.offer.article, (packs) => packPrice(packs, told.offer)),
    why: reason(told, others, day),
    offers: own.map(([place]) => place),
  };
}

/** The matrix of an order; items that nobody offers have no row. */
export function offerMatrix(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): OfferMatrix {
  const compared = comparedOffers(order, supplied).map((offer, place): Placed => [place, offer]);
  const history = new PriceHistory(book);
  const day = assumed(book, 'ReviewDate');
  const names = new Set(compared.map(([, { offer }]) => offer.supplier));
  const suppliers = order.offered.suppliers.map(({ name }) => name).filter((name) => names.has(name));
  const lines = new Map<number, Placed[]>();
  for (const placed of compared) lines.set(placed[1].line, [...(lines.get(placed[1].line) ?? []), placed]);
  return {
    suppliers,
    offers: compared.length,
    rows: [...lines].flatMap(([line, all]): MatrixRow[] => {
      const [first] = all;
      if (first === undefined) return [];
      const cells = suppliers.map((supplier) =>
        cellOf(
          all.filter(([, { offer }]) => offer.supplier === supplier),
          all,
          day,
          history,
        ),
      );
      const named = (holds: (cell: MatrixCell) => boolean): string[] =>
        suppliers.filter((_, place) => {
          const cell = cells[place];
          return cell !== undefined && holds(cell);
        });
      return [
        {
          line,
          item: itemText(first[1].orderLine.item, book.units),
          cells,
          cheapest: named(({ cheapest }) => cheapest)[0] ?? '',
          bought: named(({ bought }) => bought > 0),
          lost: suppliers
            .flatMap((supplier, place) => {
              const cell = cells[place];
              return cell === undefined || cell.bought > 0 ? [] : [`${supplier}: ${cell.why}`];
            })
            .join('; '),
        },
      ];
    }),
  };
}
