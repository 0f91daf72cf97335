import type { DateOrder } from '../../units/dates.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { DecimalMark } from '../../units/reading.ts';
import type { BookState, RecordsBefore } from '../../workbook/state.ts';
import type { CountedNote } from './counted-notes.ts';
import type { RowChoices, SkippedRow } from './table-rows.ts';
import type { BlankInput, LackingInput } from './usual-values.ts';

/**
 * What import proposes, what the user may choose, and what it reports: plain data, for the page and the command line.
 */

/** From where a list counts the skew of a joint: 0 is square from the square line, 90 from the belt's edge. */
export type SkewOrigin = 'square' | 'edge';

/** What the user says of a list before it is looked at. */
export interface ImportChoices extends RowChoices {
  /** Header of the list (or its column letters) and what it means: a declared column, 'own' or 'ignore'. */
  readonly map?: readonly { readonly header: string; readonly to: string }[];
  /** Sheets that hold belts; the others are then kept as free sheets. */
  readonly sheets?: readonly string[];
  /** Last row of the header, of the sheets of belts. */
  readonly headerRow?: number;
  readonly decimal?: DecimalMark;
  readonly dateOrder?: DateOrder;
  /** System of the book to make. */
  readonly units?: UnitSystem;
  readonly skewFrom?: SkewOrigin;
  /** What stands for blank cells of a declared column of belts. */
  readonly fill?: readonly { readonly column: string; readonly value: string }[];
  /** What a text of a declared column of belts stands for, as "NONE" for bare steel. */
  readonly values?: readonly ValueChoice[];
}

/** A text of a list that the user says the meaning of; compared without case. */
export interface ValueChoice {
  /** Header of the declared column. */
  readonly column: string;
  readonly from: string;
  readonly to: string;
}

export type UnitOrigin = 'header' | 'units row' | 'cells' | 'number format' | 'list' | 'plausible' | 'chosen';

export interface ColumnProposal {
  /** Letters of the list's column; of its row, counted from 1, where the list is turned. */
  readonly letter: string;
  /** As the list writes it, titles above it included; '' for a column without a header. */
  readonly header: string;
  /** Header of a declared column, 'own' to keep it as the user's, or 'ignore'. */
  readonly target: string;
  /** Unit of its plain numbers, by symbol. */
  readonly unit?: string;
  readonly unitFrom?: UnitOrigin;
  /** Absent where the cells show both or neither: then each cell must be clear by itself. */
  readonly decimal?: DecimalMark;
  readonly dateOrder?: DateOrder;
  /** 'unclear' where cells contradict each other: then no number of the column is taken. */
  readonly skewFrom?: SkewOrigin | 'unclear';
  /** How sure the match is, 0 to 1; 0 for columns kept or left out. */
  readonly confidence: number;
  readonly why: string;
  readonly suggestions: readonly { readonly target: string; readonly confidence: number }[];
}

export interface TableProposal {
  /** Sheet of the file. */
  readonly sheet: string;
  readonly hidden: boolean;
  /** A declared sheet's name, 'free' to keep it as a sheet of the user's, or 'ignore'. */
  readonly target: string;
  readonly why: string;
  /** Records stand in columns, headers in the first column. Rows below then count columns of the file. */
  readonly turned: boolean;
  /** First and last row of the header; 0 for a free sheet. */
  readonly headerTop: number;
  readonly headerRow: number;
  readonly unitsRow?: number;
  /** Last row of the list. */
  readonly lastRow: number;
  /** Rows that are no records. */
  readonly skipped: readonly SkippedRow[];
  /** Where Area comes from when no column holds it. */
  readonly areaFrom?: 'sheet name' | 'headings';
  /** The system that its columns without units are taken to be in. */
  readonly units: UnitSystem;
  readonly columns: readonly ColumnProposal[];
}

export interface ImportProposal {
  /** The book is an export of this program: it is read exactly, and the tables say only what was found. */
  readonly ours: boolean;
  readonly units: UnitSystem;
  readonly unitsWhy: string;
  readonly tables: readonly TableProposal[];
  readonly fill: readonly { readonly column: string; readonly value: string }[];
  readonly values: readonly ValueChoice[];
  /** What was decided without the list saying so. */
  readonly assumed: readonly string[];
}

/** A cell whose content could not be taken as what its column holds. */
export interface NotUnderstood {
  readonly sheet: string;
  readonly cell: string;
  readonly column: string;
  readonly given: string;
  readonly why: string;
  readonly allowed: string;
}

/** A cell that was understood, and what that leaves unsaid. */
export interface ReadingRemark {
  readonly sheet: string;
  readonly cell: string;
  readonly column: string;
  readonly given: string;
  readonly what: string;
  /** Of what no cell alone shows: names that stand twice or nowhere, series that a number of records name. */
  readonly of?: 'names' | { readonly seriesOf: number };
}

/** Records that stand in other parts of a list before those at hand. */
export interface EarlierRecords extends RecordsBefore {
  /** Where a name was met first in them, as "Fleet A5", by `nameWord`. */
  readonly place: (word: string) => string | undefined;
  /** Whether all cells of a column of the list are days, by the column's number. */
  readonly dates: ReadonlyMap<number, boolean>;
}

export interface ColumnReport extends ColumnProposal {
  /** Filled cells of the records. */
  readonly filled: number;
  /** Formulas that live on in the book. */
  readonly formulas: number;
  /** Formulas of which only the value was taken, and why; the first such cell. */
  readonly values: number;
  readonly valuesWhy?: string;
  readonly firstValue?: string;
}

export interface TableReport extends Omit<TableProposal, 'columns'> {
  readonly records: number;
  readonly columns: readonly ColumnReport[];
  /** Name that the sheet has in the book, where it is kept as a free one. */
  readonly kept?: string;
  /** Declared columns that have no column of the list but are filled from what others say. */
  readonly derived?: readonly string[];
}

export interface ImportReport {
  readonly ours: boolean;
  /** The mark that an export of ours carries. */
  readonly mark?: string | undefined;
  readonly units: UnitSystem;
  readonly unitsWhy: string;
  readonly tables: readonly TableReport[];
  readonly notUnderstood: readonly NotUnderstood[];
  readonly remarks: readonly ReadingRemark[];
  readonly assumed: readonly string[];
  /** What the file shows beside its cells' contents and the book does not keep, a line for each kind. */
  readonly notKept: readonly string[];
  /** Inputs that most belts lack and most verdicts need. */
  readonly lacking: readonly LackingInput[];
  /** What of all this counts records; absent of books of ours. */
  readonly tallies?: ListTallies;
}

/** Counts of a list, those of its parts to be added up. */
interface ListTallies {
  /** Those of the assumptions that count records. */
  readonly counted: readonly CountedNote[];
  /** How many belts leave the inputs blank that most verdicts need. */
  readonly blanks: readonly BlankInput[];
}

export interface ImportOptions {
  /** Title of the book, usually the file's name. */
  readonly title?: string;
  /** What the report calls the book that stands in for what the file lacks; "the open book" else. */
  readonly baseName?: string;
  /** For a part of a long list of belts. */
  readonly part?: EarlierRecords;
  /** Records that a sheet may have, where whoever asks has room for others than a book in one piece has. */
  readonly mostRecords?: number;
}

export const baseNameOf = ({ baseName = 'the open book' }: ImportOptions): string => baseName;

export interface ImportResult {
  readonly state: BookState;
  readonly report: ImportReport;
}

/**
 * The list can't be used: nothing was imported. The message says what was looked for, what was found and what to do.
 */
export class UnusableList extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'UnusableList';
  }
}
