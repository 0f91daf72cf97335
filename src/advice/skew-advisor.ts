import type { Verdict } from '../functions/checks.ts';

/**
 * The minimum skew at which a belt's joint passes every check, what it costs against a square joint, and which plate
 * series pass at which skews.
 *
 * Nothing here knows how a joint is checked: the caller gives a function that does, and asks for as many skews as it
 * likes. Angles are degrees from the square cut.
 */

/** What one skew and series come to: every check's verdict, and figures, undefined where they are not known. */
export interface Outcome<Check extends string, Figure extends string> {
  readonly verdicts: Readonly<Record<Check, Verdict>>;
  readonly figures: Readonly<Record<Figure, number | undefined>>;
}

export type Evaluate<Check extends string, Figure extends string> = (
  skew: number,
  series: string,
) => Outcome<Check, Figure>;

interface Question<Check extends string, Figure extends string> {
  readonly series: readonly string[];
  /** Skews of the table, ascending; the first is the one that others are compared with: 0 for the square joint. */
  readonly skews: readonly number[];
  readonly evaluate: Evaluate<Check, Figure>;
  /** How near to the true limit the minimum skew is looked for between two skews of the table. */
  readonly precision: number;
}

export interface Entry<Check extends string, Figure extends string> extends Outcome<Check, Figure> {
  readonly series: string;
  readonly skew: number;
  /** Whether every check fits or is tight. */
  readonly passes: boolean;
  /** The checks that fail or are not known. */
  readonly hindered: readonly Check[];
}

interface Advice<Check extends string, Figure extends string> {
  readonly series: string;
  /** At the minimum skew that passes; undefined when none of the skews looked at does. */
  readonly least?: Entry<Check, Figure>;
  /** Each figure at the minimum skew less the same at the first skew; undefined where either is not known. */
  readonly extra?: Readonly<Record<Figure, number | undefined>>;
  /** Checks that fail or are not known at every skew: more skew does not cure them. */
  readonly incurable: readonly Check[];
}

interface SkewAdvice<Check extends string, Figure extends string> {
  /** Series by series, each at all skews of the table. */
  readonly table: readonly Entry<Check, Figure>[];
  readonly advice: readonly Advice<Check, Figure>[];
}

const passing = (verdict: Verdict): boolean => verdict === 'fits' || verdict === 'tight';

/** An object's entries, its keys kept as what they are. */
const entriesOf = <Key extends string, Value>(record: Readonly<Record<Key, Value>>): [Key, Value][] =>
  Object.entries(record) as [Key, Value][];

type Figures<Figure extends string> = Readonly<Record<Figure, number | undefined>>;

function differences<Figure extends string>(figures: Figures<Figure>, from: Figures<Figure>): Figures<Figure> {
  const pairs = entriesOf(figures).map(([name, value]) => {
    const before = from[name];
    return [name, value === undefined || before === undefined ? undefined : value - before] as const;
  });
  return Object.fromEntries(pairs) as Record<Figure, number | undefined>;
}

/** Skews from 0 to `most` in equal steps, the last one `most` itself. */
export function skewSteps(most: number, step: number): number[] {
  if (!(most >= 0 && step > 0))
    throw new RangeError(`skews go up to at least 0 in steps of more than 0; ${most} and ${step} were given`);
  const whole = Math.ceil(most / step - 1e-9);
  return Array.from({ length: whole + 1 }, (_, index) => (index === whole ? most : index * step));
}

function checkQuestion({ skews, precision }: { readonly skews: readonly number[]; readonly precision: number }): void {
  if (skews.length === 0) throw new RangeError('no skews were given');
  if (skews.some((skew, index) => index > 0 && skew <= (skews[index - 1] ?? 0)))
    throw new RangeError(`the skews must ascend; ${skews.join(', ')} were given`);
  if (!(precision > 0))
    throw new RangeError(`the precision of the minimum skew must be more than 0; ${precision} was given`);
}

/**
 * Between a value that does not hold and a greater one that does, a value that holds, at most `precision` above one
 * that does not.
 */
