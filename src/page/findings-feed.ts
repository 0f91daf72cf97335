import { recordsFindings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import { recordInputIssues } from '../records/input-issues.ts';
import { declarationOf } from '../workbook/declared.ts';
import type { BookChange, CellPlace } from '../workbook/place.ts';
import type { Desk } from './desk.ts';
import { atRest, inputWaits } from './idle.ts';

/**
 * Findings kept up to date beside typing.
 *
 * Each belt's findings are kept; a change asks anew only for the belts it touched, in slices of time in which nobody
 * types or scrolls. A change of another sheet, or of a belt's name, may be quoted anywhere, so then all belts are asked
 * anew.
 */
const beltsSheet = 'Belts';
/** Milliseconds of work before the page gets its turn again. */
const slice = 6;
/** Belts asked together at most: more save nothing. Fewer are, where so many take longer than a slice. */
const mostAtOnce = 16;
/** The one on show and one that was typed into. */
const mostAmidTyping = 2;
/** While many belts are being asked, the list is shown anew this often at first, and then ever more seldom. */
const showEvery = 400;
/** Shares of the time that has gone by since the asking began: what is shown of a large book takes longer to list. */
const showShare = 0.25;

export class FindingsFeed {
  readonly #desk: Desk;
  #dirty = new Set<number>();
  /** Of these, those that were changed by themselves: they are asked before the others. */
  #typed = new Set<number>();
  #othersDirty = true;
  #waiting = false;
  /** As many as took about a slice the last time. */
  #atOnce = mostAtOnce;
  #shown = 0;
  #begun = 0;

  constructor(desk: Desk) {
    this.#desk = desk;
  }

  listen(): void {
    this.#desk.book.listen((change) => this.#follow(change));
    this.#all();
  }

  #follow({ cells }: BookChange): void {
    if (cells === 'all' || cells.some((place) => this.#quotedElsewhere(place))) {
      this.#all();
      return;
    }
    for (const { sheet, record } of cells)
      if (sheet === beltsSheet) {
        this.#dirty.add(record);
        this.#typed.add(record);
      }
    if (this.#dirty.size === 0) return;
    // What the list says of these belts is of before the change.
    this.#desk.findings = { ...this.#desk.findings, complete: false };
    this.#start();
  }

  #quotedElsewhere({ sheet, column }: CellPlace): boolean {
    const declaration = declarationOf(sheet);
    return sheet === beltsSheet ? declaration?.columns[column]?.header === declaration?.key : declaration !== undefined;
  }

  #all(): void {
    const { length } = this.#desk.book.sheet(beltsSheet).rows;
    this.#desk.findings.groups.shorten(length);
    this.#begun = performance.now();
    for (let record = 0; record < length; record += 1) this.#dirty.add(record);
    for (const record of this.#dirty) if (record >= length) this.#dirty.delete(record);
    this.#othersDirty = true;
    this.#desk.findings = { ...this.#desk.findings, complete: false };
    this.#start();
  }

  #start(): void {
    if (this.#waiting) return;
    this.#waiting = true;
    atRest((resting) => {
      this.#waiting = false;
      this.#work(resting);
    });
  }

  /** Belts to be asked: the one on show first, then what was typed into. */
  *#inOrder(): Generator<number> {
    if (this.#dirty.has(this.#desk.lastBelt)) yield this.#desk.lastBelt;
    for (const record of this.#typed) if (this.#dirty.has(record)) yield record;
    yield* this.#dirty;
  }

  /** While somebody types or scrolls, only those belts are asked that are looked at. */
  #work(resting: boolean): void {
    const {
      book,
      findings: { groups },
    } = this.#desk;
    let began = performance.now();
    const end = resting ? began + slice : began;
    while (this.#dirty.size > 0 && began <= end && !inputWaits()) {
      const some = new Set<number>();
      for (const record of this.#inOrder()) {
        some.add(record);
        if (some.size === (resting ? this.#atOnce : mostAmidTyping)) break;
      }
      const found = recordsFindings(book, [...some]);
      for (const record of some) {
        groups.put(record, found.get(record) ?? []);
        this.#dirty.delete(record);
        this.#typed.delete(record);
      }
      const now = performance.now();
      const fitting = Math.floor((some.size * slice) / Math.max(now - began, 0.1));
      this.#atOnce = Math.min(mostAtOnce, 2 * this.#atOnce, Math.max(1, fitting));
      began = now;
    }
    const complete = this.#dirty.size === 0;
    if (complete && this.#othersDirty) {
      this.#othersDirty = false;
      groups.putOthers([
        ...book.state.sheets.flatMap(({ name, rows }) =>
          name === beltsSheet || declarationOf(name) === undefined
            ? []
            : rows.flatMap((_, record) => recordInputIssues(book, name, record)),
        ),
        ...buyingFindings(book),
      ]);
    }
    if (!complete) this.#start();
    const now = performance.now();
    if (complete || now - this.#shown > Math.max(showEvery, showShare * (now - this.#begun))) this.#show(complete);
  }

  #show(complete: boolean): void {
    this.#shown = performance.now();
    const { groups } = this.#desk.findings;
    this.#desk.findings = { groups, version: groups.version, complete };
    this.#desk.changed();
  }
}
