import type { PulleyHeader } from '../../sheets/index.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { recordInRow, sheetRow } from '../formula/address.ts';
import { numberIn, textIn, type Value } from '../formula/values.ts';
import { amount } from '../sheet/words.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Belt, beltColumn } from './belt.ts';
import { NamingMemory } from './naming-memory.ts';

/** The pulleys that a belt's list has, one a row of the sheet of pulleys in the order of travel. */

export class ListedPulley {
  readonly #book: Workbook;
  readonly record: number;

  constructor(book: Workbook, record: number) {
    this.#book = book;
    this.record = record;
  }

  value(header: PulleyHeader): Value {
    return this.#book.read(pulleys.name, this.record, header);
  }

  number(header: PulleyHeader): number | undefined {
    return numberIn(this.value(header));
  }

  /** '' for what is not known. */
  text(header: PulleyHeader): string {
    return textIn(this.value(header));
  }

  place(header: PulleyHeader): CellPlace {
    return { sheet: pulleys.name, record: this.record, column: this.#book.column(pulleys.name, header) };
  }

  /** Its own name, or what it is; '' when neither is said. */
  get called(): string {
    return this.text('Pulley') || this.text('Pulley type');
  }

  /** What it is called, or which row it is. */
  get name(): string {
    return this.called === '' ? `pulley in row ${sheetRow(this.record)}` : this.called;
  }
}

/** A book from a file need not have every sheet. */
export const hasPulleySheet = (book: Workbook): boolean => book.state.sheets.some(({ name }) => name === pulleys.name);

/** The rows of each belt's pulleys, by its name without case. */
const ofBelts = new NamingMemory((book): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  for (const record of book.sheet(pulleys.name).rows.keys()) {
    const name = new ListedPulley(book, record).text('Belt').toLowerCase();
    const own = found.get(name);
    if (own === undefined) found.set(name, [record]);
    else own.push(record);
  }
  return found;
});

/** The rows of a belt's pulleys; none when it has no name or the book no such sheet. */
export function listedPulleys({ book, name }: Belt): ListedPulley[] {
  const wanted = name.toLowerCase();
  if (wanted === '' || !hasPulleySheet(book)) return [];
  const own = ofBelts.of(book, pulleys.name, book.column(pulleys.name, 'Belt')).get(wanted) ?? [];
  return own.map((record) => new ListedPulley(book, record));
}

/** The listed pulley that decides a check. */
export interface DecidingPulley {
  readonly name: string;
  readonly group: string;
  /** The tension that it stands under, with its unit. */
  readonly tension: string;
  /** The minimum diameter there, in the book's unit. */
  readonly least: number | undefined;
}

function deciding(pulley: ListedPulley, limit: PulleyHeader, { units }: Belt): DecidingPulley {
  const tension = pulley.number('Tension');
  return {
    name: pulley.called === '' ? 'listed' : pulley.called,
    group: pulley.text('Group used'),
    tension: tension === undefined ? 'an unknown tension' : amount(tension, beltColumn('Working tension'), units),
    least: pulley.number(limit),
  };
}

/** The listed pulley that is smallest for the carcass at its own tension; undefined for a belt without a list. */
export function carcassPulleyOf(belt: Belt): DecidingPulley | undefined {
  const row = belt.number('Carcass row');
  return row === undefined
    ? undefined
    : deciding(new ListedPulley(belt.book, recordInRow(row)), 'Carcass minimum pulley', belt);
}

/** The listed pulley that is smallest for the joint; undefined where the belt's own smallest pulley is. */
export function jointPulleyOf(belt: Belt): DecidingPulley | undefined {
  const [governing, smallest] = [belt.number('Critical pulley'), belt.number('Smallest pulley')];
  if (governing === undefined || governing === smallest) return undefined;
  const found = listedPulleys(belt).find((pulley) => pulley.number('Joint diameter') === governing);
  return found === undefined ? undefined : deciding(found, 'Joint minimum pulley', belt);
}
