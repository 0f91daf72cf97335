import type { Verdict } from '../functions/checks.ts';
import type { Finding } from '../records/finding.ts';
import type { Habit } from '../records/loose-entry.ts';
import type { UnitReview } from '../workbook/conversion.ts';
import type { MarkedReference } from '../workbook/formula-references.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { PreviewedCure } from './cure-preview.ts';
import type { FirstLook } from './first-look.ts';
import { FindingGroups } from './finding-groups.ts';
import type { DiskFile } from './library/disk-file.ts';
import type { DayNote } from './later-opening.ts';
import type { BookLibrary, ComparedVersion } from './library/book-library.ts';

/** What is looked for in cells and formulas, and what is to stand in its place. */
export interface SoughtText {
  readonly text: string;
  readonly replacement: string;
  readonly matchCase: boolean;
  readonly wholeBook: boolean;
  /** Which of the cells found is on show. */
  readonly at: number | undefined;
}

/** What is selected: the cell that the formula bar shows, and all records and columns, in the order they are seen. */
interface Selection {
  readonly place: CellPlace;
  readonly records: readonly number[];
  readonly columns: readonly number[];
}

export type Theme = 'auto' | 'light' | 'dark';
/** What the panel beside the grid may show, one at a time; the findings have a panel of their own below it. */
export type View = 'joint' | 'working' | 'skew' | 'pull' | 'what-if';

