import { Calculation } from './calculation.ts';
import type { BookState } from './state.ts';
import { Workbook } from './workbook.ts';

/** Milliseconds of work before whoever waits gets their turn: less than a frame of a screen. */
const slice = 12;

/** The same work in slices, with a rest after each. */
export function* slices<Result>(
  parts: Generator<void, Result>,
  now: () => number = () => performance.now(),
): Generator<void, Result> {
  let end = now() + slice;
  for (;;) {
    const { done, value } = parts.next();
    if (done === true) return value;
    if (now() < end) continue;
    yield;
    end = now() + slice;
  }
}

/**
 * A book worked out in slices, with a rest after each: a page answers meanwhile. `rest` ends when the work may go on.
 *
 * A rest comes between the steps of a block, when what they share for all books (the room for a block's values) is free
 * again, so another book may be worked out meanwhile. Formulas of users wait for each other and are one slice.
 */
export async function workbookInParts(
  state: BookState,
  rest: () => Promise<void>,
  now?: () => number,
): Promise<Workbook> {
  const parts = slices(Calculation.inParts(state), now);
  for (;;) {
    const { done, value } = parts.next();
    if (done === true) return new Workbook(state, value);
    await rest();
  }
}
