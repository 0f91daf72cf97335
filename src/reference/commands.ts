/** Every command of the command line in words: what is typed, its options, and what it does. */

/** An option of a command, written `--name VALUE`, `--name=VALUE`, or `--name` when it takes no value. */
export interface Option {
  readonly name: string;
  /** How help calls its value; absent for one without. */
  readonly value?: string;
  /** It may be given several times. */
  readonly repeats?: true;
  readonly doc: string;
}

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

/** A list of commands whose names the compiler knows. */
const named = <const Name extends string>(list: readonly CommandWords<Name>[]): readonly CommandWords<Name>[] => list;

const units: Option = {
  name: 'units',
  value: 'metric|us',
  doc: "unit system of the book and of what is printed; the list's own else. The list may be in either, or mixed",
};

/** How a list of belts is read, where its own headers do not say. */
const reading: readonly Option[] = [
  {
    name: 'sheet',
    value: 'NAME',
    repeats: true,
    doc: 'the sheet that holds belts, or several; found by their headers else',
  },
  { name: 'header-row', value: 'ROW', doc: 'the last row of the headers; found else' },
  {
    name: 'map',
    value: 'HEADER=COLUMN',
    repeats: true,
    doc:
      'what a header of the list (or its column letters) means: a column of the book, "own" to keep it as your ' +
      'own, "ignore" to leave it out',
  },
  {
    name: 'fill',
    value: 'COLUMN=VALUE',
    repeats: true,
    doc: 'what stands for blank cells of a column, as in --fill "Skew=45"',
  },
  { name: 'decimal', value: 'point|comma', doc: 'the decimal mark of numbers that are written as text' },
  { name: 'date-order', value: 'day-first|month-first', doc: 'how dates that are written as text are meant' },
  {
    name: 'skew-from',
    value: 'square|edge',
    doc: "whether the list's skews count from the square line or from the belt's edge",
  },
  {
    name: 'date',
    value: 'YYYY-MM-DD',
    doc: "the day that joint ages are counted to; today else, or the book's own when it is one of ours",
  },
  {
    name: 'series',
    value: 'BOOK.xlsx',
    doc:
      'takes plate series, strips, suppliers, stock, steps and assumptions from another book, in place of what ' +
      'the list has of them; crews, windows and areas where it has none',
  },
];

/** How lists are read, of several files alike. */
const readingAll = reading.filter(({ name }) => !['fill', 'date', 'series'].includes(name));

const exits = 'Exit codes: 0 done, 2 the input could not be used or the output not be written.';

