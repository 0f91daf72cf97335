import { belts } from '../../sheets/belts/index.ts';
import { type Verdict, verdictOf } from '../functions/checks.ts';
import { isEmptyRecord } from '../records/input-issues.ts';
import type { BookChange } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { verdictOrder } from './verdict-look.ts';

/**
 * What every belt's verdict and area is, kept beside the book: a change looks again at the belts that it touched, so
 * that no drawing of the page goes through all of them.
 */
class BeltOverview {
  readonly #book: Workbook;
  /** By record: 0 for an empty line, else one more than the verdict's place in their order. */
  #verdicts = new Uint8Array(0);
  /** By record: the area's place among the areas. */
  #areas = new Uint32Array(0);
  /** By the same place: how many records stand in the area; by what `#verdicts` holds: how many have it. */
  #inArea: number[] = [];
  #withVerdict: number[] = [];
  #names: string[] = [];
  #places = new Map<string, number>();
  /** Records to be looked at again; undefined for all. */
  #touched: Set<number> | undefined;
  #listed: { readonly version: number; readonly names: readonly string[] } | undefined;
  /** Another one after each change that this tells of. */
  #version = 0;

  constructor(book: Workbook) {
    this.#book = book;
    book.listen((change) => this.#follow(change));
  }

  #follow({ cells }: BookChange): void {
    if (cells === 'all') this.#touched = undefined;
    else for (const { sheet, record } of cells) if (sheet === belts.name) this.#touched?.add(record);
  }

  #refresh(): void {
    if (this.#touched?.size === 0) return;
    const { length } = this.#book.sheet(belts.name).rows;
    if (this.#touched === undefined) {
      this.#verdicts = new Uint8Array(length);
      this.#areas = new Uint32Array(length);
      this.#names = [''];
      this.#places = new Map([['', 0]]);
      // Before it is looked at each record is an empty line without an area.
      [this.#inArea, this.#withVerdict] = [[length], [length]];
      for (let record = 0; record < length; record += 1) this.#look(record);
      this.#version += 1;
    } else for (const record of this.#touched) if (this.#look(record)) this.#version += 1;
    this.#touched = new Set();
  }

  /** Looks at a belt; whether it is another than before. */
  #look(record: number): boolean {
    const isBelt = !isEmptyRecord(this.#book.sheet(belts.name).rows[record]?.cells ?? []);
    const verdict = isBelt ? 1 + verdictOrder.indexOf(verdictOf(this.#book.read(belts.name, record, 'Verdict'))) : 0;
    const name = String(this.#book.read(belts.name, record, 'Area') ?? '');
    let area = this.#places.get(name);
    if (area === undefined) {
      area = this.#names.push(name) - 1;
      this.#places.set(name, area);
    }
    const [before, stood] = [this.#verdicts[record] ?? 0, this.#areas[record] ?? 0];
    if (before === verdict && stood === area) return false;
    moveOne(this.#withVerdict, before, verdict);
    moveOne(this.#inArea, stood, area);
    this.#verdicts[record] = verdict;
    this.#areas[record] = area;
    return true;
  }

  get version(): number {
    this.#refresh();
    return this.#version;
  }

  get belts(): number {
    this.#refresh();
    return this.#verdicts.length - (this.#withVerdict[0] ?? 0);
  }

  /** Records that hold something. */
  isBelt(record: number): boolean {
    this.#refresh();
    return (this.#verdicts[record] ?? 0) > 0;
  }

  /** The areas that belts stand in, in the order in which they are first named. */
  areas(): readonly string[] {
    this.#refresh();
    if (this.#listed?.version !== this.#version) {
      const names = this.#names.filter((name, place) => name !== '' && (this.#inArea[place] ?? 0) > 0);
      this.#listed = { version: this.#version, names };
    }
    return this.#listed.names;
  }

  /** The records of belts in an area; '' for all. */
  recordsIn(area: string): number[] {
    this.#refresh();
    const place = area === '' ? undefined : (this.#places.get(area) ?? -1);
    const found: number[] = [];
    this.#verdicts.forEach((verdict, record) => {
      if (verdict > 0 && (place === undefined || this.#areas[record] === place)) found.push(record);
    });
    return found;
  }

  /** How many belts have each verdict; of all, or of some records. */
  counts(among?: Iterable<number>): Readonly<Record<Verdict, number>> {
    this.#refresh();
    const counts: Record<Verdict, number> = { fits: 0, tight: 0, fails: 0, 'not known': 0 };
    if (among === undefined)
      verdictOrder.forEach((word, place) => {
        counts[word] = this.#withVerdict[place + 1] ?? 0;
      });
    else
      for (const record of among) {
        const word = verdictOrder[(this.#verdicts[record] ?? 0) - 1];
        if (word !== undefined) counts[word] += 1;
      }
    return counts;
  }
}

/** Counts one less at a place and one more at another. */
function moveOne(counts: number[], from: number, to: number): void {
  counts[from] = (counts[from] ?? 0) - 1;
  counts[to] = (counts[to] ?? 0) + 1;
}

const overviews = new WeakMap<Workbook, BeltOverview>();

export function overviewOf(book: Workbook): BeltOverview {
  const kept = overviews.get(book);
  if (kept !== undefined) return kept;
  const made = new BeltOverview(book);
  overviews.set(book, made);
  return made;
}
