import { sheetRow } from '../formula/address.ts';
import type { Among } from '../formula/among.ts';
import { type CaseBook, CaseRoom, type CaseValues, same } from '../formula/case-values.ts';
import { caseFormula } from './case-formulas.ts';
import type { DueStep } from './dirty.ts';
import type { CellPlace } from './place.ts';
import { blockSize } from './record-blocks.ts';
import type { Records } from './records.ts';

/**
 * A sheet's formulas worked out over blocks of its records: the cases of the block kernel are the records, and what
 * lies beyond a row is the book itself.
 */

/** Records of a block below which they are worked out one by one: a block's own work is more than theirs. */
export const fewestInBlock = 8;

/** Room by its size, for all books: only one is worked out at a time. */
const rooms = new Map<number, CaseRoom>();

/** Room for so many cases. */
export function roomFor(count: number): CaseRoom {
  let size = 16;
  while (size < count) size *= 2;
  const room = rooms.get(size) ?? new CaseRoom(size);
  rooms.set(size, room);
  return room;
}

const everyIndex = Int32Array.from({ length: blockSize }, (_, index) => index);

/** The book as the formulas of a block see it: one for all of its records. */
export function caseBook(records: Records, room: CaseRoom): CaseBook {
  const named = new Map<string, CaseValues>();
  return {
    room,
    named(name) {
      let cases = named.get(name);
      if (cases === undefined) named.set(name, (cases = same(records.named(name))));
      return cases;
    },
    cell: (sheet, header, row) => same(records.cell(sheet, header, row)),
    column: (sheet, header) => records.reader(sheet, header),
    varies: () => false,
    in: () => records,
  };
}

/** The places of a block that are open to be worked out; all where nothing is `taken` and nothing else is asked. */
export function amongOpen(
  count: number,
  isOpen: (index: number) => boolean,
  taken: ReadonlySet<number> | undefined,
): Among {
  if (taken === undefined || taken.size === 0) return { at: everyIndex, count };
  const at = everyIndex.subarray(0, count).filter(isOpen);
  return { at, count: at.length };
}

/** The places in a block of the records that a step is due in, without those that hold something of the user's. */
function dueIn(
  { records, column }: DueStep,
  block: number,
  count: number,
  filled: ReadonlyMap<number, ReadonlySet<number>> | undefined,
): Among {
  const taken = filled?.get(column);
  const first = block * blockSize;
  if (records === 'all') return amongOpen(count, (index) => taken?.has(first + index) !== true, taken);
  const isDue = (index: number): boolean => records.has(first + index) && taken?.has(first + index) !== true;
  return amongOpen(count, isDue, records);
}

/**
 * Works out the steps that are due in a sheet, block by block; adds the cells that moved. `filled` are the records
 * whose computed cells hold something of the user's, by column.
 *
 * It may rest after each step of a block: what a step took of the room is given back by then.
 */
export function* computedBlocks(
  records: Records,
  sheet: string,
  due: readonly DueStep[],
  filled: ReadonlyMap<number, ReadonlySet<number>> | undefined,
  moved: CellPlace[] | undefined,
): Generator<void, void> {
  const values = records.sheet(sheet);
  for (let block = 0; block < values.blocks; block += 1) {
    const [count, cells] = [values.countIn(block), values.columns(block)];
    const book = caseBook(records, roomFor(count));
    const row = {
      cells,
      book,
      at: {
        of: 'numbers',
        values: Float64Array.from({ length: count }, (_, index) => sheetRow(block * blockSize + index)),
      },
    } as const;
    for (const step of due) {
      const among = dueIn(step, block, count, filled);
      if (among.count === 0) continue;
      const found = values.storeColumn(block, step.column, caseFormula(step)(row, among), among);
      book.room.free();
      step.moved ||= found.length > 0;
      if (moved !== undefined) for (const record of found) moved.push({ sheet, record, column: step.column });
      yield;
    }
  }
}
