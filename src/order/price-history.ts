import { priceHistory } from '../../sheets/buying/price-history.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Prices that articles had before, from the sheet Price history. */

interface PastPrice {
  /** Day as a serial number; undefined for one that is older than all that have one. */
  readonly day: number | undefined;
  /** Of one pack, in the supplier's currency. */
  readonly price: number;
  /** Number of packs that it was for. */
  readonly packs: number;
  /** Quotation or order that it is from. */
  readonly from: string;
}

/** An article's price against the last one that was another. */
interface PriceChange {
  readonly last: PastPrice;
  /** Of the last price: 0.042 for 4.2 % more. */
  readonly rise: number;
}

/** Prices closer together are the same: files of other programs lose last digits. */
const isSame = (one: number, other: number): boolean => Math.abs(one - other) < 0.005;

export class PriceHistory {
  readonly #prices = new Map<string, PastPrice[]>();

  constructor(book: Workbook) {
    for (const row of sheetRows(book, priceHistory.name, [])) {
      const [article, price] = [row.text('Priced article').trim().toLowerCase(), row.number('Price then')];
      if (article === '' || price === undefined) continue;
      const prices = this.#prices.get(article) ?? [];
      prices.push({
        day: row.number('Priced on'),
        price,
        packs: row.number('Packs then') ?? 1,
        from: row.text('Price from'),
      });
      this.#prices.set(article, prices);
    }
    for (const prices of this.#prices.values())
      prices.sort((one, other) => (one.day ?? Number.NEGATIVE_INFINITY) - (other.day ?? Number.NEGATIVE_INFINITY));
  }

  /** All of an article, the oldest first. */
  of(article: string): readonly PastPrice[] {
    return this.#prices.get(article.trim().toLowerCase()) ?? [];
  }

  /** Against the last price that was another for as many packs; undefined where there is none. */
  change(article: string, priceOf: (packs: number) => number): PriceChange | undefined {
    const last = this.of(article).findLast((one) => one.price > 0 && !isSame(one.price, priceOf(one.packs)));
    return last === undefined ? undefined : { last, rise: priceOf(last.packs) / last.price - 1 };
  }
}
