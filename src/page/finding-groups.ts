import { belts } from '../../sheets/belts/index.ts';
import type { Finding } from '../records/finding.ts';
import type { Verdict } from '../functions/checks.ts';
import { verdictOrder } from './verdict-look.ts';

/** Findings of many records, put in as they are found; what is the same of several is told once. */

/** A finding, with the belts of which the same is to be said. */
export interface ListedFinding {
  /** The first of them, in whose words it is told. */
  readonly finding: Finding;
  readonly all: readonly Finding[];
  /** By which it is known again when the list is another. */
  readonly key: number;
}

/** The belts of which findings are told: those that a filter leaves, of an area. */
export interface Scope {
  readonly records: Pick<ReadonlySet<number>, 'has' | 'size'>;
  /** Belts in the book. */
  readonly of: number;
}

/** Which findings are asked for. */
interface Asked {
  readonly verdict: Verdict | undefined;
  /** '' for all. */
  readonly check: string;
}

/** What of the findings is listed. */
interface Listing {
  readonly listed: readonly ListedFinding[];
  /** How many there are, listed or not. */
  readonly count: number;
}

/** The worst first; what no verdict counts comes last. */
const severity = ({ verdict }: Finding): number =>
  verdict === 'compare' ? verdictOrder.length : verdictOrder.indexOf(verdict);

/** A text without the rows of the cells that it names, by which the same finding of two belts is known. */
const rowless = (text: string): string => text.replaceAll(/\b([A-Z]{1,3})\d+\b/g, '$1');

/** By which the same finding is known again. */
const sameness = ({ verdict, sheet, check, column, message, cures }: Finding): string =>
  JSON.stringify([verdict, sheet, check, column, rowless(message), ...cures.map(rowless)]);

/**
 * A number in a text's place: a hundred thousand belts' texts are kept once, in their findings. Of a million different
 * texts two share theirs once in some ten thousand books. Source: two multiplicative hashes (FNV-1a, 32 bits, with two
 * starting values), joined to 53 bits.
 */
function numbered(text: string): number {
  let [one, other] = [0x81_1c_9d_c5, 0x9e_37_79_b9];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    one = Math.imul(one ^ code, 0x01_00_01_93);
    other = Math.imul(other ^ code, 0x85_eb_ca_6b);
  }
  return (one >>> 0) * 2 ** 21 + ((other ^ (other >>> 15)) & 0x1f_ff_ff);
}

const keyOf = (finding: Finding): number => numbered(sameness(finding));

export class FindingGroups {
  readonly #byBelt: (readonly Finding[] | undefined)[] = [];
  #others: readonly Finding[] = [];
  readonly #groups = new Map<number, Finding[]>();
  readonly #checks = new Map<string, number>();
  /** Groups that were added to out of order. */
  readonly #unsorted = new Set<Finding[]>();
  #orderOfOthers: ReadonlyMap<Finding, number> = new Map();
  #first: First | undefined;
  /** Another one after each change. */
  version = 0;
  /** Findings, those that are the same counted one by one. */
  count = 0;

