import type { Finding } from '../../records/finding.ts';
import type { VerdictCounts } from '../../reference/findings-json.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { BookState } from '../../workbook/state.ts';
import type { ImportChoices, ImportProposal, ImportReport } from '../../xlsx/import/import-model.ts';
import type { LookAsked } from '../../xlsx/write/file-numbers.ts';
import type { FileLayout, MadeRows } from '../../xlsx/write/made-rows.ts';
import type { PartFacts } from '../../xlsx/import/list-parts.ts';
import type { DecimalMark } from '../../units/numbers.ts';
import type { PlacedText } from './text-runs.ts';

/** What is said between who deals a long list out and who works its parts out: data that threads can hand over. */

/** What every part of a list needs, from the first. */
export interface ListData {
  /** Bytes of the file, which threads share. */
  readonly bytes: Uint8Array;
  /** The file, as it was given. */
  readonly file: string;
  readonly title: string;
  /** The longest sheet, by its part of the file; a list that is a text has none. */
  readonly sheet: { readonly name: string; readonly hidden: boolean; readonly path?: string };
  /** How a list is read that is a text. */
  readonly text?: PlacedText;
  readonly choices: ImportChoices;
  /** What stands in for what the list lacks. */
  readonly base: BookState;
  readonly baseName: string;
  /** A book that lends its series and assumptions. */
  readonly other: BookState | undefined;
  readonly date: number | undefined;
  /** How findings are handed over. */
  readonly wanted: Wanted;
}

/** Findings as lines for people, as the items of JSON, or in lines of data, to be written into a book. */
export type Wanted = 'lines' | 'json' | 'data';

/** What is known of the list once all its rows were looked at. */
export interface ListPlan {
  readonly proposal: ImportProposal;
  readonly before: Uint8Array;
  /** The rows of the header. */
  readonly head: Uint8Array;
  readonly after: Uint8Array;
  readonly dates: ReadonlyMap<number, boolean>;
  /** Where names stand first that stand twice, by their marks. */
  readonly firsts: ReadonlyMap<string, { readonly row: number; readonly record: number }>;
  /** The mark that all numbers of a text agree on. */
  readonly decimal: DecimalMark | undefined;
  /** Of the file that the belts are to be rows of. */
  readonly layout?: FileLayout;
}

/** Rows of a list, as bytes of its file, by which a part of it is read. */
export interface PartRows {
  /** What stands before the rows, and behind them: without it just what closes the sheet. */
  readonly before: Uint8Array;
  readonly after?: Uint8Array;
  /** Rows of the header, of all but the first part. */
  readonly head: Uint8Array;
  readonly rows: Uint8Array;
  /** Number of the first of these. */
  readonly first: number;
  /** The decimal mark by which a text is read. */
  readonly decimal: DecimalMark | undefined;
}

/** A part that is to be looked at. */
export interface LookTask extends PartRows {
  readonly do: 'look';
  /** Whether it is the first of all. */
  readonly begins: boolean;
}

/** What a part shows, and the decimal marks that its texts do. */
export type LookedPart = PartFacts & { readonly decimals: ReadonlySet<DecimalMark> };

/** A part that is to be worked out. */
export interface CalculateTask {
  readonly do: 'calculate';
  readonly part: number;
  readonly firstRow: number;
  readonly rows: Uint8Array;
  /** Records of the list before it. */
  readonly records: number;
}

interface PlanTask {
  readonly do: 'plan';
  readonly plan: ListPlan;
}

export type PartTask = LookTask | PlanTask | CalculateTask;

export interface CountedText {
  readonly text: string;
  readonly count: number;
}

/** Numbers of looks that a thread met, by which its rows name them. */
export type NumberLooks = (looks: readonly LookAsked[]) => readonly number[];

/** What a part comes to. */
export interface PartResult {
  readonly report: ImportReport;
  readonly units: UnitSystem;
  /** The book's sheets in their order. */
  readonly sheets: readonly string[];
  /** The day that ages are counted to. */
  readonly day: string | undefined;
  readonly counts: VerdictCounts;
  /** Findings of checks, then of cells, the latter by sheet: as text, in the order in which they are told. */
  readonly checked: CountedText;
  readonly cells: readonly (CountedText & { readonly sheet: string })[];
  readonly buying: CountedText;
  readonly fails: boolean;
  /** How many belts have methods to compare; those of a name that stands twice by name. */
  readonly compared: number;
  readonly comparedTwice: readonly string[];
  /** The belts as rows of a file, where they were asked for. */
  readonly made?: MadeRows;
}

export type PartAnswer = LookedPart | PartResult | undefined;

/** Whoever carries out tasks on parts of one list. */
export interface PartWorkers {
  readonly look: (task: LookTask) => Promise<LookedPart>;
  readonly plan: (task: PlanTask) => Promise<void>;
  readonly calculate: (task: CalculateTask, numbers: NumberLooks) => Promise<PartResult>;
  /** How many parts are worked on at a time. */
  readonly count: number;
  readonly end: () => Promise<void>;
}

export type PlacedFinding = Finding & { readonly place: string };
