import { columns } from '../../src/sheet/declaration.ts';
import { ratedSkews, ratingHeader } from '../series/skew-ratings.ts';
import { fine } from './column-digits.ts';
import { plate } from './inputs.ts';

/** The minimum pulley of a joint at its skew, on the line between the two rated skews that it lies between. */

const ratings = ratedSkews.map((skew) => ({ skew, pulley: plate(ratingHeader(skew)) }));
const square = plate('Minimum pulley square');
/** Above every rated skew: the pulley stays that of the last. */
const none = 90;

const blanks = Object.fromEntries(ratedSkews.map((skew) => [`Plate series.${ratingHeader(skew)}`, 0]));

/** The pulley of the rated skew that a cell names. */
const pulleyAt = (cell: string, otherwise: string): string =>
  ratings.reduceRight((rest, { skew, pulley }) => `IF(${cell}=${skew},${pulley},${rest})`, otherwise);

const perRating = (text: (skew: number, pulley: string) => string): string =>
  ratings.map(({ skew, pulley }) => text(skew, pulley)).join(',');

export const jointPulleyColumns = columns([
  {
    header: 'Rated skew below',
    kind: 'angle',
    digits: 0,
    background: true,
    doc: 'largest skew up to that of the joint at which the series is rated, degrees; 0 is the square joint',
    formula: `MAX(${perRating((skew, pulley) => `IF(AND(${pulley}>0,{Skew}>=${skew}),${skew},0)`)})`,
    optional: blanks,
    source: "the supplier's ratings",
  },
  {
    header: 'Rated skew above',
    kind: 'angle',
    digits: 0,
    background: true,
    doc: `smallest skew above that of the joint at which the series is rated, degrees; ${none} where there is none`,
    formula: `MIN(${perRating((skew, pulley) => `IF(AND(${pulley}>0,{Skew}<${skew}),${skew},${none})`)})`,
    optional: blanks,
    source: "the supplier's ratings",
  },
  {
    header: 'Pulley rated below',
    kind: 'length',
    digits: fine,
    background: true,
    doc: 'minimum pulley at the rated skew below',
    formula: pulleyAt('{Rated skew below}', square),
    source: "the supplier's ratings",
  },
  {
    header: 'Pulley rated above',
    kind: 'length',
    digits: fine,
    background: true,
    doc: 'minimum pulley at the rated skew above; where there is none, that at the rated skew below',
    formula: pulleyAt('{Rated skew above}', '{Pulley rated below}'),
    source: "the supplier's ratings",
  },
  {
    header: 'Joint minimum pulley',
    formerly: 'Joint pulley',
    kind: 'length',
    digits: fine,
    doc: 'minimum pulley for the joint at its skew',
    formula:
      `RATEDPULLEY(${square},{Skew},{Rated skew below},{Pulley rated below},{Rated skew above},{Pulley rated ` +
      `above})`,
    inFile: { above: 0 },
  },
]);
