import { define } from '../formula/define.ts';
import { skew } from './parameters.ts';

/** What a plate series' own figures say of a joint: its pulley at a skew, and the service its material stands. */

/**
 * Least pulley for a joint at a skew, the supplier's rating first.
 *
 * At 45 degrees a supplier's rating for 45 is the answer. At other skews MINPULLEY's rule gives it, and where the
 * supplier's rating at 45 is larger than the rule's figure, that rating is the least allowed: the cautious one governs.
 */
export const jointPulley = define({
  name: 'JOINTPULLEY',
  summary: "minimum pulley for a joint at its skew: the supplier's rating, otherwise the bend-angle rule",
  parameters: {
    square: { kind: 'length', above: 0, doc: 'minimum pulley for a square joint of the series' },
    skew,
    at45: {
      kind: 'length',
      above: 0,
      optional: true,
      doc: "the supplier's minimum pulley at 45 degrees; empty: not rated",
    },
  },
  result: { kind: 'length', doc: 'minimum pulley diameter' },
  source: "the supplier's rating if given; otherwise equal bend angle at the plate's edge (MINPULLEY)",
  example: ['=JOINTPULLEY(450,45,330)', 330],
  calculate({ square, skew: angle, at45 }) {
    const rule = square * Math.cos((angle * Math.PI) / 180);
    if (at45 === undefined) return rule;
    return angle === 45 ? at45 : Math.max(rule, at45);
  },
  formula: (given) =>
    given.has('at45')
      ? 'IF(ISBLANK({at45}),{square}*COS(RADIANS({skew})),IF({skew}=45,{at45},MAX({square}*' +
        'COS(RADIANS({skew})),{at45})))'
      : '{square}*COS(RADIANS({skew}))',
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
