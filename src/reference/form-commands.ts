import { type CommandWords, exits, program, reading, units } from './options.ts';

/** The commands that write sheets for people without this program, in words. */
export const formCommands: readonly CommandWords<'blank' | 'round'>[] = [
  {
    name: 'blank',
    summary: 'writes a blank list of belts for a site that has only a spreadsheet program',
    words: ['OUT.xlsx'],
    options: [{ ...units, doc: 'unit system of the list; default: metric' }],
    notes: [
      'Each header names its unit and has a note; cells refuse what can not be; the last column says of each row ' +
        'what is missing or wrong, by plain formulas. Filled in, the list is read like any other.',
      exits,
    ],
  },
  {
    name: 'round',
    summary: 'writes an inspection round sheet: what the book holds of its belts, to be corrected on the spot',
    words: ['IN.xlsx', 'OUT.xlsx'],
    options: [units, ...reading],
    notes: [
      `It comes back by ${program} merge OUT.xlsx IN.xlsx FILLED.xlsx NEW.xlsx, where OUT.xlsx is the sheet as it ` +
        'was sent: only the cells that were changed on the round change in the book.',
      exits,
    ],
  },
];