export const commandWords = named([
  {
    name: 'formula',
    summary: 'value of a formula',
    words: ['FORMULA'],
    options: [{ ...units, doc: 'unit system of the named values, such as Gravity; metric else' }],
    freeWords: true,
    notes: [
      'Prints the value with all its digits; a result of several cells prints a row a line, tabs between.',
      'An error prints as its code, a space and its message, and the exit code is 1.',
      'With - it reads one formula a line from standard input and prints one value a line, several cells as {1,2;3,4}.',
      `Quote the formula: ${program} formula '=SKEWLENGTH(650,45)'. A list of functions: ${program} help functions.`,
    ],
  },
  {
    name: 'calc',
    summary: 'reads a list of belts, computes everything and writes a full book',
    words: ['IN.xlsx', 'OUT.xlsx'],
    options: [units, ...reading],
    notes: [
      'Prints what was read, what was matched to what, what was not understood (sheet, cell, what, why), and the ' +
        'findings by verdict.',
      'IN.xlsx is never changed: OUT.xlsx must be another file. It is written whole or not at all; a file that is ' +
        'there is replaced.',
      exits,
    ],
  },
  {
    name: 'check',
    summary: "prints the findings of a list of belts: what fails or can't be told, why, and what would cure it",
    words: ['IN.xlsx'],
    options: [{ name: 'json', doc: 'prints them as JSON, for other programs' }, units, ...reading],
    notes: ['Exit codes: 0 no belt fails, 1 some fail, 2 the input could not be used.'],
  },
  {
    name: 'order',
    summary: 'what to order for the joints of a list, what to keep on the shelf, and how to cut the rolls',
    words: ['IN.xlsx', 'OUT.xlsx'],
    options: [
      { name: 'belt', value: 'NAME', repeats: true, doc: 'orders for this belt, or these; for all else' },
      {
        name: 'due',
        value: 'YYYY-MM-DD',
        doc: 'orders for the joints that are due up to this day, overdue ones included',
      },
      { name: 'failing', doc: 'orders for belts too whose joint fails a check; they are told and left out else' },
      { name: 'one-supplier', doc: 'buys all from the one supplier that costs least, when one sells everything' },
      {
        name: 'fewest-series',
        doc:
          'adds which plate series could serve the fleet, the curve of cost against their number, and what ' +
          'would change',
      },
      { name: 'any-skew', doc: "with --fewest-series: allows skews below a belt's own too" },
      { name: 'compare', doc: 'adds what square joints cost in a year against skew ones' },
      {
        name: 'seconds',
        value: 'N',
        doc: 'time for the searches together, 30 else; the best that was found is given, with its bound',
      },
      units,
      ...reading,
    ],
    notes: [
      "Prices come from the book's sheets Suppliers and Offers, else from what Plate series and Strips say; stock " +
        'from its sheet Shelf; a list without them is ordered for from --series BOOK.xlsx.',
      'Quantities and costs in OUT.xlsx are formulas: each adds up from the belts, packs and prices beside it.',
      'IN.xlsx is never changed. OUT.xlsx is written whole or not at all; a file that is there is replaced.',
      exits,
    ],
  },
  {
    name: 'outage',
    summary: 'when which belts stand for their joints and which crews make them, as calendar, workbook or picture',
    words: ['IN.xlsx', 'OUT.(ics|xlsx|svg)'],
    options: [
      { name: 'belt', value: 'NAME', repeats: true, doc: 'plans for this belt, or these; for all else' },
      {
        name: 'due',
        value: 'YYYY-MM-DD',
        doc: 'plans for the joints that are due up to this day, overdue ones included',
      },
      { name: 'crew', value: 'NAME', repeats: true, doc: 'with this crew of the sheet Crews, or these; with all else' },
      {
        name: 'window',
        value: 'NAME',
        repeats: true,
        doc: 'in this window of the sheet Windows, or these; in all else',
      },
      {
        name: 'aim',
        value: 'least-loss|earliest',
        doc:
          'what counts once as many jobs as can be are planned: least lost production, which is usual, or the ' +
          'earliest finish',
      },
      { name: 'step', value: 'MINUTES', doc: 'jobs begin on these steps and last whole ones; 30 else' },
      {
        name: 'past-due',
        doc: 'lets a joint be made after the day it is due; it must be made by then else, unless it is overdue already',
      },
      { name: 'failing', doc: 'plans for belts too whose joint fails a check; they are told and left out else' },
      { name: 'by', value: 'crew|area', doc: 'what a line of the .svg is for; crew else' },
      {
        name: 'seconds',
        value: 'N',
        doc: 'time for the search, 20 else; the best plan that was found is given, and what is not proven of it',
      },
      units,
      ...reading,
    ],
    notes: [
      "Crews, windows, areas and what is special about a belt's work come from the book's sheets Crews, Windows, " +
        'Areas and Outage jobs; a list takes those of the first three that it lacks from --series BOOK.xlsx. In a ' +
        'list of your own they are found by the names of their sheets.',
      "Times are those of the plant's clock, in the calendar too (RFC 5545, without a time zone). Hours are booked " +
        'so that they suffice with the chance PlanningShare.',
      'IN.xlsx is never changed. The output is written whole or not at all; a file that is there is replaced.',
      'Exit codes: 0 all jobs are planned, 1 some do not fit, or none does and nothing is written, 2 the input could ' +
        'not be used or the output not be written.',
    ],
  },
  {
    name: 'explain',
    summary: "what one belt's value is made of, down to what was entered, with the sources",
    words: ['IN.xlsx', 'BELT', 'COLUMN'],
    options: [units, ...reading],
    notes: [`As in ${program} explain fleet.xlsx "B 12" "Working tension".`, exits],
  },
  {
    name: 'advise',
    summary:
      "the least skew at which a belt's joint passes, for every plate series, and what it costs against the " +
      'square joint',
    words: ['IN.xlsx', 'BELT'],
    options: [units, ...reading],
    notes: ['A new joint has no age, so every check but that one is asked. Skews to 0.1 degree.', exits],
  },
  {
    name: 'card',
    summary:
      "what the crew takes to the belt: the job card as PDF or .xlsx, the joint's drawing as SVG, its cut and " +
      'holes as DXF',
    words: ['IN.xlsx', '[BELT]', 'OUT.(pdf|xlsx|svg|dxf)'],
    options: [
      { name: 'all', doc: 'the cards of all belts in one .pdf or .xlsx; BELT is left out' },
      {
        name: 'template',
        doc:
          'a .pdf with the 1:1 template of the joint in place of the card, to print, tape together and lay ' +
          'on the belt',
      },
      {
        name: 'paper',
        value: 'A4|A3|Letter',
        doc: 'paper of a .pdf; A4 else, Letter for a book in US customary units. A3 for templates only',
      },
      { name: 'cut-only', doc: 'the cut alone in a .dxf or a template, without plates and holes' },
      units,
      ...reading,
    ],
    notes: [
      `As in ${program} card fleet.xlsx "B 12" b12.pdf.`,
      'IN.xlsx is never changed. The output is written whole or not at all; a file that is there is replaced.',
      'A joint that can not be drawn, or a pattern that no one may drill by, is refused: nothing is written and the ' +
        'message says why.',
      'Exit codes: 0 done, 1 a joint was refused (with --all the others are written), 2 the input could not be used ' +
        'or the output not be written.',
    ],
  },
  {
    name: 'compare',
    summary: 'lists the differences between two books or lists, by sheet, record and column',
    words: ['A.xlsx', 'B.xlsx', '[OUT.xlsx]'],
    options: readingAll,
    notes: [
      'Records are matched by their names, own columns by their headers; values compare in the same units. Formulas ' +
        'count as unchanged where rows that were put in or taken out only moved them.',
      'A list that is no book of ours is compared only in the columns that it has.',
      'OUT.xlsx lists the differences. It is written completely or not at all; an existing file is overwritten.',
      'Exit codes: 0 no differences, 1 differences, 2 input unusable or output not written.',
    ],
  },
  {
    name: 'merge',
    summary: 'merges two books that come from a third: takes what either changed, lists the conflicts',
    words: ['BASE.xlsx', 'MINE.xlsx', 'THEIRS.xlsx', 'OUT.xlsx'],
    options: readingAll,
    notes: [
      'BASE.xlsx is what both come from: the book as it was sent out, or the list as it was last month.',
      'What only one of the two changed is taken. What both changed in different ways is a conflict: OUT.xlsx keeps ' +
        'the content of MINE.xlsx, with a remark at the cell, and lists it in the sheet Conflicts. What one removed ' +
        'and the other changed is kept.',
      'A list that is no book of ours counts only in the columns that it has.',
      'No input is changed. OUT.xlsx is written completely or not at all; an existing file is overwritten.',
      'Exit codes: 0 merged, 1 conflicts remain, 2 input unusable or output not written.',
    ],
  },
  {
    name: 'help',
    summary: 'this help, that of a command, or that of a function',
    words: ['[COMMAND|FUNCTION|functions]'],
    options: [],
    notes: [],
  },
]);

export type CommandName = (typeof commandWords)[number]['name'];
