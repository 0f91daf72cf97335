import { fixedText } from '../units/shown-mark.ts';
import { laterPrices, offers as offersSheet } from '../../sheets/buying/offers.ts';
import { suppliers as suppliersSheet } from '../../sheets/buying/suppliers.ts';
import type { Content } from '../formula/values.ts';
import { assumed, assumedText } from '../records/assumed.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import { rounded } from '../sheet/words.ts';
import { isoDate } from '../units/dates.ts';
import { withContents, withRoom, type CellEdit } from '../workbook/state-changes.ts';
import type { BookState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { AnsweredLine, RequestAnswers } from './request-answers.ts';
import { PriceNotes } from './price-edits.ts';
import type { AskedCell, OfferHeader, RequestKey } from './request-columns.ts';

/** Quotations that came back, as changes of the sheet Offers. */

interface QuoteChange {
  readonly article: string;
  readonly header: OfferHeader;
  readonly before: Content;
  readonly after: Content;
}

interface QuotedBook {
  readonly state: BookState;
  readonly changes: readonly QuoteChange[];
  /** Lines that were not quoted for, in words. */
  readonly notOffered: readonly string[];
  /** What could not be taken over, each with its cell. */
  readonly problems: readonly string[];
}

const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

const lineName = ({ kind, name, size }: RequestKey): string =>
  [kind, name === 'punch' ? '' : name, size === null ? '' : rounded(size, 3)].filter((part) => part !== '').join(' ');

/** Numbers come back from other programs with a last digit off. */
const unchanged = (before: Content, after: Content): boolean =>
  before === after ||
  (typeof before === 'number' && typeof after === 'number' && Math.abs(before - after) <= 1e-9 * Math.abs(before));

class QuoteTaker {
  readonly #book: Workbook;
  readonly #edits = new Map<string, CellEdit>();
  readonly #changes: QuoteChange[] = [];
  readonly #prices: PriceNotes;
  /** Day of a price whose quotation names none. */
  readonly #today: number;
  readonly problems: string[] = [];
  readonly notOffered: string[] = [];
  /** Records of Offers by article, those that are added included. */
  readonly #records = new Map<string, number>();
  #next: number;

  constructor(book: Workbook) {
    this.#book = book;
    this.#prices = new PriceNotes(book);
    this.#today = Math.floor(assumed(book, 'ReviewDate'));
    this.#next = book.sheet(offersSheet.name).rows.length;
    for (const row of sheetRows(book, offersSheet.name, []))
      this.#records.set(row.text('Article').trim().toLowerCase(), row.record);
  }

  #content(record: number, header: OfferHeader): Content {
    const column = this.#book.column(offersSheet.name, header);
    const edited = this.#edits.get(`${record}/${column}`);
    return edited === undefined
      ? record < this.#book.sheet(offersSheet.name).rows.length
        ? this.#book.content({ sheet: offersSheet.name, record, column })
        : null
      : edited.content;
  }

  #set(article: string, record: number, header: OfferHeader, after: Content): void {
    const before = this.#content(record, header);
    if (unchanged(before, after)) return;
    const column = this.#book.column(offersSheet.name, header);
    this.#edits.set(`${record}/${column}`, { sheet: offersSheet.name, record, column, content: after });
    this.#changes.push({ article, header, before, after });
  }

  /** The currency that a supplier sells in; undefined for one that the book does not list. */
  #currency(supplier: string): string | undefined {
    const row = sheetRows(this.#book, suppliersSheet.name, []).find((one) => same(one.text('Supplier'), supplier));
    if (row === undefined) return undefined;
    const currency = row.text('Currency');
    return currency === '' ? assumedText(this.#book, 'BookCurrency') : currency;
  }

  /** Why a line cannot be taken over; undefined when it can. */
  #refusal({ key }: AnsweredLine): string | undefined {
    const currency = this.#currency(key.supplier);
    if (currency === undefined) return `the sheet Suppliers has no supplier ${key.supplier}`;
    if (!same(currency, key.currency))
      return `it was asked for in ${key.currency}, but ${key.supplier} sells in ${currency} now`;
    if (key.units !== this.#book.units) return `it was asked for in ${key.units} units, and the book is in the others`;
    return undefined;
  }

  /** The record that a line answers; a new one where the book has no offer of it yet. */
  #recordOf({ key, cell, answers }: AnsweredLine): { readonly article: string; readonly record: number } | undefined {
    if (key.article !== '') {
      const record = this.#records.get(key.article.trim().toLowerCase());
      if (record !== undefined) return { article: key.article, record };
      this.problems.push(`${cell}: the sheet Offers has no article ${key.article} any more`);
      return undefined;
    }
    const article = `${key.supplier} ${lineName(key)}`;
    const known = this.#records.get(article.toLowerCase());
    if (known !== undefined) return { article, record: known };
    if (answers.get('pack') === undefined) {
      this.problems.push(`${cell}: Pack of is empty, so the offer is not taken over`);
      return undefined;
    }
    const record = this.#next;
    this.#next += 1;
    this.#records.set(article.toLowerCase(), record);
    this.#set(article, record, 'Article', article);
    this.#set(article, record, 'Sold by', key.supplier);
    this.#set(article, record, 'Kind', key.kind);
    if (key.kind !== 'punch') this.#set(article, record, 'Item', key.name);
    if (key.size !== null) this.#set(article, record, 'Size', key.size);
    return { article, record };
  }

  take(line: AnsweredLine): void {
    const { key, cell, answers } = line;
    const priced = answers.get('Price') !== undefined || laterPrices.some((tier) => answers.has(`Price ${tier}`));
    if (!priced) {
      this.notOffered.push(`${key.supplier}: ${lineName(key)}`);
      return;
    }
    const refusal = this.#refusal(line);
    if (refusal !== undefined) {
      this.problems.push(`${cell}: ${refusal}, so the line is left out`);
      return;
    }
    const found = this.#recordOf(line);
    if (found === undefined) return;
    const { article, record } = found;
    const set = (header: OfferHeader, content: Content): void => this.#set(article, record, header, content);
    this.#note(line, found);
    this.#setPrices(line, set);
    const pack = answers.get('pack');
    if (pack !== undefined)
      set(key.kind === 'strip' || key.kind === 'belt' ? 'Length in pack' : 'Pieces in pack', pack);
    for (const header of kept) {
      const answer = answers.get(header);
      if (answer !== undefined && !(header === 'Bolts included' && key.kind !== 'plates')) set(header, answer);
    }
  }

  /** Keeps the price that is quoted, and the one before where nothing is kept of the article yet. */
  #note({ answers }: AnsweredLine, { article, record }: { readonly article: string; readonly record: number }): void {
    const priced = (['Price', ...laterPrices.map((tier) => `Price ${tier}` as const)] as const).find((header) =>
      answers.has(header),
    );
    const price = priced === undefined ? undefined : answers.get(priced);
    if (priced === undefined || typeof price !== 'number') return;
    // A quotation without a price for one pack begins at its first break.
    const tier = laterPrices.find((one) => priced === `Price ${one}`);
    const first = tier === undefined ? 1 : answers.get(`Break ${tier}`);
    const packs = typeof first === 'number' ? first : 1;
    const [before, quote] = [this.#content(record, priced), this.#content(record, 'Quote')];
    if (typeof before === 'number' && before > 0 && !this.#prices.knows(article))
      this.#prices.add({ article, day: undefined, price: before, packs, from: quote === null ? '' : String(quote) });
    const [from, day] = [answers.get('Quote'), answers.get('Valid from')];
    this.#prices.add({
      article,
      day: typeof day === 'number' ? day : this.#today,
      price,
      packs,
      from: `quotation ${from === undefined ? '' : String(from)}`.trim(),
    });
  }

  /** Prices are quoted as a whole: a break that is not priced any more goes. */
  #setPrices({ answers, cell }: AnsweredLine, set: (header: OfferHeader, content: Content) => void): void {
    set('Price', answers.get('Price') ?? null);
    const tiers = laterPrices.flatMap((tier) => {
      const [from, price] = [answers.get(`Break ${tier}`), answers.get(`Price ${tier}`)];
      if (price !== undefined && from === undefined)
        this.problems.push(`${cell}: a price has no number of packs before it, so it is left out`);
      return from === undefined || price === undefined ? [] : [{ from, price }];
    });
    for (const [place, tier] of laterPrices.entries()) {
      set(`Break ${tier}`, tiers[place]?.from ?? null);
      set(`Price ${tier}`, tiers[place]?.price ?? null);
    }
  }

  end(): Pick<QuotedBook, 'state' | 'changes'> {
    const edits = [...this.#edits.values(), ...this.#prices.edits];
    return { state: withContents(withRoom(this.#book.state, edits), edits), changes: this.#changes };
  }
}

/** Answers that are taken over where they are given, and otherwise leave what stands there. */
const kept: readonly Exclude<AskedCell['to'], 'pack'>[] = [
  'Article number',
  'Minimum packs',
  'Lead time',
  'Bolts included',
  'Quote',
  'Valid from',
  'Valid until',
];

/** The book with what suppliers answered: those cells of Offers are changed, and no other. */
export function quotedBook(book: Workbook, answers: readonly RequestAnswers[]): QuotedBook {
  const taker = new QuoteTaker(book);
  for (const { lines } of answers) for (const line of lines) taker.take(line);
  return {
    ...taker.end(),
    notOffered: taker.notOffered,
    problems: [...answers.flatMap(({ problems }) => problems), ...taker.problems],
  };
}

const dates: ReadonlySet<string> = new Set(['Valid from', 'Valid until']);

/** A change in words: "A-PLO-48: Price 58.56 → 61.00 (+4.2 %)". */
export function changeText({ article, header, before, after }: QuoteChange): string {
  const shown = (content: Content): string =>
    content === null
      ? 'blank'
      : typeof content !== 'number'
        ? String(content)
        : dates.has(header)
          ? isoDate(content)
          : header.startsWith('Price')
            ? fixedText(content, 2)
            : rounded(content, 3);
  const rise =
    header.startsWith('Price') && typeof before === 'number' && typeof after === 'number' && before > 0
      ? ` (${after >= before ? '+' : '−'}${rounded(Math.abs(after / before - 1) * 100, 1)} %)`
      : '';
  return `${article}: ${header} ${shown(before)} → ${shown(after)}${rise}`;
}
