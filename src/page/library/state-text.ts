import type { BookRow, BookState, SheetState } from '../../workbook/state.ts';

/** Rows that become text together. Ours: a few milliseconds. */
const runLength = 200;

/** The fields of an object as JSON has them, each behind its name. */
function* fields<Item extends object>(
  item: Item,
  written: (key: string) => Iterable<string> | undefined,
): Generator<string> {
  let begun = false;
  for (const [key, value] of Object.entries(item)) {
    if (value === undefined) continue;
    yield `${begun ? ',' : '{'}${JSON.stringify(key)}:`;
    begun = true;
    yield* written(key) ?? [JSON.stringify(value)];
  }
  yield begun ? '}' : '{}';
}

function* listText<Item>(items: readonly Item[], text: (item: Item) => Iterable<string>): Generator<string> {
  yield '[';
  for (const [at, item] of items.entries()) {
    if (at > 0) yield ',';
    yield* text(item);
  }
  yield ']';
}

function* rowsText(rows: readonly BookRow[]): Generator<string> {
  if (rows.length === 0) yield '[]';
  for (let from = 0; from < rows.length; from += runLength) {
    const run = JSON.stringify(rows.slice(from, from + runLength)).slice(1, -1);
    const isLast = from + runLength >= rows.length;
    yield `${from === 0 ? '[' : ','}${run}${isLast ? ']' : ''}`;
  }
}

const sheetText = (sheet: SheetState): Iterable<string> =>
  fields(sheet, (key) => (key === 'rows' ? rowsText(sheet.rows) : undefined));

/** A book as JSON, the very text that `JSON.stringify` makes of it, in pieces: of a large one that takes seconds. */
export const stateText = (state: BookState): Iterable<string> =>
  fields(state, (key) => (key === 'sheets' ? listText(state.sheets, sheetText) : undefined));
