import { beltPulleys, type MarkedPulley, type SeriesSkews, seriesSkews } from '../advice/belt-skews.ts';
import { seriesNames } from '../advice/skew-question.ts';
import type { BookState } from '../workbook/state.ts';
import type { Desk } from './desk.ts';
import { soon } from './idle.ts';

/** What the advisor says of one belt so far. */
export interface SkewProgress {
  readonly record: number;
  /** In the order of the book; undefined for a series that was not looked at yet. */
  readonly series: readonly { readonly name: string; readonly skews: SeriesSkews | undefined }[];
  readonly pulleys: readonly MarkedPulley[];
  /** False while what is shown may be of before the last change. */
  readonly complete: boolean;
}

/** Milliseconds of work before the page gets its turn again: a series takes about five, the first ones more. */
const slice = 20;
/** Milliseconds that a slice waits for its turn at most: someone is looking. */
const longestWait = 30;

/**
 * The advisor's work for the belt on show, one plate series at a time, so that the page stays quick.
 *
 * Nothing is done while nobody asks. After a change the old answers stay on show until the new ones come.
 */
export class SkewFeed {
  readonly #desk: Desk;
  #state: BookState | undefined;
  #progress: SkewProgress | undefined;
  #wanted: string[] = [];
  #waiting = false;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  /** What is known of a belt; asks for the rest. */
  of(record: number): SkewProgress {
    const { book } = this.#desk;
    const before = this.#progress;
    if (before?.record === record && this.#state === book.state) return before;
    const known =
      before?.record === record
        ? new Map(before.series.map(({ name, skews }) => [name, skews]))
        : new Map<string, SeriesSkews | undefined>();
    this.#state = book.state;
    const names = seriesNames(book).map(String);
    this.#wanted = [...names];
    const progress = {
      record,
      series: names.map((name) => ({ name, skews: known.get(name) })),
      pulleys: beltPulleys(book, record),
      complete: names.length === 0,
    };
    this.#progress = progress;
    if (!progress.complete) this.#start();
    return progress;
  }

  #start(): void {
    if (this.#waiting) return;
    this.#waiting = true;
    soon(() => {
      this.#waiting = false;
      this.#work();
    }, longestWait);
  }

  #work(): void {
    const { book } = this.#desk;
    // Another change has come meanwhile: whoever shows this asks anew.
    if (this.#state !== book.state) {
      this.#state = undefined;
      return;
    }
    const end = performance.now() + slice;
    while (this.#wanted.length > 0 && performance.now() < end) this.#next();
    if (this.#wanted.length > 0) this.#start();
    this.#desk.changed();
  }

  #next(): void {
    const name = this.#wanted.shift();
    const progress = this.#progress;
    if (name === undefined || progress === undefined) return;
    const skews = seriesSkews(this.#desk.book, progress.record, name, progress.pulleys);
    const series = progress.series.map((item) => (item.name === name ? { name, skews } : item));
    this.#progress = { ...progress, series, complete: this.#wanted.length === 0 };
  }
}
