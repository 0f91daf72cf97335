import { itemColumns, type ItemHeader, itemKinds } from '../../sheets/buying/offers.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { numberIn, textIn, type Value } from '../formula/values.ts';
import { columnNames } from '../records/inputs.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import { amount, listed } from '../sheet/words.ts';
import { nearest } from '../units/nearest.ts';
import type { Item, ItemKind } from './search/order-list.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { strips } from '../../sheets/series/strips.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** How items of the book's sheets are distinguished and called. */

const lengthwise: readonly ItemKind[] = ['strip', 'belt'];

/** Whether an item is bought by the length. */
export const byLength = ({ kind }: Pick<Item, 'kind'>): boolean => lengthwise.includes(kind);

/** What an item's amounts measure: strip and belt in long lengths, all else in pieces. */
export const amountKind = (item: Pick<Item, 'kind'>): QuantityKind => (byLength(item) ? 'distance' : 'number');

/** Kinds of which each size is an item of its own. */
const sized: readonly ItemKind[] = ['bolts', 'punch', 'belt'];
/** Kinds that go by their size alone. */
const nameless: Partial<Readonly<Record<ItemKind, string>>> = { punch: 'punch' };

/** Sizes that were converted from the other system differ in their last digits only. */
const settledSize = (size: number): number => Number(size.toPrecision(10));

/**
 * Sizes that differ by no more than this are one item, since lists show them rounded: half a millimetre or a
 * thirty-second of an inch, for punches half of the last digit shown. Our choice: no two bolts of a series are that
 * near.
 */
const sameSize: Readonly<Record<UnitSystem, Readonly<Partial<Record<ItemKind, number>>>>> = {
  metric: { bolts: 0.5, belt: 0.5, punch: 0.05 },
  us: { bolts: 1 / 32, belt: 1 / 32, punch: 0.002 },
};

/** What a row of any sheet that names items can be asked. */
interface ItemRow {
  readonly text: (header: ItemHeader) => string;
  readonly number: (header: ItemHeader) => number | undefined;
  readonly tell: (header: ItemHeader, message: string) => void;
}

const sizeColumn = itemColumns.find(({ header }) => header === 'Size');
const names: Readonly<Record<ItemKind, string>> = {
  plates: 'plates',
  bolts: 'bolts',
  strip: 'strip',
  punch: 'punch',
  consumable: '',
  belt: 'belt',
};

/** An item as people call it: "plates Plover", "bolts Plover 33 mm", "punch 8.1 mm", "Marking chalk". */
export function itemText({ kind, name, length }: Item, units: UnitSystem): string {
  const size =
    length === undefined
      ? ''
      : amount(
          length,
          { kind: 'length', digits: kind === 'punch' ? { metric: 1, us: 3 } : (sizeColumn?.digits ?? 0) },
          units,
        );
  return [names[kind], nameless[kind] === undefined ? name : '', size].filter((part) => part !== '').join(' ');
}

/** An amount of an item, in words. */
export const amountText = (quantity: number, item: Pick<Item, 'kind'>, units: UnitSystem): string =>
  amount(quantity, { kind: amountKind(item), digits: byLength(item) ? 1 : 2 }, units);

/** Items of one book: names count alike in any case, as everywhere in the book, and sizes as they are shown. */
export class Items {
  readonly #units: UnitSystem;
  readonly #spellings = new Map<string, string>();
  /** Sizes that series and belts know, by kind and name. */
  readonly #sizes = new Map<string, Set<number>>();
  readonly #names: Readonly<Partial<Record<ItemKind, { readonly what: string; readonly names: readonly string[] }>>>;

