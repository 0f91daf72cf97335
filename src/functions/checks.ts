import { define } from '../formula/define.ts';
import { checkedValue, least, margin, most } from './parameters.ts';

/** Verdicts: a number against its limits, and the worst of several. */

/**
 * From best to worst. A missing input outweighs a pass, but not a failure that is already known. For tests: every
 * verdict is planted.
 */
export const verdicts = ['fits', 'tight', 'not known', 'fails'] as const;
export type Verdict = (typeof verdicts)[number];

/** In a verdict's place: the check is not made, since what it compares is not given and nobody has to give it. */
export const notAsked = 'not asked';

export const isVerdict = (value: unknown): value is Verdict => verdicts.some((verdict) => verdict === value);

/** What counts of a check's cell: one that is not asked fits, and whatever is no verdict is not known. */
export const verdictOf = (value: unknown): Verdict =>
  value === notAsked ? 'fits' : isVerdict(value) ? value : 'not known';

/**
 * The share of a limit by which a number may miss it and still count as equal: far below any measure, far above what
 * rounding leaves. Other spreadsheet programs take numbers that agree to 15 digits for equal when they compare them.
 */
const rounding = -12;
const slack = (limit: number): number => Math.abs(limit) * 10 ** rounding;
const slackText = (limit: string): string => `ABS({${limit}})*10^${rounding}`;

function againstLeast(value: number, least: number, margin: number): Verdict {
  if (value < least - slack(least)) return 'fails';
  return value < least * (1 + margin) - slack(least) ? 'tight' : 'fits';
}

function againstMost(value: number, most: number, margin: number): Verdict {
  if (value > most + slack(most)) return 'fails';
  return value > most * (1 - margin) + slack(most) ? 'tight' : 'fits';
}

/** The same comparisons as text. */
const belowLeast = `{value}<{least}-${slackText('least')}`;
const nearLeast = `{value}<{least}*(1+{margin})-${slackText('least')}`;
const aboveMost = `{value}>{most}+${slackText('most')}`;
const nearMost = `{value}>{most}*(1-{margin})+${slackText('most')}`;

/** The one of two verdicts that counts when both hold. */
export const worse = (one: Verdict, other: Verdict): Verdict =>
  verdicts.indexOf(one) >= verdicts.indexOf(other) ? one : other;

const ifKnown = (names: readonly string[], verdict: string): string =>
  `IF(AND(${[...names, 'margin'].map((name) => `ISNUMBER({${name}})`).join(',')}),IF(AND({margin}>=${margin.min},` +
  `{margin}<=${margin.max}),${verdict},"not known"),"not known")`;

/** A limit with the slack that still counts as equal, on the side that fails. */
const slackened = (limit: string, side: '-' | '+', isPositive: (name: string) => boolean): string =>
  isPositive(limit) ? `{${limit}}*(1${side}10^${rounding})` : `{${limit}}${side}${slackText(limit)}`;
/** The same with the margin. */
const nearly = (limit: string, side: '-' | '+', isPositive: (name: string) => boolean): string => {
  const margin = side === '-' ? '1+{margin}' : '1-{margin}';
  return isPositive(limit)
    ? `{${limit}}*(${margin}${side}10^${rounding})`
    : `{${limit}}*(${margin})${side}${slackText(limit)}`;
};
const known = (verdict: string): string => `IFERROR(${verdict},"not known")`;

/**
 * Verdict on a number that must not be below a limit.
 *
 * A number equal to its limit, but for rounding, does not fail; it is tight when there is a margin.
 * An error, a text or an empty cell in any place, or a margin that is no share, gives "not known", never a pass.
 */
export const leastCheck = define({
  name: 'LEASTCHECK',
  summary: 'verdict on a number against a minimum',
  parameters: { value: checkedValue, least, margin },
  result: { kind: 'verdict', doc: 'fits, tight, fails or not known' },
  source: 'definition',
  example: ['=LEASTCHECK(500,480,0.1)', 'tight'],
  calculate({ value, least, margin }) {
    if (value === undefined || least === undefined || margin === undefined) return 'not known';
    return againstLeast(value, least, margin);
  },
  formula: ifKnown(['value', 'least'], `IF(${belowLeast},"fails",IF(${nearLeast},"tight","fits"))`),
  ofNumbers: (isPositive) =>
    known(
      `IF({value}<${slackened('least', '-', isPositive)},"fails",` +
        `IF({value}<${nearly('least', '-', isPositive)},"tight","fits"))`,
    ),
});

