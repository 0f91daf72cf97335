import { itemColumns, type ItemHeader, itemKinds } from '../../sheets/buying/offers.ts';
import { columnNames } from '../records/inputs.ts';
import { amount } from '../sheet/words.ts';
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

/** Items of one book: names count alike in any case, as everywhere in the book. */
export class Items {
  readonly #spellings = new Map<string, string>();

  constructor(book: Workbook) {
    for (const name of columnNames(book, plateSeries.name, plateSeries.key)) {
      this.#spelling('plates', String(name));
      this.#spelling('bolts', String(name));
    }
    for (const name of columnNames(book, strips.name, strips.key)) this.#spelling('strip', String(name));
  }

  #spelling(kind: ItemKind, name: string): string {
    const key = `${kind} ${name.trim().toLowerCase()}`;
    const known = this.#spellings.get(key) ?? name.trim();
    this.#spellings.set(key, known);
    return known;
  }

  item(kind: ItemKind, name: string, size?: number): Item {
    const called = nameless[kind] ?? this.#spelling(kind, name);
    return size === undefined || !sized.includes(kind)
      ? { kind, name: called }
      : { kind, name: called, length: settledSize(size) };
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
    return this.item(kind, name, size);
  }
}
