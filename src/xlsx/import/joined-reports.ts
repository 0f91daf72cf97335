import { seriesWords } from './name-remarks.ts';
import { type CountedNote, countedWords, namedRows } from './counted-notes.ts';
import type { ImportReport, NotUnderstood, ReadingRemark, TableReport } from './import-model.ts';
import { type BlankInput, lackingInputs } from './usual-values.ts';

/** The report of a long list from those of its parts, in their order: the same as of the list read whole. */

const sameNote = (one: CountedNote, other: CountedNote): boolean =>
  one.what === other.what &&
  (one.what === 'filled' || ('sheet' in other && one.sheet === other.sheet)) &&
  ('header' in one ? 'header' in other && one.header === other.header : true);

function addedNotes(one: CountedNote, other: CountedNote): CountedNote {
  const count = one.count + other.count;
  return one.what === 'hidden' && other.what === 'hidden'
    ? { ...one, count, rows: [...one.rows, ...other.rows].slice(0, namedRows) }
    : { ...one, count };
}

/** A sentence, or what counts records and makes one. */
type Assumed = string | CountedNote;

/** Adds what a part assumed: behind what is like it, else behind what stood before it in its part. */
function addAssumed(all: Assumed[], { assumed, tallies }: ImportReport): void {
  const notes = new Map((tallies?.counted ?? []).map((note) => [countedWords(note), note]));
  let at = -1;
  for (const text of assumed) {
    const note = notes.get(text);
    const known = all.findIndex((item) =>
      note === undefined ? item === text : typeof item !== 'string' && sameNote(item, note),
    );
    if (known >= 0) {
      const item = all[known];
      if (note !== undefined && item !== undefined && typeof item !== 'string') all[known] = addedNotes(item, note);
      at = known;
      continue;
    }
    const alike =
      note === undefined ? -1 : all.findLastIndex((item) => typeof item !== 'string' && item.what === note.what);
    at = (alike >= 0 ? alike : at) + 1;
    all.splice(at, 0, note ?? text);
  }
}

function addedTable(one: TableReport | undefined, other: TableReport): TableReport {
  if (one === undefined) return other;
  const derived = [...new Set([...(one.derived ?? []), ...(other.derived ?? [])])];
  return {
    ...one,
    records: one.records + other.records,
    columns: one.columns.map((column, index) => ({
      ...column,
      filled: column.filled + (other.columns[index]?.filled ?? 0),
    })),
    ...(derived.length === 0 ? {} : { derived }),
  };
}

const addedBlanks = (one: readonly BlankInput[], other: readonly BlankInput[]): BlankInput[] =>
  one.map(({ column, blank, belts }) => {
    const more = other.find((item) => item.column === column);
    return { column, blank: blank + (more?.blank ?? 0), belts: belts + (more?.belts ?? 0) };
  });

/** Remarks by cells, then those of names, then those of series, of which each is told once with how many name it. */
function orderedRemarks(remarks: readonly ReadingRemark[]): ReadingRemark[] {
  const series = new Map<string, ReadingRemark>();
  for (const remark of remarks) {
    if (typeof remark.of !== 'object') continue;
    const before = series.get(remark.given)?.of;
    const count = remark.of.seriesOf + (typeof before === 'object' ? before.seriesOf : 0);
    series.set(remark.given, {
      ...(series.get(remark.given) ?? remark),
      what: seriesWords(remark.given, count),
      of: { seriesOf: count },
    });
  }
  return [
    ...remarks.filter(({ of }) => of === undefined),
    ...remarks.filter(({ of }) => of === 'names'),
    ...series.values(),
  ];
}

/**
 * Texts that cells have alike, each once: threads hand over a copy with every cell, and a column of a million slips
 * would hold a million of each.
 */
class AlikeTexts {
  readonly #known = new Map<string, string>();

  #kept(text: string): string {
    const known = this.#known.get(text);
    if (known === undefined) this.#known.set(text, text);
    return known ?? text;
  }

  remark(item: ReadingRemark): ReadingRemark {
    return { ...item, ...this.#place(item), what: this.#kept(item.what) };
  }

  notUnderstood(item: NotUnderstood): NotUnderstood {
    return { ...item, ...this.#place(item), why: this.#kept(item.why), allowed: this.#kept(item.allowed) };
  }

  #place({ sheet, column, given }: ReadingRemark | NotUnderstood): Pick<ReadingRemark, 'sheet' | 'column' | 'given'> {
    return { sheet: this.#kept(sheet), column: this.#kept(column), given: this.#kept(given) };
  }
}

/** Gathers the reports of a list's parts, whose belts stand in one sheet of the file. */
export class JoinedReports {
  readonly #sheet: string;
  readonly #target: string;
  #first: ImportReport | undefined;
  #table: TableReport | undefined;
  #blanks: readonly BlankInput[] = [];
  readonly #assumed: Assumed[] = [];
  readonly #remarks: ReadingRemark[] = [];
  readonly #notUnderstood: NotUnderstood[] = [];
  readonly #alike = new AlikeTexts();

  constructor(sheet: string, target: string) {
    this.#sheet = sheet;
    this.#target = target;
  }

  add(report: ImportReport): void {
    const first = this.#first === undefined;
    this.#first ??= report;
    const table = report.tables.find(({ sheet, target }) => sheet === this.#sheet && target === this.#target);
    if (table !== undefined) this.#table = addedTable(this.#table, table);
    const { blanks = [] } = report.tallies ?? {};
    this.#blanks = first ? blanks : addedBlanks(this.#blanks, blanks);
    addAssumed(this.#assumed, report);
    // What other sheets hold is read again with each part, and told once.
    const own = <Item extends { readonly sheet: string }>(items: readonly Item[]): readonly Item[] =>
      first ? items : items.filter(({ sheet }) => sheet === this.#sheet);
    for (const item of own(report.remarks)) this.#remarks.push(this.#alike.remark(item));
    for (const item of own(report.notUnderstood)) this.#notUnderstood.push(this.#alike.notUnderstood(item));
  }

  get joined(): ImportReport | undefined {
    const report = this.#first;
    const table = this.#table;
    if (report === undefined || table === undefined) return undefined;
    return {
      ...report,
      tables: report.tables.map((item) => (item.sheet === this.#sheet && item.target === this.#target ? table : item)),
      assumed: this.#assumed.map((item) => (typeof item === 'string' ? item : countedWords(item))),
      remarks: orderedRemarks(this.#remarks),
      notUnderstood: this.#notUnderstood,
      lacking: lackingInputs(this.#blanks),
    };
  }
}
