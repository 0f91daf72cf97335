import { exits, type Option, program, reading, supposing, units, type CommandWords } from './options.ts';

/** The commands that ask a book what would be, in words. */

type Name = 'solve' | 'effects' | 'chance' | 'variants' | 'picture';

const tolerance: Option = {
  name: 'tolerance',
  value: 'NAME=HALF',
  repeats: true,
  doc:
    'how far the true value may lie either way, as Skew=1 or Power=5%; "even" or "lognormal" after it for another ' +
    'distribution than normal. NAME may be a figure of a plate or a pulley, as for --by of solve. Default: by ' +
    'kind of input, or by the mark of the source: wider for "from memory" than for a standard; none for plates',
};

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
        doc:
          'input or named value to vary alone, or a figure of a plate or a pulley, as "Plate series!Lapwing:Pitch" ' +
          'or "Pulleys!Q3/Head:Diameter"; default: each one that can meet the goal, nearest first',
      },
      { name: 'from', value: 'VALUE', doc: 'start of the range; default: what the cell allows, or what is usual' },
      { name: 'to', value: 'VALUE', doc: 'end of the range' },
      {
        name: 'step',
        value: 'VALUE',
        doc: 'step of the range; default: 0.5°, 1 mm or 1/16 in, otherwise by its column',
      },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [
      'BELT may be "*" for every belt. GOAL is a column with <=, >=, <, >, = or <> and a value, or a check or ' +
        'Verdict alone, which shall pass.',
      `Example: ${program} solve fleet.xlsx "B 12" "Joint minimum pulley<=400" --by Skew.`,
      'Prints every solution in the range, or the nearest value when there is none; for a pulley also the standard ' +
        'diameters.',
      'Exit codes: 0 every belt has a solution, 1 some have none, 2 input unusable.',
    ],
  },
  {
    name: 'effects',
    summary: 'prints which inputs and named values a figure of a belt depends on, the largest effect first',
    words: ['IN.xlsx', 'BELT', 'COLUMN'],
    options: [
      tolerance,
      { name: 'all', doc: 'prints all of them; default: the first 20' },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [
      'Each is changed alone, within its tolerance. "1 % more" is by how many per cent the figure grows when the ' +
        'input grows by 1 %, from the exact derivative.',
      'For a check or Verdict: at which value each alone turns it, the nearest first, counted in tolerances.',
      exits,
    ],
  },
  {
    name: 'chance',
    summary: 'prints how often belts pass when inputs and named values are not known exactly, and how sure figures are',
    words: ['IN.xlsx', '[BELT]'],
    options: [
      { name: 'column', value: 'COLUMN', repeats: true, doc: 'also tells where this figure lies in 90 of 100 draws' },
      tolerance,
      {
        name: 'correlation',
        value: 'NAME~NAME=NUMBER',
        repeats: true,
        doc:
          'how far two figures are wrong together, from −1 to 1, as Power~Speed=0.6: the correlation of their normal ' +
          'scores. Default: 0. Correlations that cannot be had together are refused',
      },
      { name: 'draws', value: 'N', doc: 'number of draws, 100 to 1000000; default: 1000' },
      { name: 'seed', value: 'N', doc: 'whole number; the same seed gives the same draws. Default: 1' },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [
      'Without BELT all belts are drawn together: a named value and a figure of a plate are drawn once for ' +
        'all of them, an input and a figure of a pulley for each belt.',
      'A belt passes when no check fails and none is unknown.',
      `Example: ${program} chance fleet.xlsx "B 12" --column "Working tension" --tolerance "Power=10%".`,
      exits,
    ],
  },
  {
    name: 'variants',
    summary: 'compares the variants of a book with the book as it is: verdicts gained and lost, cost and hours',
    words: ['IN.xlsx', '[OUT.xlsx]'],
    options: [
      { name: 'variant', value: 'NAME', repeats: true, doc: 'compares only this variant; default: all' },
      { name: 'belt', value: 'NAME', repeats: true, doc: 'compares only this belt; default: all belts' },
      units,
      ...reading,
    ],
    notes: [
      'A variant is a name with changes in the sheet Variants, one a row: its columns are Variant, Cell and ' +
        'Value, such ' +
        'as "steeper", "Q3:Skew", 45. Cell is written as for --set.',
      'OUT.xlsx lists every cell that differs. It is written completely or not at all; an existing file is ' +
        'overwritten.',
      exits,
    ],
  },
  {
    name: 'picture',
    summary:
      'draws a picture of a list of belts as an .svg file: the fleet, columns, a figure or a verdict over inputs',
    words: ['IN.xlsx', 'KIND', '[NAME …]', 'OUT.svg'],
    options: [
      { name: 'belt', value: 'NAME', doc: 'the belt that sweep, map and draws are of' },
      { name: 'by', value: 'NAME', repeats: true, doc: 'input or named value to change: one for sweep, two for map' },
      {
        name: 'from',
        value: 'VALUE',
        repeats: true,
        doc: 'start of the range of each --by; default: what the cell allows, or what is usual',
      },
      { name: 'to', value: 'VALUE', repeats: true, doc: 'end of the range of each --by' },
      { name: 'beside', value: 'NAME', repeats: true, doc: 'with sweep: also draws a line for this variant' },
      ...supposing,
      units,
      ...reading,
    ],
    notes: [
      'KIND is one of: verdicts (by area), due and spend (by month, then by year), rating and pulley (how much of ' +
        'them is used), expected (belts that may fail, by area); columns with the names of two columns, a dot a ' +
        'belt; spread with a column, counted over the belts; draws with a column of --belt, drawn by chance; sweep ' +
        'with a column of --belt over --by; map with Verdict or a check of --belt over two --by.',
      `Example: ${program} picture fleet.xlsx map Verdict map.svg --belt "B 12" --by Skew --by "Smallest pulley".`,
      'OUT.svg is written completely or not at all; an existing file is overwritten. What it says is printed.',
      exits,
    ],
  },
];
