import { type Column, columns } from '../../src/sheet/declaration.ts';

/**
 * What the work at one joint takes, from the rates in Assumptions: low, likely and high, and of these the mean by PERT.
 *
 * A mean of sums is the sum of the means, so that one formula over three sums gives what summing each rate's mean
 * would.
 */

const heights = ['Low', 'Likely', 'High'] as const;
const pert = 'PERT, from memory: the mean is (low + 4 likely + high) / 6';

const words = { Low: 'low', Likely: 'likely', High: 'high' } as const;
type Height = keyof typeof words;
type Word = (typeof words)[Height];
const doc = { Low: 'if all goes well', Likely: 'as it usually goes', High: 'if much goes wrong' } as const;

const bySize = (height: Height): string =>
  `{Metres cut}*CutHours${height}+{Metres ` +
  `skived}*SkiveHours${height}+{Holes}*HoleHours${height}+{Plates}*PlateHours${height}+{Bolts}*BoltHours${height}`;

const mean = (header: string): string => `({${header} low}+4*{${header} likely}+{${header} high})/6`;

export const workColumns = columns([
  {
    header: 'Holes',
    kind: 'count',
    background: true,
    doc: 'in both belt ends of one joint',
    formula: '2*{Plates}*INDEX({Plate series.Holes per side},{Series row})',
  },
  {
    header: 'Metres cut',
    kind: 'number',
    background: true,
    digits: 2,
    doc: 'of both belt ends, in metres whatever the units of the book, as the rates count them',
    formula: '2*{Cut length}/ShortPerLong/OneMetre',
  },
  {
    header: 'Metres skived',
    kind: 'number',
    background: true,
    digits: 2,
    doc: 'of both belt ends, in metres; 0 where the joint is not skived',
    formula: 'IF({Skive depth}>0,{Metres cut},0)',
  },
  ...heights.map((height): Column<`Labour hours ${Word}`> => ({
    header: `Labour hours ${words[height]}`,
    formerly: `Crew hours ${words[height]}`,
    kind: 'hours',
    background: true,
    digits: 1,
    doc: `labour hours (people times hours) for one joint, ${doc[height]}`,
    formula: `PreparationHours${height}+SettingUpHours${height}+${bySize(height)}`,
  })),
  {
    header: 'Labour hours',
    formerly: 'Crew hours',
    kind: 'hours',
    digits: 1,
    doc: 'labour hours (people times hours) for one joint, the mean of low, likely and high',
    formula: mean('Labour hours'),
    source: pert,
  },
  ...heights.map((height): Column<`Downtime ${Word}`> => ({
    header: `Downtime ${words[height]}`,
    formerly: `Outage hours ${words[height]}`,
    kind: 'hours',
    background: true,
    digits: 1,
    doc: `downtime of the belt for one joint, ${doc[height]}: emptying the belt, crew at work, test run`,
    formula:
      `RunningOutHours${height}+TestRunHours${height}+({Labour hours ` +
      `${words[height]}}-PreparationHours${height})/CrewSize`,
  })),
  {
    header: 'Downtime',
    formerly: 'Outage hours',
    kind: 'hours',
    digits: 1,
    doc: 'downtime of the belt for one joint, the mean of low, likely and high',
    formula: mean('Downtime'),
    source: pert,
  },
]);
