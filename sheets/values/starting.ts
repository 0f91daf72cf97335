import { namedValues } from '../../src/sheet/declaration.ts';

/** How a belt starts and is braked: pull over running pull by the kind of drive, accelerations, further masses. */

const memory = 'from memory';

export const drivesByStart = [
  {
    word: 'direct on line',
    name: 'StartDirect',
    value: 2.5,
    doc: 'start-up pull over running pull: motors switched direct on line, 2 to 2.5',
  },
  {
    word: 'soft start',
    name: 'StartSoft',
    value: 1.6,
    doc: 'start-up pull over running pull: electric soft start, 1.3 to 1.6',
  },
  {
    word: 'fluid coupling',
    name: 'StartFluid',
    value: 1.6,
    doc: 'start-up pull over running pull: fluid coupling, 1.3 to 1.6',
  },
  {
    word: 'frequency converter',
    name: 'StartConverter',
    value: 1.3,
    doc: 'start-up pull over running pull: frequency converter, 1.1 to 1.3',
  },
] as const;

export const startings = drivesByStart.map(({ word }) => word);

export const startValues = namedValues(
  drivesByStart.map(({ name, value, doc }) => ({
    name,
    kind: 'number' as const,
    value,
    min: 1,
    max: 5,
    doc,
    source: `${memory}; the upper end, our choice, on the safe side`,
  })),
);

export const accelerationValues = namedValues([
  {
    name: 'DriveMassShare',
    kind: 'ratio',
    value: 0.1,
    min: 0,
    max: 5,
    doc: 'mass of pulleys and drive that the belt speeds up and slows down, as a share of belt, load and idlers',
    source: memory,
  },
  {
    name: 'StartAcceleration',
    kind: 'acceleration',
    value: { metric: 0.1, us: 0.33 },
    min: 0,
    doc: 'acceleration of the belt at starting, usually up to 0.3 m/s² (1 ft/s²)',
    source: memory,
  },
  {
    name: 'BrakeDeceleration',
    kind: 'acceleration',
    value: { metric: 0.2, us: 0.66 },
    min: 0,
    doc: 'deceleration of the belt when it is braked, usually up to 0.3 m/s² (1 ft/s²)',
    source: memory,
  },
]);

/** The factor by the word in a cell; StartFactor where it is blank, #N/A for another word. */
export const startFactorFormula = (cell: string): string =>
  `IF(ISBLANK(${cell}),StartFactor,` +
  `${drivesByStart.reduceRight((rest, { word, name }) => `IF(${cell}="${word}",${name},${rest})`, 'NA()')})`;
