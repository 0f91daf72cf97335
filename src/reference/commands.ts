import { verdictMeanings } from '../records/finding.ts';
import { formCommands } from './form-commands.ts';
import { type CommandWords, exits, program, reading, readingAll, supposing, units } from './options.ts';
import { whatIfCommands } from './what-if-commands.ts';

/** Every command of the command line in words: what is typed, its options, and what it does. */

/** A list of commands whose names the compiler knows. */
const named = <const Name extends string>(list: readonly CommandWords<Name>[]): readonly CommandWords<Name>[] => list;

export const commandWords = named([
  {
    name: 'formula',
    summary: 'prints the value of a formula',
    words: ['FORMULA'],
    options: [
      {
        name: 'book',
        value: 'BOOK.xlsx',
        doc: 'takes the named values from this book, and lets the formula refer to its cells, as Belts!C2',
      },
      { ...units, doc: "unit system of the named values, such as Gravity; default: metric, or the book's own" },
    ],
    freeWords: true,
    notes: [
      'Prints the value with all its digits. An array result prints one row per line, tab-separated.',
      'An error prints as its code, a space and its message; the exit code is then 1.',
      'With - it reads one formula per line from standard input and prints one value per line, an array as {1,2;3,4}.',
      `Put the formula in quotes: ${program} formula '=SKEWLENGTH(650,45)'. All functions: ${program} help functions.`,
    ],
  },
  {
    name: 'calc',
    summary: 'reads a list of belts, computes everything and writes a full book',
    words: ['IN.xlsx', 'OUT.xlsx'],
    options: [...supposing, units, ...reading],
    notes: [
      'Prints what was read, how each column was matched, each cell that was not understood (sheet, cell, text, ' +
        'reason), and the number of findings by verdict.',
      'IN.xlsx is never changed: OUT.xlsx must be another file. It is written completely or not at all; an existing ' +
        'file is overwritten.',
      exits,
    ],
  },
  {
    name: 'check',
    summary:
      'prints the findings of a list of belts: every check that does not plainly fit, the reason, and how to fix it',
    words: ['IN.xlsx'],
    options: [{ name: 'json', doc: 'prints them as JSON, for other programs' }, ...supposing, units, ...reading],
    notes: [
      ...(['fails', 'not known', 'tight', 'compare'] as const).map(
        (word) => `${word.toUpperCase()}: ${verdictMeanings[word]}.`,
      ),
      'Exit codes: 0 no belt fails, 1 some fail, 2 input unusable.',
    ],
  },
  {
    name: 'order',
    summary: 'lists what to order for the joints of a list, what to keep in stock, and how to cut the rolls',
    words: ['IN.xlsx', '[MORE.xlsx …]', 'OUT.xlsx'],
    options: [
      { name: 'belt', value: 'NAME', repeats: true, doc: 'orders only for this belt, not for the shelf' },
      { name: 'all', doc: 'orders for the next joints of all belts, however late they are due' },
      { name: 'due', value: 'YYYY-MM-DD', doc: 'orders for every joint due by this date, overdue ones included' },
      { name: 'failing', doc: 'includes belts whose joint fails a check; default: they are left out and listed' },
      {
        name: 'orders',
        value: 'FOLDER',
        doc: 'writes an order per supplier to this folder, as .xlsx, .pdf and .csv; addresses: sheet Sites',
      },
      {
        name: 'one-delivery',
        doc:
          'of several books: delivers everything to the first site; default: to each site what it needs, with ' +
          'freight for each delivery',
      },
      { name: 'one-supplier', doc: 'buys everything from the cheapest single supplier, if one sells everything' },
      {
        name: 'fewest-series',
        doc: 'adds the fewest plate series that cover the fleet, cost versus number of series, and the changes',
      },
      { name: 'any-skew', doc: "with --fewest-series: also allows skews below a belt's own" },
      { name: 'compare', doc: 'adds a comparison of square and skew joints by cost per year' },
      {
        name: 'seconds',
        value: 'N',
        doc: 'time limit for all searches, s; default: 2, with --fewest-series 30. Reports the best result found',
      },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [
      'Without --belt, --due or --all, joints due within the longest lead time and ReviewPeriod are ordered for.',
      'Prices come from the sheets Suppliers and Offers, otherwise from Plate series and Strips; stock comes from ' +
        'the sheet Shelf. If the list has none of these, give a book that has them with --series BOOK.xlsx.',
      'Quantities and costs in OUT.xlsx are formulas: each can be traced to the belts, packs and prices beside it.',
      'Several books, one a site, are bought for together: needs, stock and open orders of all count, with ' +
        'suppliers, offers and assumptions of the first or of --series BOOK.xlsx. Series and strips of one name must ' +
        'agree.',
      'IN.xlsx is never changed. OUT.xlsx is written completely or not at all; an existing file is overwritten.',
      exits,
    ],
  },
  {
    name: 'request',
    summary: 'writes a request for quotation per supplier for what the joints of a list need',
    words: ['IN.xlsx', 'FOLDER'],
    options: [
      { name: 'belt', value: 'NAME', repeats: true, doc: 'asks only for this belt, not for the shelf' },
      { name: 'all', doc: 'asks for the next joints of all belts, however late they are due' },
      { name: 'due', value: 'YYYY-MM-DD', doc: 'asks for every joint due by this date, overdue ones included' },
      { name: 'failing', doc: 'includes belts whose joint fails a check; default: they are left out' },
      { name: 'supplier', value: 'NAME', repeats: true, doc: 'asks only this supplier; default: all suppliers' },
      { name: 'all-items', doc: 'asks each supplier for every item; default: for those that they have offered' },
      units,
      ...reading,
    ],
    notes: [
      'Each request is an .xlsx file: the supplier fills in its yellow cells, all others are locked. When it comes ' +
        `back, ${program} quote takes the answers over.`,
      exits,
    ],
  },
  {
    name: 'quote',
    summary: "takes suppliers' answers to requests for quotation over into the sheet Offers",
    words: ['IN.xlsx', 'ANSWER.xlsx', 'OUT.xlsx'],
    options: [
      { name: 'also', value: 'ANSWER.xlsx', repeats: true, doc: 'another answer to take over in the same step' },
      units,
      ...reading,
    ],
    notes: [
      'Prints every cell of Offers that changes, with the price before and after, what was not offered, and answers ' +
        'that cannot be used. The prices before and after are kept in the sheet Price history; nothing else of the ' +
        'book changes.',
      'IN.xlsx and the answers are never changed; OUT.xlsx is a full book.',
      exits,
    ],
  },
  {
    name: 'placed',
    summary: 'enters orders that were sent into the sheet Orders: they count as on order from their delivery day',
    words: ['IN.xlsx', 'ORDER.xlsx', 'OUT.xlsx'],
    options: [
      { name: 'also', value: 'ORDER.xlsx', repeats: true, doc: 'another order to enter in the same step' },
      units,
      ...reading,
    ],
    notes: [
      `An order is an .xlsx file that ${program} order --orders wrote. Its packs, price and delivery day are ` +
        'taken as they stand in it now; its prices are kept in the sheet Price history too. Enter part deliveries ' +
        'and cancelled packs in the sheet Orders.',
      exits,
    ],
  },
  {
    name: 'outage',
    summary: 'schedules the downtime and the crew for each joint that is due; writes a calendar, workbook or picture',
    words: ['IN.xlsx', 'OUT.(ics|xlsx|svg)'],
    options: [
      { name: 'belt', value: 'NAME', repeats: true, doc: 'plans only this belt; default: all belts' },
      { name: 'due', value: 'YYYY-MM-DD', doc: 'plans only joints due by this date, overdue ones included' },
      { name: 'crew', value: 'NAME', repeats: true, doc: 'uses only this crew of the sheet Crews; default: all crews' },
      {
        name: 'window',
        value: 'NAME',
        repeats: true,
        doc: 'uses only this window of the sheet Windows; default: all windows',
      },
      {
        name: 'aim',
        value: 'least-loss|earliest',
        doc: 'goal after planning as many jobs as possible: minimum lost production (default) or earliest finish',
      },
      { name: 'step', value: 'MINUTES', doc: 'time grid; starts and durations are rounded to it. Default: 30' },
      {
        name: 'past-due',
        doc: 'allows joints after their due date; default: the due date is a deadline, except for overdue joints',
      },
      { name: 'failing', doc: 'includes belts whose joint fails a check; default: they are left out and listed' },
      { name: 'by', value: 'crew|area', doc: 'one row of the .svg per crew or area; default: crew' },
      {
        name: 'seconds',
        value: 'N',
        doc: 'time limit for the search, s; default: 20. Reports the best plan found and whether it is proven optimal',
      },
      units,
      ...reading,
    ],
    notes: [
      'Crews, windows, areas and special conditions of a job come from the sheets Crews, Windows, Areas and Outage ' +
        'jobs. Crews, windows and areas that a list lacks come from --series BOOK.xlsx. In your own list they are ' +
        'found by the names of their sheets.',
      'Times are in plant time, in the calendar too (RFC 5545, without a time zone). Downtime is planned with the ' +
        'confidence of the named value PlanningShare.',
      'IN.xlsx is never changed. The output is written completely or not at all; an existing file is overwritten.',
      'Exit codes: 0 all jobs are planned, 1 some do not fit (if none fits, nothing is written), 2 input unusable or ' +
        'output not written.',
    ],
  },
  {
    name: 'explain',
    summary: 'prints how one value of a belt is calculated, down to the entered values, with sources',
    words: ['IN.xlsx', 'BELT', 'COLUMN'],
    options: [
      { name: 'digits', value: 'N', doc: 'digits after the point, 0 to 15; default: 6' },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [`Example: ${program} explain fleet.xlsx "B 12" "Working tension".`, exits],
  },
  ...whatIfCommands,
  {
    name: 'advise',
    summary:
      "prints the minimum skew at which a belt's joint passes, for every plate series, and its cost compared with " +
      'the square joint',
    words: ['IN.xlsx', 'BELT'],
    options: [...supposing, units, ...reading],
    notes: ['The age check is skipped: a new joint has no age. Skew is given to the nearest 0.1°.', exits],
  },
  {
    name: 'card',
    summary:
      'writes the job card for the crew as PDF or .xlsx, the drawing of the joint as SVG, or its cut and holes as DXF',
    words: ['IN.xlsx', '[BELT]', 'OUT.(pdf|xlsx|svg|dxf)'],
    options: [
      { name: 'all', doc: 'writes the cards of all belts to one .pdf or .xlsx; omit BELT' },
      { name: 'belt', value: 'BELT', repeats: true, doc: 'writes the cards of these belts to one file; omit BELT' },
      { name: 'short', doc: 'writes one sheet a belt: words on one side, the drawing on the other' },
      {
        name: 'template',
        doc:
          'writes a .pdf with the 1:1 template of the joint instead of the card, to print, tape together and lay ' +
          'on the belt',
      },
      {
        name: 'paper',
        value: 'A4|A3|Letter',
        doc: 'paper of a .pdf; default: A4, or Letter for a book in US customary units. A3 for templates only',
      },
      { name: 'cut-only', doc: 'writes only the cut to a .dxf or template, without plates and holes' },
      units,
      ...reading,
    ],
    notes: [
      `Example: ${program} card fleet.xlsx "B 12" b12.pdf.`,
      'IN.xlsx is never changed. The output is written completely or not at all; an existing file is overwritten.',
      'A joint that cannot be drawn, or a hole pattern that is unsafe to drill, is rejected: nothing is written and ' +
        'the message says why.',
      'Exit codes: 0 done, 1 a joint was rejected (with --all the others are written), 2 input unusable or output ' +
        'not written.',
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
  ...formCommands,
  {
    name: 'help',
    summary: 'prints this help, or help for a command or function',
    words: ['[COMMAND|FUNCTION|functions]'],
    options: [],
    notes: [],
  },
]);

export type CommandName = (typeof commandWords)[number]['name'];
