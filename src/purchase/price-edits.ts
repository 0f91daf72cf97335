import { priceHistory } from '../../sheets/buying/price-history.ts';
import type { HeaderOf } from '../../sheets/index.ts';
import type { Content } from '../formula/values.ts';
import { PriceHistory } from '../order/price-history.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import { isoDate } from '../units/dates.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Prices that were quoted or ordered at, as rows of the sheet Price history. */

interface NotedPrice {
  readonly article: string;
  /** As a serial number; undefined for one whose day nobody knows. */
  readonly day: number | undefined;
  readonly price: number;
  readonly packs: number;
  /** Number of the quotation or order. */
  readonly from: string;
}

/** Adds entries below those that there are; one that stands there already is left out. */
export class PriceNotes {
  readonly #book: Workbook;
  readonly #history: PriceHistory;
  readonly #names: Set<string>;
  readonly #edits: CellEdit[] = [];
  readonly #noted = new Set<string>();
  #next: number;

  constructor(book: Workbook) {
    this.#book = book;
    this.#history = new PriceHistory(book);
    this.#names = new Set(sheetRows(book, priceHistory.name, []).map((row) => row.text('Price entry').toLowerCase()));
    this.#next = book.sheet(priceHistory.name).rows.length;
  }

  /** Whether anything is known of an article's prices. */
  knows(article: string): boolean {
    return this.#history.of(article).length > 0 || this.#noted.has(article.toLowerCase());
  }

  #name({ article, day }: NotedPrice): string {
    const name = day === undefined ? `${article} before` : `${article} ${isoDate(day)}`;
    for (let count = 1; ; count += 1) {
      const numbered = count === 1 ? name : `${name} (${count})`;
      if (!this.#names.has(numbered.toLowerCase())) return numbered;
    }
  }

  add(noted: NotedPrice): void {
    const { article, day, price, packs, from } = noted;
    const stands = this.#history
      .of(article)
      .some((one) => one.day === day && one.price === price && one.packs === packs);
    if (article === '' || stands) return;
    const name = this.#name(noted);
    this.#names.add(name.toLowerCase());
    this.#noted.add(article.toLowerCase());
    const cells: readonly (readonly [HeaderOf<'Price history'>, Content])[] = [
      ['Price entry', name],
      ['Priced article', article],
      ['Priced on', day ?? null],
      ['Price then', price],
      ['Packs then', packs === 1 ? null : packs],
      ['Price from', from],
    ];
    for (const [header, content] of cells)
      if (content !== null && content !== '')
        this.#edits.push({
          sheet: priceHistory.name,
          record: this.#next,
          column: this.#book.column(priceHistory.name, header),
          content,
        });
    this.#next += 1;
  }

  get edits(): readonly CellEdit[] {
    return this.#edits;
  }
}
