import { laterPrices } from '../../sheets/buying/offers.ts';
import type { HeaderOf } from '../../sheets/index.ts';
import type { Answer, NumberLook } from '../sheet/laid-sheet.ts';
import { countLook, dayLook, moneyLook } from './form-rows.ts';
import { cellKey, cellKeyText } from './cell-key.ts';

/** What a supplier is asked in a request for quotation, cell by cell: what writes a form and reads it back. */

export type OfferHeader = HeaderOf<'Offers'>;

export interface AskedCell {
  /** The column of Offers that the answer goes to; 'pack' is either of pieces or of length. */
  readonly to: OfferHeader | 'pack';
  readonly title: string;
  readonly width: number;
  readonly answer: Answer;
  readonly look?: NumberLook;
}

const least = (kind: 'number' | 'count' | 'date', min: number, what: string): Answer => ({
  kind,
  min,
  message: `Enter ${what}.`,
});

const price: Answer = least('number', 0.0001, 'a price above 0, without tax, in the currency of this request');

/** Answers line by line. */
export const askedColumns: readonly AskedCell[] = [
  { to: 'Article number', title: 'Your article number', width: 14, answer: { kind: 'text' } },
  { to: 'pack', title: 'Pack of', width: 9, answer: least('number', 0.0001, 'how much one pack holds') },
  {
    to: 'Minimum packs',
    title: 'Minimum packs',
    width: 9,
    answer: least('count', 1, 'a whole number of packs'),
    look: countLook,
  },
  { to: 'Price', title: 'Price per pack', width: 10, answer: price, look: moneyLook },
  ...laterPrices.flatMap((tier): AskedCell[] => [
    {
      to: `Break ${tier}`,
      title: 'From packs',
      width: 8,
      answer: least('count', 2, 'a whole number of packs, 2 or more'),
      look: countLook,
    },
    { to: `Price ${tier}`, title: 'Price', width: 10, answer: price, look: moneyLook },
  ]),
  {
    to: 'Lead time',
    title: 'Lead time (days)',
    width: 9,
    answer: least('count', 1, 'days from order to delivery'),
    look: countLook,
  },
  { to: 'Bolts included', title: 'Bolts included', width: 9, answer: { kind: 'choice', choices: ['yes', 'no'] } },
];

/** Answers for the whole quotation. */
export const askedOnce: readonly AskedCell[] = [
  { to: 'Quote', title: 'Your quotation number', width: 0, answer: { kind: 'text' } },
  { to: 'Valid from', title: 'Valid from', width: 0, answer: least('date', 36_526, 'a date'), look: dayLook },
  { to: 'Valid until', title: 'Valid until', width: 0, answer: least('date', 36_526, 'a date'), look: dayLook },
];

/** What a hidden cell of a line says for the program. */
export interface RequestKey {
  readonly supplier: string;
  readonly currency: string;
  /** What the book calls the offer; '' where there is none yet. */
  readonly article: string;
  readonly kind: string;
  readonly name: string;
  readonly size: number | null;
  readonly units: string;
}

const mark = 'skewbook request 1';

export const keyText = (key: RequestKey): string => cellKeyText(mark, key);

/** The key that a cell holds; undefined for any other text. */
export function keyOf(text: string): RequestKey | undefined {
  const key = cellKey(mark, text);
  if (key === undefined) return undefined;
  const { word, figure } = key;
  return {
    supplier: word('supplier'),
    currency: word('currency'),
    article: word('article'),
    kind: word('kind'),
    name: word('name'),
    size: figure('size') ?? null,
    units: word('units'),
  };
}

export const requestSheet = 'Request';
