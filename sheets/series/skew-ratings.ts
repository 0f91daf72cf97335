import { columns } from '../../src/sheet/declaration.ts';

/** Suppliers' minimum pulleys of skew joints: a column for each skew that they usually rate. */

export const ratedSkews = [15, 22, 30, 45, 60] as const;

type Rated<Skew extends number> = `Minimum pulley at ${Skew}`;

/** The column that the checks read: the one at 45 degrees stands for a series without any rating too. */
export const ratingHeader = (skew: (typeof ratedSkews)[number]): string =>
  skew === 45 ? 'Pulley at 45 used' : ratingColumn(skew);

export const ratingColumn = <Skew extends number>(skew: Skew): Rated<Skew> => `Minimum pulley at ${skew}`;

const usual = { kind: 'length', above: 0, digits: { metric: 0, us: 2 } } as const;
const between =
  'a rating at another skew goes into the column of the next larger one, which is on the safe side; blank: not rated';

const rating = <Skew extends number>(skew: Skew) =>
  ({
    header: ratingColumn(skew),
    ...usual,
    doc: `the supplier's minimum pulley for a joint at ${skew} degrees; ${between}`,
  }) as const;

export const skewRatings = columns([rating(15), rating(22), rating(30), rating(60)]);

const others = ratedSkews.filter((skew) => skew !== 45).map((skew) => `{${ratingColumn(skew)}}`);

export const unratedColumn = columns([
  {
    header: 'Pulley at 45 used',
    kind: 'length',
    digits: { metric: 1, us: 2 },
    background: true,
    doc:
      'minimum pulley at 45 degrees: as rated; 25 % below the square one for a series that is rated at no skew; 0 ' +
      'for one that is rated at others only',
    formula: '{Minimum pulley at 45}',
    optional: { 'Minimum pulley at 45': `IF(COUNT(${others.join(',')})=0,JOINTPULLEY({Minimum pulley square},45),0)` },
    source: "the supplier's rating; 25 % less without one: common practice, no source",
  },
]);
