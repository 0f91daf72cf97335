import { fleetOrder } from '../../src/order/fleet-order.ts';
import { itemText } from '../../src/order/items.ts';
import type { OrderLine } from '../../src/order/search/order-list.ts';
import { splitSupply } from '../../src/order/search/supply.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import type { Solver } from '../../src/solver/program.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { type Cells, rowOf } from '../workbook/books.ts';

/**
 * Orders of small random books against every number of packs of every offer, tried out. What is tried reads the rows
 * as they were typed and knows nothing of the program's offers, suppliers and rates.
 */

/** Two belts of one series with bolts of two lengths. */
const belts = ['Q4', 'Q5'] as const;
const series = 'Heron';
const rates: Readonly<Record<string, number>> = { EUR: 1, GBP: 1.18, SEK: 0.089 };
const boltsPerPlate = 4;
const allowance = { plates: 0.02, bolts: 0.05 } as const;

interface RandomBook {
  readonly state: BookState;
  readonly suppliers: readonly Cells[];
  readonly offers: readonly Cells[];
  readonly today: number;
}

type Draw = <Word>(words: readonly Word[]) => Word;

function supplierRow(draw: Draw, name: string): Cells {
  const currency = draw(Object.keys(rates));
  /** Money of about so much in the book's. */
  const money = (amount: number): number => Math.round(amount / (rates[currency] ?? 1));
  return {
    Supplier: name,
    Currency: currency,
    'Exchange rate': currency === 'EUR' ? null : (rates[currency] ?? null),
    Freight: draw([null, money(20), money(60)]),
    'Freight free from': draw([null, money(500)]),
    'Minimum order': draw([null, null, money(150)]),
    ...draw<Cells>([{}, { Surcharge: money(30), 'Surcharge below': money(400) }]),
    ...draw<Cells>([
      {},
      { 'Discount 1 from': money(450), 'Discount 1': 0.04 },
      { 'Discount 1 from': money(300), 'Discount 1': 0.02, 'Discount 2 from': money(600), 'Discount 2': 0.06 },
    ]),
  };
}

function offerRow(draw: Draw, number: number, suppliers: readonly Cells[], today: number): Cells {
  const seller = draw(suppliers);
  const rate = rates[String(seller['Currency'])] ?? 1;
  const kind = number === 0 ? 'plates' : number === 1 ? 'bolts' : draw(['plates', 'bolts', 'kit', 'other']);
  const bolts = kind === 'bolts';
  const pack = draw(bolts ? [150, 240, 400] : [40, 60, 100]);
  const each = (bolts ? 0.5 : kind === 'kit' ? 6.5 : 4.5) * draw([0.8, 0.9, 1, 1.1, 1.3]);
  /** Of a pack, to the hundredth. */
  const price = (share: number): number => Math.round((100 * pack * each * share) / rate) / 100;
  const from = draw([2, 3]);
  return {
    Article: `offer ${number}`,
    'Sold by': seller['Supplier'] ?? null,
    Kind: bolts ? 'bolts' : 'plates',
    Item: kind === 'other' ? 'Gannet' : series,
    'Alternative for': kind === 'other' ? series : null,
    Size: bolts ? draw([61, 70, 61.4]) : kind === 'kit' ? draw([null, 61]) : null,
    'Bolts included': kind === 'kit' ? 'yes' : null,
    'Pieces in pack': pack,
    'Minimum packs': draw([null, null, null, 2]),
    Price: price(1),
    ...draw<Cells>([{}, { 'Break 2': from, 'Price 2': price(0.9) }]),
    'Lead time': draw([10, 10, 45]),
    'Valid from': draw([null, null, null, today + 3]),
    'Valid until': draw([null, null, today, today - 1]),
  };
}

