import { isoDate } from '../units/dates.ts';
import { counted } from '../units/phrases.ts';
import { assumption, reviewDate, withAssumption } from '../workbook/lent-sheets.ts';
import { dayFormula, isDayFormula, today } from '../workbook/present-day.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** What a planner must know of the day when a book is opened: ages count to another than when it was closed. */
export interface DayNote {
  readonly text: string;
  /** Belts that the note is about, for going there. */
  readonly belts: readonly { readonly name: string; readonly record: number }[];
  /** Whether the book counts to a day that is set, and could count to today. */
  readonly set: boolean;
}

/** Days that a book may be behind before anything is said. */
const unsaid = 1;

/** Milliseconds between two looks at the clock. */
const dayPause = 60_000;

interface DueJoints {
  readonly belts: DayNote['belts'];
  /** Belts of which nobody can say when their joint is due. */
  readonly unknown: number;
}

/** Belts whose joints reached their life after one day and until another. */
function dueBetween(book: Workbook, from: number, to: number): DueJoints {
  let unknown = 0;
  const belts = book.sheet('Belts').rows.flatMap((_, record) => {
    const due = book.read('Belts', record, 'Due');
    if (typeof due !== 'number') unknown += 1;
    if (typeof due !== 'number' || Math.floor(due) <= from || Math.floor(due) > to) return [];
    return [{ name: String(book.read('Belts', record, 'Belt') ?? ''), record }];
  });
  return { belts, unknown };
}

/** A date that is not known is no reason to be at ease, so it is said first. */
function dueWords({ belts: { length }, unknown }: DueJoints, since: string): string {
  const unsure = unknown === 0 ? '' : `The due date of ${counted(unknown, 'joint')} is not known. `;
  return length === 0
    ? `${unsure}${unknown === 0 ? 'No joint' : 'No other joint'} has reached its expected life since ${since}.`
    : `${unsure}${length === 1 ? 'One joint has' : `${length} joints have`} reached the expected life since ${since}:`;
}

/**
 * What is to be said of the day as the book is opened. `last` is the day on which it was stored last. Nothing of an
 * invented book: its days are invented too.
 */
export function dayNote(book: Workbook, last: number | undefined, now = today()): DayNote | undefined {
  if (book.state.invented) return undefined;
  const content = assumption(book.state, reviewDate);
  if (isDayFormula(content)) {
    if (last === undefined || now - last < unsaid) return undefined;
    const due = dueBetween(book, last, now);
    return {
      text: `This book was last changed on ${isoDate(last)}. Joint ages count to today, ${isoDate(now)}. ${dueWords(
        due,
        'then',
      )}`,
      belts: due.belts,
      set: false,
    };
  }
  const day = book.named(reviewDate);
  if (typeof day !== 'number' || now - Math.floor(day) < unsaid) return undefined;
  const due = dueBetween(book, Math.floor(day), now);
  return {
    text: `Joint ages count to ${isoDate(Math.floor(day))}, which is set as ReviewDate; today is ${isoDate(
      now,
    )}. ${dueWords(due, 'that day')}`,
    belts: due.belts,
    set: true,
  };
}

/** Lets the ages count to today from now on; one step to undo. */
export function countToToday(book: Workbook): void {
  book.replace(withAssumption(book.state, reviewDate, dayFormula), 'count to today');
}

/** Says once the day of an open page is over: what counts to today goes on with the day on which it was opened. */
export function followDay(book: Workbook, say: (note: DayNote) => void): void {
  const opened = today();
  const look = (): void => {
    if (today() === opened || !isDayFormula(assumption(book.state, reviewDate))) return;
    clearInterval(timer);
    say({
      text:
        `Today is ${isoDate(today())}; joint ages still count to ${isoDate(opened)}, when the page was opened. ` +
        `Reload the page to count to today.`,
      belts: [],
      set: false,
    });
  };
  const timer = setInterval(look, dayPause);
}
