import { program, reading, set, units, type CommandWords } from './options.ts';

/** The commands that ask a book what would be, in words. */

type Name = 'solve';

export const whatIfCommands: readonly CommandWords<Name>[] = [
  {
    name: 'solve',
    summary: 'prints which values of an input or a named value make a belt meet a goal',
    words: ['IN.xlsx', 'BELT', 'GOAL'],
    options: [
      {
        name: 'by',
        value: 'NAME',
        repeats: true,
        doc: 'input or named value to vary, the rest unchanged; default: each one that can meet the goal, nearest first',
      },
      { name: 'from', value: 'VALUE', doc: 'start of the range; default: what the cell allows, or what is usual' },
      { name: 'to', value: 'VALUE', doc: 'end of the range' },
      { name: 'step', value: 'VALUE', doc: 'step of the range; default: 0.5°, 1 mm or 1/16 in, else by its column' },
      set,
      units,
      ...reading,
    ],
    notes: [
      'BELT may be "*" for every belt. GOAL is a column with <=, >=, <, >, = or <> and a value, or a check or Verdict ' +
        'alone, which shall pass.',
      `Example: ${program} solve fleet.xlsx "B 12" "Joint minimum pulley<=400" --by Skew.`,
      'Prints every solution in the range, or the nearest value when there is none; for a pulley also the standard ' +
        'diameters.',
      'Exit codes: 0 every belt has a solution, 1 some have none, 2 input unusable.',
    ],
  },
];