function narrowed(fails: number, holds: number, precision: number, test: (value: number) => boolean): number {
  let [low, high] = [fails, holds];
  while (high - low > precision) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (test(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/**
 * Table and advice for every series.
 *
 * The minimum skew is the first of the given ones that passes, narrowed down towards the one before it. A joint may
 * pass, fail and pass again as the skew grows (a plate more, an edge too wide): what lies between two neighbouring
 * skews that fail is not seen, so give them as close as the answer must be sure. A check that is not known does not
 * pass. Throws RangeError on skews that do not ascend.
 */
export function skewAdvice<Check extends string, Figure extends string>(
  question: Question<Check, Figure>,
): SkewAdvice<Check, Figure> {
  checkQuestion(question);
  const { series: all, skews, evaluate, precision } = question;
  const entry = (series: string, skew: number): Entry<Check, Figure> => {
    const { verdicts, figures } = evaluate(skew, series);
    const hindered = entriesOf(verdicts).flatMap(([check, verdict]) => (passing(verdict) ? [] : [check]));
    return { series, skew, verdicts, figures, hindered, passes: hindered.length === 0 };
  };
  const bySeries = all.map((series) => ({ series, entries: skews.map((skew) => entry(series, skew)) }));
  const advice = bySeries.map(({ series, entries }): Advice<Check, Figure> => {
    const [square] = entries;
    const place = entries.findIndex(({ passes }) => passes);
    const [found, before] = [entries[place], entries[place - 1]];
    const incurable = (square?.hindered ?? []).filter((check) =>
      entries.every(({ hindered }) => hindered.includes(check)),
    );
    if (found === undefined || square === undefined) return { series, incurable };
    const skew =
      before === undefined
        ? found.skew
        : narrowed(before.skew, found.skew, precision, (skew) => entry(series, skew).passes);
    const least = skew === found.skew ? found : entry(series, skew);
    return { series, least, extra: differences(least.figures, square.figures), incurable };
  });
  return { table: bySeries.flatMap(({ entries }) => entries), advice };
}

/** What is best by a figure: the smallest at each series' minimum skew, of equals the smaller skew. */
export function bestBy<Figure extends string, Of extends { readonly least?: Least<Figure> }>(
  all: readonly Of[],
  figure: Figure,
): Of | undefined {
  const known = all.flatMap((one) => {
    const value = one.least?.figures[figure];
    return one.least === undefined || value === undefined ? [] : [{ one, value, skew: one.least.skew }];
  });
  return known.toSorted((a, b) => a.value - b.value || a.skew - b.skew)[0]?.one;
}

interface Least<Figure extends string> {
  readonly skew: number;
  readonly figures: Readonly<Partial<Record<Figure, number | undefined>>>;
}

interface PulleyMark {
  readonly name: string;
  readonly diameter: number;
  /** The minimum skew whose minimum pulley is no larger than this one; undefined when none of the skews reaches it. */
  readonly from?: number;
}

export interface PulleyPlot {
  readonly series: string;
  /** The minimum pulley over the skew; skews where it is not known are left out. */
  readonly curve: readonly { readonly skew: number; readonly pulley: number }[];
  readonly marks: readonly PulleyMark[];
}

/**
 * A plot of the minimum pulley against the skew for each series, the belt's own pulleys marked on it.
 *
 * `leastPulley` gives the joint's minimum pulley, undefined where it is not known. Marks are found like the minimum
 * skew.
 */
export function pulleyPlot(
  {
    series,
    skews,
    precision,
  }: { readonly series: readonly string[]; readonly skews: readonly number[]; readonly precision: number },
  leastPulley: (skew: number, series: string) => number | undefined,
  pulleys: readonly { readonly name: string; readonly diameter: number }[],
): PulleyPlot[] {
  checkQuestion({ skews, precision });
  return series.map((one) => {
    const reaches = (skew: number, diameter: number): boolean =>
      (leastPulley(skew, one) ?? Number.POSITIVE_INFINITY) <= diameter;
    const marks = pulleys.map(({ name, diameter }): PulleyMark => {
      const place = skews.findIndex((skew) => reaches(skew, diameter));
      const [found, before] = [skews[place], skews[place - 1]];
      if (found === undefined) return { name, diameter };
      return {
        name,
        diameter,
        from: before === undefined ? found : narrowed(before, found, precision, (skew) => reaches(skew, diameter)),
      };
    });
    const curve = skews.flatMap((skew) => {
      const pulley = leastPulley(skew, one);
      return pulley === undefined ? [] : [{ skew, pulley }];
    });
    return { series: one, curve, marks };
  });
}