export type Saving =
  | { readonly state: 'new' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved'; readonly at: Date }
  /** An earlier state, only to be looked at: why nothing is saved. */
  | { readonly state: 'shown'; readonly why: string }
  | {
      readonly state: 'failed';
      readonly why: string;
      /** Keeps the open book in place of one that is stored and can't be read. */
      readonly replace?: () => void;
      /** Hands out what is stored as it is, for whoever can make something of it. */
      readonly raw?: () => void;
    };

interface Notice {
  readonly id: number;
  readonly tone: 'note' | 'problem';
  readonly text: string;
}

/** Milliseconds until a message goes by itself; what it is about stays marked in the page. */
const shownFor: Readonly<Record<Notice['tone'], number>> = { note: 6000, problem: 20_000 };

/** The one dialog that may be open. */
export type Dialog =
  | { readonly kind: 'help'; readonly topic?: string }
  | { readonly kind: 'review'; readonly review: readonly UnitReview[]; readonly units: string }
  /** With a file or rows to begin with; without, it asks for some. */
  | { readonly kind: 'import'; readonly onDisk?: DiskFile; readonly file?: File; readonly pasted?: string }
  | { readonly kind: 'books' }
  | { readonly kind: 'versions'; readonly comparing?: ComparedVersion }
  | { readonly kind: 'cure'; readonly finding: Finding; readonly cures: readonly PreviewedCure[] }
  | { readonly kind: 'columns'; readonly search: string }
  | {
      readonly kind: 'own-column';
      /** The column that is changed; undefined for a new one. */
      readonly position: number | undefined;
      /** Where a new one is put in. */
      readonly at: number;
      readonly why?: string;
    }
  | { readonly kind: 'own-name'; readonly record: number | undefined; readonly why?: string }
  | { readonly kind: 'format' }
  | {
      readonly kind: 'habit';
      readonly asks: Habit;
      /** What was typed, to be read once it is settled. */
      readonly meant: readonly (CellPlace & { readonly text: string })[];
    }
  | {
      readonly kind: 'ask';
      readonly title: string;
      readonly label: string;
      readonly initial: string;
      /** What is wrong with an answer; undefined for one that was taken. */
      readonly answer: (text: string) => string | undefined;
      /** Why the last answer was not taken. */
      readonly why?: string;
    };

/** What the panel Skew looks at: a series other than the belt's own, a skew other than the least that passes. */
export interface SkewLook {
  readonly record: number | undefined;
  readonly series?: string | undefined;
  readonly skew?: number | undefined;
}

/** Which findings are on show: of a verdict, of a check, and how often the list has grown. */
export interface FindingsChoice {
  readonly verdict: Verdict | undefined;
  /** '' for all. */
  readonly check: string;
  /** The area whose belts are in question; '' for all. */
  readonly area: string;
  /** Whether only belts that the filter of the sheet leaves are in question. */
  readonly follows: boolean;
  readonly grown: number;
}

/** How the rows of the sheet on show are sorted and filtered. */
interface RowsPort {
  /** The filters that are on, in words. */
  filters(): readonly { readonly column: number; readonly says: string }[];
  clearFilter(column: number): void;
  /** Shows only rows that have one of these values in a column. */
  only(column: number, values: readonly string[]): void;
  clearSort(): void;
  /** Shows all rows in the book's order. */
  clear(): void;
}

/** The cells of the sheet on show, as one points at them. */
interface PointPort {
  /** The cell that a part of the grid shows. */
  at(target: EventTarget | null): CellPlace | undefined;
  /** The cell on show so many rows and columns from another. */
  beside(place: CellPlace, down: number, right: number): CellPlace;
  reveal(place: CellPlace): void;
  redraw(): void;
}

/** What the desk asks of the grid of the sheet on show. */
/** A file on its way, which share of it is written, and what puts an end to it. */
interface FileBeingWritten {
  readonly name: string;
  readonly share: number;
  readonly stop: () => void;
}

export interface GridPort {
  readonly sheet: string;
  /** Selects a cell and brings it into view. */
  goTo(place: CellPlace): void;
  focus(): void;
  /** The column on show beside another; undefined at the end. */
  beside(column: number, step: 1 | -1): number | undefined;
  /** Brings the selected cell into view again. */
  reveal(): void;
  /** Stops listening to keys, which are meant for another part of the page. */
  leave(): void;
  readonly pointed: PointPort;
  /** Whether an editor is open over a cell. */
  readonly editing: boolean;
  edit(): void;
  readonly rowView: RowsPort | undefined;
  /** Records as they stand in the view, sorted and filtered. */
  shownRecords(): readonly number[];
  readonly viewed: boolean;
}

interface Findings {
  /** Filled as they are found; another version of them is another look. */
  readonly groups: FindingGroups;
  readonly version: number;
  /** False while records are still being looked at. */
  readonly complete: boolean;
}

/**
 * The page's state: the book, what is on show, what is selected. Views listen and draw it; actions change it.
 */
export class Desk {
  readonly book: Workbook;
  sheet: string;
  selection: Selection;
  theme: Theme = 'auto';
  view: View | undefined = 'joint';
  findingsShown = true;
  /** Whether the line that welcomes to the demo has not been put away. */
  welcome = true;
  /** Sizes in CSS pixels as the user drew them; undefined for the view's own. */
  sideWidth: number | undefined;
  findingsHeight: number | undefined;
  dialog: Dialog | undefined;
  /** The name of the menu that is open. */
  menu: string | undefined;
  saving: Saving = { state: 'new' };
  notices: readonly Notice[] = [];
  findings: Findings = { groups: new FindingGroups(), version: 0, complete: false };
  /** What is looked for; undefined while nothing is. */
  finding: SoughtText | undefined;
  skewLook: SkewLook = { record: undefined };
  findingsChoice: FindingsChoice = { verdict: undefined, check: '', area: '', follows: true, grown: 0 };
  /** The belt that was selected last. */
  lastBelt = 0;
  /** The cell whose content is being typed above: clicking another one selects it before the field is left. */
  typing: CellPlace | undefined;
  grid: GridPort | undefined;
  /** How the first rows of the book's first sheet are seen; undefined while not all of them are. */
  firstLook: (() => FirstLook | undefined) | undefined;
  /** What the formula that is being typed refers to. */
  referred: readonly MarkedReference[] = [];
  /** What is to be said of the day; undefined when nothing is, or once it is read. */
  dayNote: DayNote | undefined;
  /** The books of this browser and their past; undefined while the browser keeps none. */
  library: BookLibrary | undefined;
  /** A change of all of a large book that is being worked out, and what puts an end to it. */
  changing: { readonly what: string; readonly stop: () => void } | undefined;
  /** The file of the book that is being written. */
  exporting: FileBeingWritten | undefined;
  #notices = 0;
  readonly #listeners = new Set<() => void>();

  constructor(book: Workbook) {
    this.book = book;
    this.sheet = book.state.sheets[0]?.name ?? '';
    this.selection = { place: { sheet: this.sheet, record: 0, column: 0 }, records: [0], columns: [0] };
  }

  listen(listener: () => void): void {
    this.#listeners.add(listener);
  }

  /** Tells the views that something they show has changed. */
  changed(): void {
    for (const listener of this.#listeners) listener();
  }

  show(sheet: string): void {
    if (sheet === this.sheet) return;
    this.sheet = sheet;
    this.selection = { place: { sheet, record: 0, column: 0 }, records: [0], columns: [0] };
    this.changed();
  }

  select(selection: Selection): void {
    this.selection = selection;
    this.changed();
  }

  goTo(place: CellPlace): void {
    this.sheet = place.sheet;
    this.selection = { place, records: [place.record], columns: [place.column] };
    this.changed();
    // The grid of another sheet goes there when it is put on show.
    if (this.grid?.sheet === place.sheet) this.grid.goTo(place);
  }

  open(dialog: Dialog): void {
    this.dialog = dialog;
    this.changed();
  }

  close(): void {
    if (this.dialog === undefined) return;
    this.dialog = undefined;
    this.changed();
    this.grid?.focus();
  }

  say(text: string, tone: Notice['tone'] = 'note'): void {
    this.#notices += 1;
    const id = this.#notices;
    this.notices = [...this.notices.filter((notice) => notice.text !== text).slice(-2), { id, tone, text }];
    this.changed();
    setTimeout(() => this.dismiss(id), shownFor[tone]);
  }

  dismiss(id: number): void {
    if (!this.notices.some((notice) => notice.id === id)) return;
    this.notices = this.notices.filter((notice) => notice.id !== id);
    this.changed();
  }
}