  constructor(book: Workbook) {
    this.#units = book.units;
    const texts = (names: readonly (string | number | boolean)[]): string[] => names.map(String);
    const series = texts(columnNames(book, plateSeries.name, plateSeries.key));
    const strip = texts(columnNames(book, strips.name, strips.key));
    for (const name of series) {
      this.#spelling('plates', name);
      this.#spelling('bolts', name);
    }
    for (const name of strip) this.#spelling('strip', name);
    this.#names = {
      plates: { what: 'plate series', names: series },
      bolts: { what: 'plate series', names: series },
      strip: { what: 'strip', names: strip },
    };
    this.#sizesOf(book);
  }

  #sizesOf(book: Workbook): void {
    for (const row of sheetRows(book, plateSeries.name, [])) {
      for (const header of ['Bolt length', 'Long bolt length'] as const)
        this.#size('bolts', row.text('Series'), row.number(header));
      this.#size('punch', '', row.number('Punch size'));
    }
    for (const record of book.sheet(belts.name).rows.keys()) {
      const value = (header: BeltHeader): Value => book.read(belts.name, record, header);
      const number = (header: BeltHeader): number | undefined => numberIn(value(header));
      this.#size('bolts', textIn(value('Plate series')), number('Bolt length'));
      this.#size('belt', textIn(value('Construction')), number('Width'));
    }
  }

  #size(kind: ItemKind, name: string, size: number | undefined): void {
    if (size === undefined) return;
    const key = `${kind} ${name.trim().toLowerCase()}`;
    const known = this.#sizes.get(key) ?? new Set<number>();
    this.#sizes.set(key, known.add(settledSize(size)));
  }

  #spelling(kind: ItemKind, name: string): string {
    const key = `${kind} ${name.trim().toLowerCase()}`;
    const known = this.#spellings.get(key) ?? name.trim();
    this.#spellings.set(key, known);
    return known;
  }

  #known(kind: ItemKind, name: string): number[] {
    return [...(this.#sizes.get(`${kind} ${nameless[kind] === undefined ? name.trim().toLowerCase() : ''}`) ?? [])];
  }

  item(kind: ItemKind, name: string, size?: number): Item {
    const called = nameless[kind] ?? this.#spelling(kind, name);
    if (size === undefined || !sized.includes(kind)) return { kind, name: called };
    const [near] = this.#known(kind, name).toSorted((one, other) => Math.abs(one - size) - Math.abs(other - size));
    const same = sameSize[this.#units][kind] ?? 0;
    return {
      kind,
      name: called,
      length: near !== undefined && Math.abs(near - size) <= same * (1 + 1e-9) ? near : settledSize(size),
    };
  }

  /** All plates, strips and bolts that series and strips know. */
  get ofSeries(): Item[] {
    return [
      ...(this.#names.plates?.names ?? []).flatMap((name) => [
        this.item('plates', name),
        ...this.#known('bolts', name).map((size) => this.item('bolts', name, size)),
      ]),
      ...(this.#names.strip?.names ?? []).map((name) => this.item('strip', name)),
    ];
  }

  /** Why no joint takes what goes by this name, with the nearest that there is; undefined where one may. */
  unknownName(kind: ItemKind, name: string): string | undefined {
    const known = this.#names[kind];
    if (known === undefined || known.names.some((one) => one.trim().toLowerCase() === name.trim().toLowerCase()))
      return undefined;
    const near = nearest(name, known.names);
    return `no ${known.what} is called "${name}"${near.length === 0 ? '' : `: did you mean ${listed(near, 'or')}?`}`;
  }

  /** The same of a size that differs from all that series and belts know. */
  unknownSize({ kind, name, length }: Item): string | undefined {
    const known = this.#known(kind, name);
    if (length === undefined || known.length === 0 || known.includes(length)) return undefined;
    const [near] = known.toSorted((one, other) => Math.abs(one - length) - Math.abs(other - length));
    return (
      `no joint takes ${itemText({ kind, name, length }, this.#units)}` +
      (near === undefined ? '' : `; the nearest is ${itemText({ kind, name, length: near }, this.#units)}`)
    );
  }

  /** The item that a row of Offers or Shelf means; undefined, and told, when the row does not say it. */
  ofRow(row: ItemRow): Item | undefined {
    const word = row.text('Kind');
    const kind = itemKinds.find((one) => one === word);
    const [name, size] = [row.text('Item'), row.number('Size')];
    if (kind === undefined) {
      row.tell('Kind', `Kind is empty, so the row is left out: enter one of ${itemKinds.join(', ')}`);
      return undefined;
    }
    if (nameless[kind] === undefined && name === '') {
      row.tell('Item', 'Item is empty, so the row is left out: enter its name');
      return undefined;
    }
    if (sized.includes(kind) && size === undefined) {
      row.tell('Size', `Size is empty, so the row is left out: each size of ${kind} is an item of its own`);
      return undefined;
    }
    const item = this.item(kind, name, size);
    const [unknown, other] = [this.unknownName(kind, name), this.unknownSize(item)];
    if (unknown !== undefined) row.tell('Item', unknown);
    else if (other !== undefined) row.tell('Size', other);
    return item;
  }
}
