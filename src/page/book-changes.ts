import { slices } from '../workbook/opened-in-parts.ts';
import { RefusedChange } from '../workbook/refused-change.ts';
import type { BookState } from '../workbook/state.ts';
import type { Desk } from './desk.ts';
import { turnOfPage } from './idle.ts';

/** Changes of the book, as the page makes them. */

/** Does what changes the book; when the book refuses it, tells why and answers false. */
export function attempt(desk: Desk, change: () => unknown): boolean {
  try {
    change();
    return true;
  } catch (error) {
    if (!(error instanceof RefusedChange)) throw error;
    desk.say(error.message, 'problem');
    return false;
  }
}

/** Rows of a book up to which all of it is worked out at once: in some tenths of a second. Ours. */
const mostRowsAtOnce = 5_000;

const isLarge = ({ sheets }: BookState): boolean =>
  sheets.reduce((sum, { rows }) => sum + rows.length, 0) > mostRowsAtOnce;

/**
 * Makes a change after which all of the book is worked out anew. In a large book that goes on beside the page, which
 * shows the book as it was until it is done, and may stop it. `done` follows what was done, and nothing else; `to` is
 * the book that comes of it, where that may be much larger.
 */
export function changeAll(
  desk: Desk,
  what: string,
  change: () => unknown,
  done: () => void = () => undefined,
  to = desk.book.state,
): void {
  if (!isLarge(desk.book.state) && !isLarge(to)) {
    if (attempt(desk, change)) done();
    return;
  }
  if (desk.changing !== undefined) {
    desk.say(`"${what}" was not done: wait until "${desk.changing.what}" is done, or stop it.`, 'problem');
    return;
  }
  void changeInSlices(desk, what, change, done);
}

async function changeInSlices(desk: Desk, what: string, change: () => unknown, done: () => void): Promise<void> {
  const parts = desk.book.inParts(() => void change());
  let stopped = false;
  // Over a dialog nobody could stop it.
  desk.close();
  desk.changing = { what, stop: () => (stopped = true) };
  desk.changed();
  try {
    // The page shows that it is at work before it begins.
    await turnOfPage();
    for (const _ of slices(parts)) {
      await turnOfPage();
      if (!stopped) continue;
      desk.say(`"${what}" was stopped: the book is as it was.`);
      return;
    }
  } catch (error) {
    if (!(error instanceof RefusedChange)) throw error;
    desk.say(error.message, 'problem');
    return;
  } finally {
    parts.return();
    desk.changing = undefined;
    desk.changed();
  }
  done();
}
