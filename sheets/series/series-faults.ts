import type { Column } from '../../src/sheet/declaration.ts';
import { ratedSkews, ratingColumn } from './skew-ratings.ts';

/**
 * Why a plate series can't be made as its figures stand. Each fault asks for the figures that it compares and says
 * nothing while one of them is missing: the belts' checks that need it say so.
 */

interface Fault {
  readonly says: string;
  readonly of: readonly string[];
  /** True where the figures can't be right; ratios and sums rounded, since units are converted. */
  readonly when: string;
}

const less = (one: string, other: string): string => `ROUND((${one})-(${other}),9)<0`;
const span = '({Holes per side}-1)*{Hole spacing}+{Punch size}';

const faults: readonly Fault[] = [
  {
    says: 'the maximum thickness is below the minimum',
    of: ['Minimum thickness', 'Maximum thickness'],
    when: less('{Maximum thickness}', '{Minimum thickness}'),
  },
  {
    says: 'the maximum edge is below the minimum',
    of: ['Minimum edge', 'Maximum edge'],
    when: less('{Maximum edge}', '{Minimum edge}'),
  },
  ...ratedSkews.map((skew): Fault => ({
    says: `the minimum pulley at ${skew} is above the square one`,
    of: ['Minimum pulley square', ratingColumn(skew)],
    when: less('{Minimum pulley square}', `{${ratingColumn(skew)}}`),
  })),
  { says: 'plates overlap', of: ['Pitch', 'Plate width'], when: less('{Pitch}', '{Plate width}') },
  {
    says: 'holes run into each other',
    of: ['Holes per side', 'Hole spacing', 'Punch size'],
    when: `IF({Holes per side}>1,ROUND({Hole spacing}-{Punch size},9)<=0,FALSE)`,
  },
  {
    says: 'holes do not lie on their plate',
    of: ['Holes per side', 'Hole spacing', 'Punch size', 'Plate width'],
    when: `IF({Holes per side}>1,${less('{Plate width}', span)},${less('{Plate width}', '{Punch size}')})`,
  },
  {
    says: 'holes run into those of the next plate',
    of: ['Holes per side', 'Hole spacing', 'Punch size', 'Pitch'],
    when: `IF({Holes per side}>1,ROUND({Pitch}-(${span}),9)<=0,ROUND({Pitch}-{Punch size},9)<=0)`,
  },
  {
    says: 'holes reach over the cut',
    of: ['Hole setback', 'Punch size'],
    when: less('{Hole setback}', '{Punch size}/2'),
  },
  {
    says: 'the plate is too short for its holes',
    of: ['Plate length', 'Hole setback', 'Punch size'],
    when: less('{Plate length}', '2*{Hole setback}+{Punch size}'),
  },
  {
    says: 'the minimum edge is below half a hole',
    of: ['Minimum edge', 'Punch size'],
    when: less('{Minimum edge}', '{Punch size}/2'),
  },
  {
    says: 'bolts and holes do not match',
    of: ['Bolts per plate', 'Holes per side'],
    when: '{Bolts per plate}<>2*{Holes per side}',
  },
  {
    says: 'the long bolt is not the longer one',
    of: ['Bolt length', 'Long bolt length'],
    when: `ROUND({Long bolt length}-{Bolt length},9)<=0`,
  },
  {
    says: 'the bolt is shorter than the belt that it clamps',
    of: ['Bolt length', 'Long bolt above'],
    when: `ROUND({Bolt length}-{Long bolt above},9)<=0`,
  },
  {
    says: 'the long bolt is shorter than the belt that it clamps',
    of: ['Long bolt length', 'Maximum thickness'],
    when: `ROUND({Long bolt length}-{Maximum thickness},9)<=0`,
  },
  {
    says: 'bolts change outside the range of thickness',
    of: ['Minimum thickness', 'Maximum thickness', 'Long bolt above'],
    when:
      `OR(${less('{Long bolt above}', '{Minimum thickness}')},` +
      `${less('{Maximum thickness}', '{Long bolt above}')})`,
  },
];

const told = faults.map(
  ({ says, of, when }) =>
    `IF(COUNT(${of.map((header) => `{${header}}`).join(',')})<${of.length},"",IF(${when},"; ${says}",""))`,
);

export const seriesFaultColumn: Column<'Series faults'> = {
  header: 'Series faults',
  kind: 'text',
  doc:
    'why the series can not be made as its figures stand; no belt fits with such a series. Empty when ' +
    'nothing is wrong',
  formula: `MID(${told.join('&')},3,32767)`,
  source: 'geometry of the plate; bolts to holes: common practice, no source',
};