/** A book with a few suppliers and offers, and nothing on the shelf. */
export function randomBook(seed: number): RandomBook {
  const random = randomNumbers(seed);
  const draw: Draw = (words) => {
    const word = words[Math.floor(random() * words.length)];
    if (word === undefined) throw new Error('nothing to draw from');
    return word;
  };
  const demo = demoBook('metric');
  const book = new Workbook(demo);
  const due = Number(book.read('Belts', 4, 'Due'));
  const today = Math.floor(due) - draw([5, 20, 60]);
  const suppliers = ['North', 'South', 'West'].slice(0, draw([1, 2, 3])).map((name) => supplierRow(draw, name));
  const offers = Array.from({ length: draw([3, 4]) }, (_, number) => offerRow(draw, number, suppliers, today));
  const unpriced = new Set(['Pack price', 'Bolt pack price', 'Roll price'].map((header) => header));
  const state: BookState = {
    ...demo,
    sheets: demo.sheets.map((sheet) => {
      if (sheet.name === 'Suppliers') return { ...sheet, rows: suppliers.map((cells) => rowOf('Suppliers', cells)) };
      if (sheet.name === 'Offers') return { ...sheet, rows: offers.map((cells) => rowOf('Offers', cells)) };
      if (sheet.name === 'Shelf') return { ...sheet, rows: [] };
      const blank = [...unpriced].flatMap((header) => book.findColumn(sheet.name, header) ?? []);
      const rows = sheet.rows.map(({ cells }) => ({
        cells: cells.map((content, column) =>
          blank.includes(column) && ['Plate series', 'Strips'].includes(sheet.name)
            ? null
            : sheet.name === 'Assumptions' && cells[0] === 'ReviewDate' && column === 1
              ? today
              : content,
        ),
      }));
      return { ...sheet, rows };
    }),
  };
  book.destroy();
  return { state, suppliers, offers, today };
}

/** What is needed of one item, by the days of its joints. */
interface TriedNeed {
  readonly key: string;
  readonly quantity: number;
  readonly parts: readonly { readonly due: number; readonly quantity: number }[];
}

/** An offer as one thing that packs are bought of. */
interface Variant {
  readonly row: Cells;
  readonly gives: Readonly<Record<string, number>>;
  readonly arrival: number;
}

const number = (cells: Cells, header: string): number | undefined => {
  const value = cells[header];
  return typeof value === 'number' ? value : undefined;
};

function variants({ offers, today }: RandomBook, lengths: readonly number[]): Variant[] {
  return offers.flatMap((row): Variant[] => {
    const [from = -Infinity, until = Infinity] = [number(row, 'Valid from'), number(row, 'Valid until')];
    if (from > today || until < today) return [];
    const [pack = 0, size, lead = 0] = [number(row, 'Pieces in pack'), number(row, 'Size'), number(row, 'Lead time')];
    const arrival = today + lead;
    // Half a millimetre is one size.
    const length = lengths.find((one) => size !== undefined && Math.abs(one - size) <= 0.5);
    if (row['Kind'] === 'bolts')
      return length === undefined ? [] : [{ row, arrival, gives: { [`bolts ${length}`]: pack } }];
    if (row['Bolts included'] !== 'yes') return [{ row, arrival, gives: { plates: pack } }];
    return (size === undefined ? lengths : lengths.filter((one) => one === length)).map((one) => ({
      row,
      arrival,
      gives: { plates: pack, [`bolts ${one}`]: boltsPerPlate * pack },
    }));
  });
}

function needsIn(lines: readonly OrderLine[]): TriedNeed[] {
  return lines.flatMap(({ item, sources }): TriedNeed[] => {
    if (item.kind !== 'plates' && item.kind !== 'bolts') return [];
    const share = 1 + allowance[item.kind];
    return [
      {
        key: item.kind === 'plates' ? 'plates' : `bolts ${item.length ?? 0}`,
        quantity: sources.reduce((sum, { quantity }) => sum + quantity, 0) * share,
        parts: sources.map(({ due = Infinity, quantity }) => ({ due: Math.floor(due), quantity: quantity * share })),
      },
    ];
  });
}

const most = 9;
const hair = 1e-9;

class Trial {
  readonly #book: RandomBook;
  readonly #variants: readonly Variant[];
  readonly #needs: readonly TriedNeed[];
  readonly #counts: number[];
  least = Number.POSITIVE_INFINITY;

  constructor(book: RandomBook, lines: readonly OrderLine[]) {
    this.#book = book;
    const all = needsIn(lines);
    const lengths = lines.flatMap(({ item }) =>
      item.kind === 'bolts' && item.length !== undefined ? [item.length] : [],
    );
    this.#variants = variants(book, lengths);
    this.#needs = all.filter(({ key }) => this.#variants.some(({ gives }) => gives[key] !== undefined));
    this.#counts = this.#variants.map(() => 0);
  }

  get size(): number {
    return this.#variants.length;
  }