  /** The findings of one belt, in place of those that it had. */
  put(record: number, found: readonly Finding[]): void {
    for (const finding of this.#byBelt[record] ?? []) this.#take(finding);
    this.#byBelt[record] = found.length === 0 ? undefined : found;
    for (const finding of found) this.#add(finding);
    this.version += 1;
  }

  /** The findings of the other sheets. */
  putOthers(found: readonly Finding[]): void {
    for (const finding of this.#others) this.#take(finding);
    this.#others = found;
    this.#orderOfOthers = new Map(found.map((finding, order) => [finding, order]));
    for (const finding of found) this.#add(finding);
    this.version += 1;
  }

  /** Forgets the belts behind the last one. */
  shorten(belts: number): void {
    while (this.#byBelt.length > belts) {
      this.put(this.#byBelt.length - 1, []);
      this.#byBelt.length -= 1;
    }
  }

  /** All findings, belt by belt. */
  all(): Finding[] {
    return [...this.#byBelt.flatMap((own) => own ?? []), ...this.#others];
  }

  /** The checks that are named. */
  get checks(): readonly string[] {
    return [...this.#checks.keys()];
  }

  #add(finding: Finding): void {
    const key = keyOf(finding);
    const group = this.#groups.get(key);
    if (group === undefined) this.#groups.set(key, [finding]);
    else {
      const last = group.at(-1);
      if (last !== undefined && this.#place(last) > this.#place(finding)) this.#unsorted.add(group);
      group.push(finding);
    }
    this.count += 1;
    this.#checks.set(finding.check, (this.#checks.get(finding.check) ?? 0) + 1);
  }

  #take(finding: Finding): void {
    const key = keyOf(finding);
    const group = this.#groups.get(key);
    const at = group?.indexOf(finding) ?? -1;
    if (group === undefined || at < 0) return;
    group.splice(at, 1);
    if (group.length === 0) {
      this.#groups.delete(key);
      this.#unsorted.delete(group);
    }
    this.count -= 1;
    const left = (this.#checks.get(finding.check) ?? 1) - 1;
    if (left === 0) this.#checks.delete(finding.check);
    else this.#checks.set(finding.check, left);
  }

  /** Where a finding stands among those of its severity: belt by belt, then the other sheets. */
  #place(finding: Finding): number {
    return finding.sheet === belts.name ? finding.record : 2 ** 32 + (this.#orderOfOthers.get(finding) ?? 0);
  }

  /**
   * The first findings in question, the selected belt's before the others, then the worst.
   *
   * While only some of the belts are in question, findings of other sheets are not. Another belt is selected with each
   * entry, so all findings are gone through only when `version` is another than the last time: while findings are put
   * in all the time, whoever shows them says of which version a look will do.
   */
  list(asked: Asked, scope: Scope, selected: number | undefined, most = Infinity, version = this.version): Listing {
    const { count, ranked } = this.#firstOf(asked, scope, most, version);
    const own = this.#ownOf(asked, scope, selected);
    const groups = new Set(own.map(({ group }) => group));
    const others = ranked.filter(({ group }) => !groups.has(group));
    return { listed: [...own, ...others].slice(0, most).map(({ one }) => one), count };
  }

  /** The worst findings in question, whichever belt is selected, and how many there are in all. */
  #firstOf({ verdict, check }: Asked, { records, of }: Scope, most: number, version: number): First {
    const whole = records.size === of;
    const asked = [version, verdict, check, whole ? undefined : records, most];
    if (this.#first !== undefined && asked.every((part, at) => part === this.#first?.asked[at])) return this.#first;
    for (const group of this.#unsorted) group.sort((one, other) => this.#place(one) - this.#place(other));
    this.#unsorted.clear();
    let [count, worstKept] = [0, Infinity];
    let kept: Ranked[] = [];
    for (const [key, group] of this.#groups) {
      const [head] = group;
      if (head === undefined || !isAsked(head, { verdict, check })) continue;
      const finding = whole ? head : group.find((one) => isOf(one, records));
      if (finding === undefined) continue;
      count += 1;
      const rank = this.#rank(finding);
      if (rank >= worstKept) continue;
      kept.push({ group, rank, one: { finding, all: group, key } });
      if (kept.length < 4 * most) continue;
      kept = kept.sort(byRank).slice(0, most);
      worstKept = kept.at(-1)?.rank ?? Infinity;
    }
    const ranked = kept.sort(byRank).slice(0, most);
    this.#first = {
      asked,
      count,
      ranked: whole
        ? ranked
        : ranked.map(({ one: { finding, key }, group, rank }) => ({
            group,
            rank,
            one: { key, finding, all: group.filter((one) => isOf(one, records)) },
          })),
    };
    return this.#first;
  }

  /** What is said of one belt, whose finding then stands first in it. */
  #ownOf(asked: Asked, { records, of }: Scope, selected: number | undefined): Ranked[] {
    const own = new Map<Finding[], Ranked>();
    for (const finding of selected === undefined ? [] : (this.#byBelt[selected] ?? [])) {
      const key = keyOf(finding);
      const group = this.#groups.get(key);
      if (group === undefined || own.has(group) || !isAsked(finding, asked)) continue;
      const all = records.size === of ? group : group.filter((one) => isOf(one, records));
      if (!all.includes(finding)) continue;
      const others = all.filter((one) => one !== finding);
      own.set(group, { group, rank: this.#rank(finding), one: { finding, all: [finding, ...others], key } });
    }
    return [...own.values()].sort(byRank);
  }

  #rank(finding: Finding): number {
    return severity(finding) * 2 ** 36 + this.#place(finding);
  }
}

const isOf = ({ sheet, record }: Finding, records: Scope['records']): boolean =>
  sheet === belts.name && records.has(record);

const isAsked = (finding: Finding, { verdict, check }: Asked): boolean =>
  (verdict === undefined || finding.verdict === verdict) && (check === '' || finding.check === check);

const byRank = (one: Ranked, other: Ranked): number => one.rank - other.rank;

/** The first findings of a look, as long as the same is asked. */
interface First {
  readonly asked: readonly unknown[];
  readonly count: number;
  readonly ranked: readonly Ranked[];
}

interface Ranked {
  readonly group: Finding[];
  readonly one: ListedFinding;
  readonly rank: number;
}
