import type { Among } from '../formula/among.ts';
import { type CaseValues, caseValue, same } from '../formula/case-values.ts';
import { isFault, type Value } from '../formula/values.ts';

/**
 * A sheet's values in blocks of records: in each block a column is one value that all its records have, a row of
 * numbers or truths, or, where texts, errors and blanks stand among them, an array of values.
 *
 * An array a record took a pointer for every cell and an object for every number: 24 bytes where a number has 8, and
 * as much for the columns that nobody fills in, which are one value a block here. The formulas of a sheet run over
 * these blocks as they lie (case-kernel.ts).
 */

/** Records in a block: as many as keep the rows of a formula's numbers in the processor's nearest cache. */
export const blockSize = 512;

/** Rows that are kept as arrays while single records are worked on. */
const mostRows = 64;

const blank = same(null);

interface RecordBlock {
  readonly count: number;
  readonly columns: CaseValues[];
}

/** The same value in words that differ for any two that do: -0 is not 0. */
const isOne = (one: Value, other: Value): boolean => Object.is(one, other);

/** What a column's values of a block are gathered in before it is known what they are. */
const gathered = Array.from<Value>({ length: blockSize }).fill(null);

/** Values of so many records as a column holds them: those that are all numbers or all one lie together. */
export function packed(count: number, value: (index: number) => Value): CaseValues {
  const first = count === 0 ? null : value(0);
  let [alike, numbers] = [true, true];
  for (let index = 0; index < count; index += 1) {
    const one = index === 0 ? first : value(index);
    gathered[index] = one;
    alike &&= isOne(one, first);
    numbers &&= typeof one === 'number';
  }
  if (alike) return first === null ? blank : same(first);
  if (!numbers) return { of: 'mixed', values: gathered.slice(0, count) };
  const values = new Float64Array(count);
  for (let index = 0; index < count; index += 1) values[index] = Number(gathered[index]);
  return { of: 'numbers', values };
}

/** A column's values apart from the room that they were worked out in; nothing counts 0, as in any computed cell. */
function computedColumn(cases: CaseValues, count: number): CaseValues {
  switch (cases.of) {
    case 'same':
      return cases.value === null ? same(0) : cases;
    case 'numbers':
      return { of: 'numbers', values: cases.values.slice(0, count) };
    case 'truths':
      return { of: 'truths', values: cases.values.slice(0, count) };
    case 'mixed': {
      const values = cases.values.slice(0, count);
      for (let index = 0; index < count; index += 1) values[index] ??= 0;
      return { of: 'mixed', values };
    }
  }
}

/** A column after some of its records were worked out anew: the others keep what it held. */
export function mergedColumn(before: CaseValues, cases: CaseValues, count: number, among: Among): CaseValues {
  const after = computedColumn(cases, count);
  if (among.count === count) return after;
  const anew = new Set(among.at.subarray(0, among.count));
  return packed(count, (index) => caseValue(anew.has(index) ? after : before, index));
}

export const isSameValue = (left: Value, right: Value): boolean =>
  left === right || (isFault(left) && isFault(right) && left.code === right.code && left.message === right.message);

export class RecordBlocks {
  #count = 0;
  readonly #blocks: RecordBlock[] = [];
  /** Rows as arrays, each as its record is now. */
  readonly #rows = new Map<number, Value[]>();

  /** How many records there are. */
  get count(): number {
    return this.#count;
  }

  /** Takes a sheet's records, so many columns each; it may rest after each block. */
  *loading(count: number, width: number, value: (record: number, column: number) => Value): Generator<void, void> {
    this.#count = count;
    this.#blocks.length = 0;
    this.#rows.clear();
    for (let first = 0; first < count; first += blockSize) {
      const size = Math.min(blockSize, count - first);
      const columns = Array.from({ length: width }, (_, column) =>
        packed(size, (index) => value(first + index, column)),
      );
      this.#blocks.push({ count: size, columns });
      yield;
    }
  }

  value(record: number, column: number): Value {
    const values = this.#blocks[Math.floor(record / blockSize)]?.columns[column];
    return values === undefined ? null : caseValue(values, record % blockSize);
  }

  /** A column's values in some records, in their order; a record may be asked for several times. */
  gathered(column: number, records: Int32Array): CaseValues {
    let [before, value] = [-1, null as Value];
    return packed(records.length, (place) => {
      const record = records[place] ?? -1;
      if (record !== before) [before, value] = [record, this.value(record, column)];
      return value;
    });
  }

  /** Puts a value into a record that there is; others have no place. */
  store(record: number, column: number, value: Value): void {
    const block = this.#blocks[Math.floor(record / blockSize)];
    const index = record % blockSize;
    if (block === undefined || index >= block.count) return;
    const row = this.#rows.get(record);
    if (row !== undefined) row[column] = value;
    const held = block.columns[column] ?? blank;
    if (held.of === 'mixed') held.values[index] = value;
    else if (held.of === 'numbers' && typeof value === 'number') held.values[index] = value;
    else if (held.of === 'truths' && typeof value === 'boolean') held.values[index] = value ? 1 : 0;
    else if (held.of !== 'same' || !isOne(held.value, value))
      block.columns[column] = packed(block.count, (at) => (at === index ? value : caseValue(held, at)));
  }

  /** A record's values by column, kept as they change; not to be changed by others. */
  row(record: number): readonly Value[] {
    const known = this.#rows.get(record);
    if (known !== undefined) return known;
    const block = this.#blocks[Math.floor(record / blockSize)];
    const index = record % blockSize;
    if (block === undefined || index >= block.count) return [];
    const { columns } = block;
    const row: Value[] = [];
    for (let column = 0; column < columns.length; column += 1) row.push(caseValue(columns[column] ?? blank, index));
    if (this.#rows.size >= mostRows) this.#rows.clear();
    this.#rows.set(record, row);
    return row;
  }

  /** The columns of a block as they lie, to be read. */
  columns(block: number): readonly CaseValues[] {
    return this.#blocks[block]?.columns ?? [];
  }

  /** How many records a block has. */
  countIn(block: number): number {
    return this.#blocks[block]?.count ?? 0;
  }

  get blocks(): number {
    return this.#blocks.length;
  }

  /**
   * Takes over what was worked out of a column in some records of a block, by their places in it; others keep what they
   * hold. The records whose values moved.
   */
  storeColumn(block: number, column: number, cases: CaseValues, { at, count }: Among): readonly number[] {
    const held = this.#blocks[block];
    if (held === undefined) return [];
    const before = held.columns[column] ?? blank;
    const moved: number[] = [];
    if (cases.of === 'same' && before.of === 'same' && isSameValue(before.value, cases.value ?? 0)) return moved;
    const after = mergedColumn(before, cases, held.count, { at, count });
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      if (!isSameValue(caseValue(before, index), caseValue(after, index))) moved.push(block * blockSize + index);
    }
    if (moved.length === 0) return moved;
    this.#rows.clear();
    held.columns[column] = after;
    return moved;
  }
}