  #held(key: string, day: number): number {
    return this.#variants.reduce(
      (sum, { gives, arrival }, place) => (arrival <= day ? sum + (gives[key] ?? 0) * (this.#counts[place] ?? 0) : sum),
      0,
    );
  }

  /** Whether every joint has its parts on its day; what no offer can bring in time, by the soonest. */
  #covered({ key, quantity, parts }: TriedNeed): boolean {
    if (this.#held(key, Infinity) < quantity * (1 - hair)) return false;
    const soonest = Math.min(
      ...this.#variants.filter(({ gives }) => gives[key] !== undefined).map((one) => one.arrival),
    );
    return parts.every(({ due }) => {
      const day = Math.max(due, soonest);
      const wanted = parts.reduce((sum, part) => (Math.max(part.due, soonest) <= day ? sum + part.quantity : sum), 0);
      return this.#held(key, day) >= wanted * (1 - hair);
    });
  }

  #cost(): number {
    let total = 0;
    for (const seller of this.#book.suppliers) {
      const rate = rates[String(seller['Currency'])] ?? Number.NaN;
      const lines = this.#variants.flatMap(({ row }, place) => {
        const packs = this.#counts[place] ?? 0;
        if (row['Sold by'] !== seller['Supplier'] || packs === 0) return [];
        if (packs < (number(row, 'Minimum packs') ?? 1)) return [Number.NaN];
        const later = packs >= (number(row, 'Break 2') ?? Infinity);
        return [packs * (number(row, later ? 'Price 2' : 'Price') ?? Number.NaN)];
      });
      if (lines.length === 0) continue;
      const goods = lines.reduce((sum, line) => sum + line, 0);
      if (!(goods >= (number(seller, 'Minimum order') ?? 0) * (1 - hair))) return Number.POSITIVE_INFINITY;
      const discount = [2, 1].find(
        (tier) => goods >= (number(seller, `Discount ${tier} from`) ?? Infinity) * (1 - hair),
      );
      const share = discount === undefined ? 0 : (number(seller, `Discount ${discount}`) ?? 0);
      const small = goods < (number(seller, 'Surcharge below') ?? 0) * (1 - hair) ? number(seller, 'Surcharge') : 0;
      const sent =
        goods >= (number(seller, 'Freight free from') ?? Infinity) * (1 - hair) ? 0 : number(seller, 'Freight');
      total += rate * (goods * (1 - share) + (small ?? 0) + (sent ?? 0));
    }
    return total;
  }

  run(place = 0): number {
    if (place === this.#counts.length) {
      if (this.#needs.every((need) => this.#covered(need))) this.least = Math.min(this.least, this.#cost());
      return this.least;
    }
    for (let packs = 0; packs <= most; packs += 1) {
      this.#counts[place] = packs;
      this.run(place + 1);
    }
    this.#counts[place] = 0;
    return this.least;
  }
}

/**
 * What a random book's order and what was tried differ in; undefined where they agree, and how many packs were tried.
 */
export function triedOrder(seed: number, solver: Solver): string | undefined {
  const random = randomBook(seed);
  const book = new Workbook(random.state);
  const records = book
    .sheet('Belts')
    .rows.flatMap(({ cells }, record) => (belts.some((name) => name === cells[0]) ? [record] : []));
  const order = fleetOrder(book, { which: 'belts', records });
  const { offers, suppliers, rates: known } = order.offered;
  const wanted = order.lines.filter(({ item }) => item.kind === 'plates' || item.kind === 'bolts');
  const supply = splitSupply({ lines: wanted, offers, suppliers, rates: known }, solver);
  const least = new Trial(random, wanted).run();
  book.destroy();
  const total = supply?.total ?? Number.POSITIVE_INFINITY;
  // Lines, freight, discounts and surcharges are rounded to the hundredth each.
  const rounding = 0.005 * ((supply?.purchases.length ?? 0) + 3 * (supply?.orders.length ?? 0)) + 1e-6;
  if (supply !== undefined && !supply.proven) return `book ${seed}: not proven`;
  if (Math.abs(total - least) <= rounding || total === least) return undefined;
  const bought = (supply?.purchases ?? []).map(
    ({ item, packs, supplier }) => `${packs} × ${itemText(item, 'metric')} of ${supplier}`,
  );
  return `book ${seed}: the order costs ${total}, tried ${least}: ${bought.join(', ')}`;
}
