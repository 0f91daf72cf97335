import { columnLetters } from '../formula/address.ts';
import type { FilledSheet } from './request-answers.ts';
import { cellKey, cellKeyText } from './cell-key.ts';

/** What a hidden cell of an order's line says for the program, so that an order that was sent can be entered. */
export interface OrderKey {
  readonly order: string;
  readonly line: number;
  readonly supplier: string;
  /** What the book calls the offer. */
  readonly article: string;
  readonly kind: string;
  readonly name: string;
  readonly size: number | null;
  /** Days as serial numbers. */
  readonly ordered: number;
  readonly expected: number;
  readonly units: string;
}

/** A line of an order's file, with the packs and the price that stand in it now. */
export interface PlacedOrderLine {
  readonly cell: string;
  readonly key: OrderKey;
  readonly packs: number;
  readonly pack: number;
  readonly price: number;
}

/** Where an order's cells stand, counted from 1. */
const orderPlaces = { delivery: 5, packs: 6, pack: 7, price: 9, amount: 10, key: 11 } as const;

const mark = 'skewbook order 1';

export const orderKeyText = (key: OrderKey): string => cellKeyText(mark, key);

function orderKeyOf(text: string): OrderKey | undefined {
  const key = cellKey(mark, text);
  if (key === undefined) return undefined;
  const { word, figure } = key;
  const [line, ordered, expected] = [figure('line'), figure('ordered'), figure('expected')];
  if (line === undefined || ordered === undefined || expected === undefined) return undefined;
  return {
    order: word('order'),
    line,
    supplier: word('supplier'),
    article: word('article'),
    kind: word('kind'),
    name: word('name'),
    size: figure('size') ?? null,
    ordered,
    expected,
    units: word('units'),
  };
}

/**
 * The lines of an order in a file's sheets; none where it is no order of ours. A day that was moved counts as moved.
 */
export function placedOrderLines(sheets: readonly FilledSheet[]): PlacedOrderLine[] {
  return sheets.flatMap(({ name, rows }) =>
    [...rows].flatMap(([row, cells]): PlacedOrderLine[] => {
      const value = (column: number): unknown => cells.find((cell) => cell.column === column)?.value;
      const key = orderKeyOf(String(value(orderPlaces.key) ?? ''));
      const [packs, pack, price] = [orderPlaces.packs, orderPlaces.pack, orderPlaces.price].map((column) =>
        Number(value(column)),
      );
      if (key === undefined || packs === undefined || pack === undefined || price === undefined) return [];
      if (![packs, pack, price].every(Number.isFinite)) return [];
      const delivery = value(orderPlaces.delivery);
      return [
        {
          cell: `${name}!${columnLetters(0)}${row}`,
          key: typeof delivery === 'number' ? { ...key, expected: Math.floor(delivery) } : key,
          packs,
          pack,
          price,
        },
      ];
    }),
  );
}
