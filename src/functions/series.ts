import { define, Refusal } from '../formula/define.ts';
import { radians } from './geometry.ts';
import { skew } from './parameters.ts';

/** What a plate series' own figures say of a joint: its pulley at a skew, and the service its material stands. */

/** The skew from which on a joint's pulley gets no smaller, and that of suppliers' usual ratings of skew joints. */
const ratedSkew = 45;
/** Minimum pulley there as a share of the square joint's, for a series without a rating: common practice, no source. */
const unratedShare = 0.75;

const sineSquared = (degrees: number): number => Math.sin(radians(degrees)) ** 2;
const sineSquaredText = (degrees: string): string => `SIN(RADIANS(${degrees}))^2`;

/** On the straight line over the skew's squared sine from one rated skew to the next; JOINTPULLEY says why. */
const onLine = (
  skew: number,
  [skew1, pulley1]: readonly [number, number],
  [skew2, pulley2]: readonly [number, number],
) =>
  pulley1 +
  ((pulley2 - pulley1) * (sineSquared(skew) - sineSquared(skew1))) / (sineSquared(skew2) - sineSquared(skew1));

/**
 * Minimum pulley for a joint at a skew: the square one less a share that grows with the square of the skew's sine.
 *
 * A rigid plate lies on a pulley of radius R along one line through its middle, and a point u round from that line
 * stands u^2/(2 R) off, as long as u is small beside R. Along the plate's end, half a length a from its middle, u is
 * a cos(skew) + t sin(skew), t running over the breadth 2 b. So the end's mean height is
 * (a^2 cos(skew)^2 + b^2/3 sin(skew)^2)/(2 R), and for any a and b the pulley on which it equals the square joint's is
 * square (1 - c sin(skew)^2). What c is, only practice tells: a supplier's rating at 45 degrees fixes it; without one
 * 25 per cent less at 45 degrees do, half of what Euler's theorem allows a plate without breadth. So the end's mean
 * height never exceeds the square joint's for plates up to 1.22 times as broad as long. Above 45 degrees nobody rates
 * joints: the pulley stays that of 45.
 *
 * Where it stops: it is of the mean along the end, whose leading corner may stand higher than the square joint's; and
 * it is of the plate, not of the carcass. A series with ratings at more skews than 45 follows RATEDPULLEY from one to
 * the next.
 */
export const jointPulley = define({
  name: 'JOINTPULLEY',
  summary:
    "minimum pulley for a joint at its skew, by the supplier's rating at 45 degrees, or 25 % less there without one",
  parameters: {
    square: { kind: 'length', above: 0, doc: 'minimum pulley for a square joint of the series' },
    skew,
    at45: {
      kind: 'length',
      above: 0,
      optional: true,
      doc: "the supplier's minimum pulley at 45 degrees; empty when there is none",
    },
  },
  result: { kind: 'length', doc: 'minimum pulley diameter' },
  source:
    "the supplier's rating at 45 degrees; without one 25 % less: common practice, no source; between by the mean " +
    'height of ' +
    "a rigid plate's end over the pulley",
  example: ['=JOINTPULLEY(450,30,330)', 390],
  calculate({ square, skew: angle, at45 = unratedShare * square }) {
    if (at45 > square)
      throw new Refusal('at45', `must be at most the minimum pulley of a square joint (${square}), or one is mistaken`);
    return angle >= ratedSkew ? at45 : square - 2 * (square - at45) * sineSquared(angle);
  },
  formula(given) {
    const by = (rated: string): string =>
      `IF({skew}>=${ratedSkew},${rated},{square}-2*({square}-${rated})*${sineSquaredText('{skew}')})`;
    const unrated = by(`${unratedShare}*{square}`);
    return given.has('at45') ? `IF(ISBLANK({at45}),${unrated},IF({at45}>{square},{refused},${by('{at45}')}))` : unrated;
  },
});

const rated = { kind: 'length', above: 0 } as const;
const ratedAt = { kind: 'angle', min: 0, max: 90 } as const;

/**
 * Minimum pulley for a joint between two skews that its supplier rates: on the straight line over the squared sine of
 * the skew, the line that JOINTPULLEY follows from 0 to 45 degrees and derives.
 */
