import { type NamedValue, namedValues } from '../../src/sheet/declaration.ts';

/**
 * What one piece of the work takes, as named values: low, likely and high for each operation.
 *
 * Every figure is invented: a site measures its own. Hours are the same in both unit systems; a rate over a length is
 * for one metre (39.37 in) of cut or for 100 metres (328 ft) of belt, whatever units the book has.
 */
const invented = 'invented for the demo: enter your own';

/** What an operation is counted by. */
export type Counted =
  'job' | 'metre of cut' | 'metre of skive' | 'hole' | 'plate' | 'bolt' | 'new belt' | '100 m of new belt';

export interface Operation<Name extends string = string> {
  /** Its three named values are this and Low, Likely, High. */
  readonly name: Name;
  readonly title: string;
  readonly per: Counted;
  /**
   * 'before': crew hours while the belt still runs; 'crew': crew hours in the outage, shared by the crew; 'belt': hours
   * of the clock in which the belt stands, whoever is there.
   */
  readonly takes: 'before' | 'crew' | 'belt';
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

const operationList = <Name extends string>(list: readonly Operation<Name>[]): readonly Operation<Name>[] => list;

export const operations = operationList([
  {
    name: 'PreparationHours',
    title: 'preparing tools, plates and strips before the outage',
    per: 'job',
    takes: 'before',
    low: 0.5,
    likely: 1,
    high: 2,
  },
  {
    name: 'SettingUpHours',
    title: 'lock-out, clamping, access, clean-up',
    per: 'job',
    takes: 'crew',
    low: 2,
    likely: 3,
    high: 5,
  },
  {
    name: 'CutHours',
    title: 'marking and cutting',
    per: 'metre of cut',
    takes: 'crew',
    low: 0.2,
    likely: 0.3,
    high: 0.6,
  },
  { name: 'HoleHours', title: 'punching', per: 'hole', takes: 'crew', low: 0.006, likely: 0.01, high: 0.02 },
  { name: 'SkiveHours', title: 'skiving', per: 'metre of skive', takes: 'crew', low: 0.3, likely: 0.5, high: 1 },
  {
    name: 'PlateHours',
    title: 'placing plates and strips',
    per: 'plate',
    takes: 'crew',
    low: 0.02,
    likely: 0.03,
    high: 0.05,
  },
  {
    name: 'BoltHours',
    title: 'tightening twice, breaking and dressing',
    per: 'bolt',
    takes: 'crew',
    low: 0.02,
    likely: 0.03,
    high: 0.06,
  },
  {
    name: 'RunningOutHours',
    title: 'running the belt empty and isolating it',
    per: 'job',
    takes: 'belt',
    low: 0.5,
    likely: 0.75,
    high: 1.5,
  },
  {
    name: 'TestRunHours',
    title: 'guards back and test run',
    per: 'job',
    takes: 'belt',
    low: 0.5,
    likely: 0.75,
    high: 1.5,
  },
  {
    name: 'NewBeltHours',
    title: 'setting up for a new belt: winding gear, old belt out',
    per: 'new belt',
    takes: 'crew',
    low: 12,
    likely: 20,
    high: 36,
  },
  {
    name: 'BeltPullingHours',
    title: 'pulling in',
    per: '100 m of new belt',
    takes: 'crew',
    low: 6,
    likely: 10,
    high: 18,
  },
]);

type OperationName = (typeof operations)[number]['name'];

const heights = [
  { suffix: 'Low', key: 'low', word: 'low' },
  { suffix: 'Likely', key: 'likely', word: 'likely' },
  { suffix: 'High', key: 'high', word: 'high' },
] as const;
type Suffix = (typeof heights)[number]['suffix'];

/** The name of a rate: an operation's, low, likely or high. */
export type RateName = `${OperationName}${Suffix}`;

/** The names of an operation's three values. */
export const rateNames = ({
  name,
}: Operation<OperationName>): readonly [`${OperationName}Low`, `${OperationName}Likely`, `${OperationName}High`] => [
  `${name}Low`,
  `${name}Likely`,
  `${name}High`,
];

export const jobRateValues = namedValues([
  ...operations.flatMap((operation) =>
    heights.map(({ suffix, key, word }): NamedValue<RateName> => ({
      name: `${operation.name}${suffix}`,
      kind: 'hours',
      value: operation[key],
      min: 0,
      doc:
        `${operation.takes === 'belt' ? 'downtime of the belt' : 'labour hours'} for one ${operation.per}, ` +
        `${word}: ${operation.title}`,
      source: invented,
    })),
  ),
  {
    name: 'LoadShare',
    formerly: 'DutyShare',
    kind: 'ratio',
    value: 0.7,
    min: 0,
    max: 1,
    doc: 'share of its capacity that a belt would have carried during an outage',
    source: invented,
  },
  {
    name: 'PlanningShare',
    kind: 'ratio',
    value: 0.9,
    above: 0,
    max: 0.999,
    doc: 'chance that a job is done within its planned time (0.9 is P90)',
    source: 'our choice, on the safe side',
  },
  {
    name: 'SimulationRuns',
    kind: 'count',
    value: 4000,
    min: 100,
    max: 100_000,
    doc: 'draws of a simulation of job times',
    source: 'our choice, no effect on safety',
  },
  {
    name: 'SimulationSeed',
    kind: 'count',
    value: 1,
    min: 0,
    max: 4_294_967_295,
    doc: 'start of the random numbers: the same seed gives the same figures',
    source: 'our choice, no effect on safety',
  },
]);
