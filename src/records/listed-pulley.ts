import { recordInRow } from '../formula/address.ts';
import type { PulleyHeader } from '../../sheets/index.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import type { Value } from '../formula/values.ts';
import { type Belt, beltColumn } from './belt.ts';
import { amount } from '../sheet/words.ts';

/** The pulley of a belt's list that decides a check. */
export interface ListedPulley {
  readonly name: string;
  readonly group: string;
  /** The tension that it stands under, with its unit. */
  readonly tension: string;
  /** The least diameter that would do there, in the book's unit. */
  readonly least: number | undefined;
}

const read = (belt: Belt, record: number, header: PulleyHeader): Value => belt.book.read(pulleys.name, record, header);

function listedPulley(belt: Belt, record: number, limit: PulleyHeader): ListedPulley {
  const [tension, least] = [read(belt, record, 'Tension'), read(belt, record, limit)];
  return {
    name: String(read(belt, record, 'Pulley') ?? ''),
    group: String(read(belt, record, 'Group used')),
    tension:
      typeof tension === 'number' ? amount(tension, beltColumn('Working tension'), belt.units) : 'an unknown tension',
    least: typeof least === 'number' ? least : undefined,
  };
}

/** The listed pulley that is smallest for the carcass at its own tension; undefined for a belt without a list. */
export function carcassPulleyOf(belt: Belt): ListedPulley | undefined {
  const row = belt.number('Carcass row');
  return row === undefined ? undefined : listedPulley(belt, recordInRow(row), 'Carcass pulley');
}

/** The listed pulley that is smallest for the joint; undefined where the belt's own smallest pulley is. */
export function jointPulleyOf(belt: Belt): ListedPulley | undefined {
  const [governing, smallest] = [belt.number('Governing pulley'), belt.number('Smallest pulley')];
  if (governing === undefined || governing === smallest) return undefined;
  const name = String(belt.value('Belt')).toLowerCase();
  const record = belt.book
    .sheet(pulleys.name)
    .rows.findIndex(
      (_, place) =>
        String(read(belt, place, 'Belt')).toLowerCase() === name && read(belt, place, 'Joint diameter') === governing,
    );
  return record < 0 ? undefined : listedPulley(belt, record, 'Joint pulley');
}