export const ratedPulley = define({
  name: 'RATEDPULLEY',
  summary: 'minimum pulley for a joint at a skew between two skews that its supplier rates',
  parameters: {
    square: { ...rated, doc: 'minimum pulley for a square joint of the series, which no rating may exceed' },
    skew,
    skew1: { ...ratedAt, doc: 'the rated skew below, degrees; 0 is the square joint' },
    pulley1: { ...rated, doc: "the supplier's minimum pulley there" },
    skew2: { ...ratedAt, doc: 'the rated skew above, degrees' },
    pulley2: { ...rated, doc: "the supplier's minimum pulley there" },
  },
  result: { kind: 'length', doc: 'minimum pulley diameter' },
  source: "the supplier's ratings; between by the mean height of a rigid plate's end over the pulley",
  example: ['=RATEDPULLEY(450,30,0,450,45,330)', 390],
  calculate({ square, skew: angle, skew1, pulley1, skew2, pulley2 }) {
    for (const [name, pulley] of [
      ['pulley1', pulley1],
      ['pulley2', pulley2],
    ] as const)
      if (pulley > square)
        throw new Refusal(name, `must be at most the minimum pulley of a square joint (${square}), or one is mistaken`);
    if (skew2 <= skew1) throw new Refusal('skew2', `must be more than skew1 (${skew1})`);
    if (angle < skew1 || angle > skew2)
      throw new Refusal('skew', `must be between the rated skews, ${skew1} and ${skew2}`);
    return onLine(angle, [skew1, pulley1], [skew2, pulley2]);
  },
  formula:
    `IF(OR({pulley1}>{square},{pulley2}>{square},{skew2}<={skew1},{skew}<{skew1},{skew}>{skew2}),{refused},` +
    `{pulley1}+({pulley2}-{pulley1})*` +
    `(${sineSquaredText('{skew}')}-${sineSquaredText('{skew1}')})/` +
    `(${sineSquaredText('{skew2}')}-${sineSquaredText('{skew1}')}))`,
});

/** Words for a belt's service, each with the flag of the plate series that it calls for. */
export const serviceNeeds = {
  none: undefined,
  underground: 'flameResistant',
  'fire-rated': 'flameResistant',
  'metal detector': 'nonMagnetic',
  magnet: 'nonMagnetic',
  corrosive: 'corrosionResistant',
  food: 'food',
} as const;

/** What a series' material may stand, in the order in which SERVICECHECK takes it. */
export const serviceFlags = ['flameResistant', 'nonMagnetic', 'corrosionResistant', 'food'] as const;
export type ServiceFlag = (typeof serviceFlags)[number];

const isService = (word: string): word is keyof typeof serviceNeeds => Object.hasOwn(serviceNeeds, word);

/** The words of a service, in small letters. */
const serviceWords = (service: string): string[] =>
  service
    .toLowerCase()
    .split(/[,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');

/** The flags that a service calls for, as far as its words are known, each once. */
export const flagsCalledFor = (service: string): ServiceFlag[] => [
  ...new Set(serviceWords(service).flatMap((word) => (isService(word) ? (serviceNeeds[word] ?? []) : []))),
];

const flagDoc = (what: string): string => `"yes" when the series ${what}`;
const service = Object.entries(serviceNeeds);

const flagCheck = (flag: string): string =>
  `IFERROR(IF({${flag}}="yes","fits",IF({${flag}}="no","fails","not known")),"not known")`;
const called = (flag: string): string =>
  `OR(${service
    .filter(([, need]) => need === flag)
    .map(([word]) => `ISNUMBER(SEARCH("${word}",{service}))`)
    .join(',')})`;
const remainder = [...service.map(([word]) => word), ',', ';', ' '].reduce(
  (text, word) => `SUBSTITUTE(${text},"${word}","")`,
  'LOWER({service})',
);
const worst = (verdict: string): string =>
  `OR(${serviceFlags.map((flag) => `IF(${called(flag)},${flagCheck(flag)},"fits")="${verdict}"`).join(',')})`;

/**
 * Whether a series' material suits a belt's service.
 *
 * Each word of the service calls for one flag of the series. An empty service, a word that is not in the list, or a
 * flag that is neither yes nor no gives "not known": silence about fire or metal detectors is never taken for a pass.
 */
export const serviceCheck = define({
  name: 'SERVICECHECK',
  summary: `verdict on a series' material for a belt's service (${Object.keys(serviceNeeds).join(', ')})`,
  parameters: {
    service: { kind: 'verdict', doc: 'the words that apply, separated by commas; "none" if none does' },
    flameResistant: { kind: 'verdict', doc: flagDoc('is allowed in underground or fire-rated belts') },
    nonMagnetic: { kind: 'verdict', doc: flagDoc('passes metal detectors and magnets') },
    corrosionResistant: { kind: 'verdict', doc: flagDoc('is for wet and corrosive service') },
    food: { kind: 'verdict', doc: flagDoc('is for food service') },
  },
  result: { kind: 'verdict', doc: 'fits, fails or not known' },
  source: '30 CFR 75.1731(d) for underground belts; the rest common practice, no source',
  example: ['=SERVICECHECK("underground, magnet","yes","no","yes","no")', 'fails'],
  calculate(given) {
    const words = serviceWords(given.service);
    if (words.length === 0 || !words.every(isService)) return 'not known';
    const verdicts = words.map((word) => {
      const need = serviceNeeds[word];
      const flag = need === undefined ? 'yes' : given[need].toLowerCase();
      return flag === 'yes' ? 'fits' : flag === 'no' ? 'fails' : 'not known';
    });
    return verdicts.includes('fails') ? 'fails' : verdicts.includes('not known') ? 'not known' : 'fits';
  },
  formula:
    `IF(ISTEXT({service}),IF(OR(${remainder}<>"",SUBSTITUTE(SUBSTITUTE(SUBSTITUTE({service},",",""),";","")," ` +
    `","")=""),"not known",IF(${worst('fails')},"fails",IF(${worst('not known')},"not known","fits"))),"not known")`,
});
