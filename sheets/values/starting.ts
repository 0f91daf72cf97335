import { namedValues } from '../../src/sheet/declaration.ts';

/** Start-up pull over running pull, by how the drive starts. */

const memory = 'from memory';

const drives = [
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

export const startings = drives.map(({ word }) => word);

export const startValues = namedValues(
  drives.map(({ name, value, doc }) => ({
    name,
    kind: 'number' as const,
    value,
    min: 1,
    max: 5,
    doc,
    source: `${memory}; the upper end, our choice, on the safe side`,
  })),
);

/** The factor by the word in a cell; StartFactor where it is blank, #N/A for another word. */
export const startFactorFormula = (cell: string): string =>
  `IF(ISBLANK(${cell}),StartFactor,` +
  `${drives.reduceRight((rest, { word, name }) => `IF(${cell}="${word}",${name},${rest})`, 'NA()')})`;
