import type { BookRow } from './state.ts';

/**
 * Lists of rows of which one was made from another by putting some rows in place of others, and in which rows two of
 * them differ: after an edit of one cell nobody need go through a hundred thousand rows to find it.
 */
type Rows = readonly BookRow[];

/** The records that were changed from list to list, one after the other. */
type Log = (readonly number[])[];

/** After so many changes of its log a list stands in. */
interface Place {
  readonly log: Log;
  readonly at: number;
}

const places = new WeakMap<Rows, Place>();

/** Changes that a log holds, and records of one: what is beyond is found by comparing all rows. Ours. */
const [longestLog, mostNoted] = [256, 1_000];

/** A list with other rows at some records; what is to stand where no row is, is left out. */
export function withRowsAt(rows: Rows, changes: Iterable<readonly [record: number, row: BookRow]>): Rows {
  const made = [...rows];
  const records: number[] = [];
  for (const [record, row] of changes) {
    if (made[record] === undefined) continue;
    made[record] = row;
    records.push(record);
  }
  if (records.length > mostNoted) return made;
  let place = places.get(rows);
  // A list from which another was made already, as before a change that was refused, begins a log of its own.
  if (place === undefined || place.at < place.log.length || place.at >= longestLog)
    places.set(rows, (place = { log: [], at: 0 }));
  place.log.push(records);
  places.set(made, { log: place.log, at: place.at + 1 });
  return made;
}

/** The records in which two lists have different rows, or only one of them has a row. */
export function differingRecords(before: Rows, now: Rows): number[] {
  if (before === now) return [];
  const differs = (record: number): boolean => before[record] !== now[record];
  const [one, other] = [places.get(before), places.get(now)];
  if (one !== undefined && one.log === other?.log) {
    const noted = one.log.slice(Math.min(one.at, other.at), Math.max(one.at, other.at)).flat();
    return [...new Set(noted)].filter(differs);
  }
  const found: number[] = [];
  for (let record = 0; record < Math.max(before.length, now.length); record += 1)
    if (differs(record)) found.push(record);
  return found;
}
