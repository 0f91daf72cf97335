/** Options that say how lists of belts are read, alike for all commands. */

/** An option of a command, written `--name VALUE`, `--name=VALUE`, or `--name` when it takes no value. */
export interface Option {
  readonly name: string;
  /** How help calls its value; absent for one without. */
  readonly value?: string;
  /** It may be given several times. */
  readonly repeats?: true;
  readonly doc: string;
}

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

/** How lists are read, of several files alike. */
export const readingAll = reading.filter(({ name }) => !['fill', 'date', 'series'].includes(name));
