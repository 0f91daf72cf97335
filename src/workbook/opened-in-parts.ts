import { Calculation } from './calculation.ts';
import type { BookState } from './state.ts';
import { Workbook } from './workbook.ts';

/** Milliseconds of work before whoever waits gets their turn: less than a frame of a screen. */
const slice = 12;

/**
 * A book worked out in slices, with a rest after each: a page answers meanwhile. `rest` ends when the work may go on.
 *
 * The state is data that nobody changes, and no other book may be worked out in a rest's time within the same step of a
 * block, which none is: a rest comes between steps.
 */
export async function workbookInParts(
  state: BookState,
  rest: () => Promise<void>,
  now: () => number = () => performance.now(),
): Promise<Workbook> {
  const parts = Calculation.inParts(state);
  let end = now() + slice;
  for (;;) {
    const { done, value } = parts.next();
    if (done === true) return new Workbook(state, value);
    if (now() < end) continue;
    await rest();
    end = now() + slice;
  }
}
