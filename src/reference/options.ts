/** What commands and their options are in words, and the options that several commands take. */

/** An option of a command, written `--name VALUE`, `--name=VALUE`, or `--name` when it takes no value. */
export interface Option {
  readonly name: string;
  /** How help calls its value; absent for one without. */
  readonly value?: string;
  /** It may be given several times. */
  readonly repeats?: true;
  readonly doc: string;
}

/** What help says of an option. */
export const optionText = ({ doc, repeats }: Option): string =>
  `${doc}${repeats === true ? '; may be given several times' : ''}`;

/** An option as it is typed. */
export const optionUsage = ({ name, value }: Option): string =>
  value === undefined ? `--${name}` : `--${name} ${value}`;

export interface CommandWords<Name extends string = string> {
  readonly name: Name;
  readonly summary: string;
  /** What is typed after its name; a word in square brackets may be left out. */
  readonly words: readonly string[];
  readonly options: readonly Option[];
  /** Words may begin with a single "-", as a formula may. */
  readonly freeWords?: true;
  /** Further lines of its help. */
  readonly notes: readonly string[];
}

/** How the command line is called from the repository. */
export const program = 'npm run -s book --';

export const units: Option = {
  name: 'units',
  value: 'metric|us',
  doc: "unit system of the book and of the printed output; default: the list's own. The list may use either, or both",
};

/** How a list of belts is read, where its own headers do not say. */
export const reading: readonly Option[] = [
  { name: 'sheet', value: 'NAME', repeats: true, doc: 'sheet that lists belts; default: found by its headers' },
  { name: 'header-row', value: 'ROW', doc: 'number of the (last) header row; default: detected' },
  {
    name: 'map',
    value: 'HEADER=COLUMN',
    repeats: true,
    doc:
      'maps a header of the list (or its column letters) to a column of the book; "own" keeps it as your own ' +
      'column, "ignore" leaves it out',
  },
  {
    name: 'fill',
    value: 'COLUMN=VALUE',
    repeats: true,
    doc: 'value to use for blank cells of a column, such as --fill "Skew=45"',
  },
  {
    name: 'value',
    value: 'COLUMN:TEXT=MEANING',
    repeats: true,
    doc: 'what a text of the list means, such as --value "Drive pulley surface:RUBBER=bare steel"',
  },
  { name: 'leave-out', value: 'NAME', repeats: true, doc: 'row that is not a belt, by its name or first text' },
  { name: 'take-row', value: 'NAME', repeats: true, doc: 'row that is a belt although it was skipped, by its name' },
  { name: 'decimal', value: 'point|comma', doc: 'decimal mark of numbers entered as text; default: detected' },
  {
    name: 'date-order',
    value: 'day-first|month-first',
    doc: 'order of day and month in dates entered as text; default: detected',
  },
  {
    name: 'skew-from',
    value: 'square|edge',
    doc: 'whether the list measures skew from the square line or from the belt edge; default: as its header says',
  },
  {
    name: 'date',
    value: 'YYYY-MM-DD',
    doc: 'date to which joint age is counted; default: today, or the review date of a file written by Skewbook',
  },
  {
    name: 'series',
    value: 'BOOK.xlsx',
    doc:
      'takes plate series, strips, suppliers, stock, steps and assumptions from another book instead of the list; ' +
      'crews, windows and areas only where the list has none',
  },
];

/** What is tried instead of what the list says. */
const set: Option = {
  name: 'set',
  value: 'NAME=VALUE',
  repeats: true,
  doc:
    'supposes another value, with or without its unit: of a named value, as TightMargin=10%; of a belt, as ' +
    '"Q3:Skew=45"; of every belt, as "*:Skew=45"; of another sheet, as "Plate series!Lapwing:Tension rating=40". ' +
    'IN.xlsx stays as it is',
};

const variant: Option = {
  name: 'variant',
  value: 'NAME',
  repeats: true,
  doc: 'supposes a variant of the sheet Variants; IN.xlsx stays as it is',
};

/** What is tried instead of what the list says. */
export const supposing: readonly Option[] = [set, variant];

/** How lists are read, of several files alike. */
export const readingAll = reading.filter(({ name }) => !['fill', 'date', 'series'].includes(name));

export const exits = 'Exit codes: 0 done, 2 input unusable or output not written.';