/** Verdict on a number that must not be above a limit; else as LEASTCHECK. */
export const mostCheck = define({
  name: 'MOSTCHECK',
  summary: 'verdict on a number against a maximum',
  parameters: { value: checkedValue, most, margin },
  result: { kind: 'verdict', doc: 'fits, tight, fails or not known' },
  source: 'definition',
  example: ['=MOSTCHECK(41,40,0.1)', 'fails'],
  calculate({ value, most, margin }) {
    if (value === undefined || most === undefined || margin === undefined) return 'not known';
    return againstMost(value, most, margin);
  },
  formula: ifKnown(['value', 'most'], `IF(${aboveMost},"fails",IF(${nearMost},"tight","fits"))`),
  ofNumbers: (isPositive) =>
    known(
      `IF({value}>${slackened('most', '+', isPositive)},"fails",` +
        `IF({value}>${nearly('most', '+', isPositive)},"tight","fits"))`,
    ),
});

/** Verdict on a number that must lie between two limits: the worse of LEASTCHECK and MOSTCHECK. */
export const rangeCheck = define({
  name: 'RANGECHECK',
  summary: 'verdict on a number that must be between two limits',
  parameters: { value: checkedValue, least, most, margin },
  result: { kind: 'verdict', doc: 'fits, tight, fails or not known' },
  source: 'definition',
  example: ['=RANGECHECK(9,6,12,0.1)', 'fits'],
  calculate({ value, least, most, margin }) {
    if (value === undefined || least === undefined || most === undefined || margin === undefined) return 'not known';
    return worse(againstLeast(value, least, margin), againstMost(value, most, margin));
  },
  formula: ifKnown(
    ['value', 'least', 'most'],
    `IF(OR(${belowLeast},${aboveMost}),"fails",IF(OR(${nearLeast},${nearMost}),"tight","fits"))`,
  ),
  ofNumbers: (isPositive) => {
    const [below, above] = [slackened('least', '-', isPositive), slackened('most', '+', isPositive)];
    const [nearBelow, nearAbove] = [nearly('least', '-', isPositive), nearly('most', '+', isPositive)];
    return known(
      `IF(OR({value}<${below},{value}>${above}),"fails",` +
        `IF(OR({value}<${nearBelow},{value}>${nearAbove}),"tight","fits"))`,
    );
  },
});

const verdictList = `{${verdicts.map((verdict) => `"${verdict}"`).join(';')}}`;
const among = (word: string): string => `COUNTIF({range},"${word}")`;
const is = (word: string): string => `({verdict}="${word}")`;

/**
 * The worst of some verdicts, in any order.
 *
 * "fails" if any fails; else "not known" if any is not known; else "tight" if any is tight; else "fits". "not asked",
 * of a check that is not made, counts as "fits". Whatever is none of these words (an error, an empty cell, a number)
 * counts as not known. Compared without case.
 */
export const worstVerdict = define({
  name: 'WORSTVERDICT',
  summary: 'the worst of several verdicts',
  parameters: { verdict: { kind: 'verdict', rest: true, doc: `a verdict; "${notAsked}" counts as fits` } },
  result: { kind: 'verdict', doc: 'fits, tight, fails or not known' },
  source: 'definition',
  example: ['=WORSTVERDICT("fits","tight","not known","fits")', 'not known'],
  calculate: ({ verdict }) => verdict.map((word) => verdictOf(word.toLowerCase())).reduce(worse, 'fits'),
  // The place in the list, from that of "not known". An error divided by is an error, no word divides by FALSE, and
  // what comes of either is no number. Looking the word up instead would take * for any text.
  formula:
    `INDEX(${verdictList},SUMPRODUCT(MAX(EACH(3-2*ISNUMBER(1/(${is('fits')}+${is(notAsked)}))` +
    `-ISNUMBER(1/${is('tight')})+ISNUMBER(1/${is('fails')})))))`,
  overRange:
    `IF(${among('fails')}>0,"fails",IF(${among('fits')}+${among('tight')}+${among(notAsked)}<COLUMNS({range}),` +
    `"not known",IF(${among('tight')}>0,"tight","fits")))`,
});
