import {
  type CheckHeader,
  checkHeader,
  type CheckWord,
  comparedFormula,
  marginOf,
} from '../../sheets/belts/check-columns.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { type Belt, beltColumn, seriesColumn } from '../records/belt.ts';
import type { Figure } from '../records/finding.ts';
import type { CheckDeclaration, ComparedNumber, Words, WordSide } from '../../sheets/belts/check-declaration.ts';
import type { Value } from '../formula/values.ts';
import { amounts, capital, type Measure, share } from '../sheet/words.ts';
import { unitOf } from '../units/quantities.ts';
import { deferrals } from '../workbook/safety.ts';
import type { Asking } from '../records/belt-trials.ts';
import { checkedBelt } from './checked-belt.ts';
import { cureKinds } from './cures/kinds.ts';
import { type Cure, ordered, untried } from './cures/sought.ts';

/** A declared check of a belt in a book: what it compared, how it says so, and what would cure it. */
export interface Check {
  /** As the sheet's Findings column names it. */
  readonly word: string;
  /** Of its verdict, whose formula is the sheet's own: a check explains it. */
  readonly column: CheckHeader;
  /** The column to look at first when the check does not fit. */
  readonly look: BeltHeader;
  readonly given: (belt: Belt) => Figure;
  readonly limit: (belt: Belt) => Figure;
  /** One sentence of what was compared, with both numbers. */
  readonly message: (belt: Belt, verdict: 'fails' | 'tight') => string;
  /** A search for what would cure it, the easiest first. */
  readonly cures: (belt: Belt, verdict: 'fails' | 'tight') => Asking<readonly Cure[]>;
}

/** A number of a check: which, what it measures, how much. */
interface Side {
  readonly label: string;
  readonly measure: Measure;
  readonly value: number | undefined;
}

/** Which way a number is wrong when it passes its limit. */
type Direction = 'minimum' | 'maximum';

interface Limit extends Side {
  readonly direction: Direction;
}

const inWords = (words: Words, belt: Belt): string => (typeof words === 'string' ? words : words(checkedBelt(belt)));

/** A compared number as a belt has it: as the cell holds it, or as the verdict's own formula works it out. */
function sideOf(number: ComparedNumber): (belt: Belt) => Side {
  const { label } = number;
  const measure = number.sheet === 'Belts' ? beltColumn(number.header) : seriesColumn(number.header);
  const valueOf = (belt: Belt): Value => {
    if (number.formula !== undefined) return belt.worked(comparedFormula(number));
    return number.sheet === 'Belts' ? belt.value(number.header) : belt.ofSeries(number.header);
  };
  return (belt) => {
    const value = valueOf(belt);
    return { label: inWords(label, belt), measure, value: typeof value === 'number' ? value : undefined };
  };
}

const figure = ({ label, measure, value }: Side, belt: Belt): Figure => ({
  label,
  value: value ?? null,
  kind: measure.kind,
  unit: unitOf(measure.kind, belt.units),
});

const wordFigure = ({ label, value }: WordSide, belt: Belt): Figure => ({
  label: inWords(label, belt),
  value: value(checkedBelt(belt)),
  kind: 'text',
  unit: '',
});

/** How far a number is within its limit, as a share of it; negative beyond. */
const room = (given: number, { direction }: Limit, limit: number): number =>
  limit === 0 ? 0 : (direction === 'minimum' ? given - limit : limit - given) / Math.abs(limit);

const beyond: Readonly<Record<Direction, string>> = { minimum: 'is below', maximum: 'is above' };
const within: Readonly<Record<Direction, string>> = { minimum: 'above', maximum: 'below' };

/** A number against its limit, in one sentence. */
function compared(given: Side, limit: Limit, isBeyond: boolean, margin: number | undefined, belt: Belt): string {
  if (given.value === undefined || limit.value === undefined)
    return `${capital(given.label)} cannot be compared with ${limit.label}.`;
  const [one, other] = amounts(given.value, limit.value, given.measure, belt.units);
  const subject = `${capital(given.label)}, ${one},`;
  if (isBeyond) return `${subject} ${beyond[limit.direction]} ${limit.label}, ${other}.`;
  const far = room(given.value, limit, limit.value);
  const than = margin === undefined ? '' : `, less than the margin of ${share(margin)}`;
  return Math.abs(far) < 1e-9
    ? `${subject} equals ${limit.label}, ${other}: no margin.`
    : `${subject} is only ${share(far)} ${within[limit.direction]} ${limit.label}, ${other}${than}.`;
}

const roomLeft = (given: Side, limit: Limit): number =>
  given.value === undefined || limit.value === undefined ? Infinity : room(given.value, limit, limit.value);

/** A check that only warns says so where another would fail: its verdict alone reads like a pass by a narrow margin. */
const onlyWarns = 'This check only warns: the belt is tight, it does not fail.';

/** What a check compares, in figures and in a sentence. */
type Comparison = Pick<Check, 'given' | 'limit' | 'message'>;

function comparison(declared: CheckDeclaration): Comparison {
  if ('verdict' in declared) {
    const { given, limit, message } = declared.verdict;
    const { atWorst } = declared;
    return {
      given: (belt) => wordFigure(given, belt),
      limit: (belt) => wordFigure(limit, belt),
      message: (belt, verdict) =>
        [message(checkedBelt(belt)), ...(verdict === 'tight' && atWorst === 'tight' ? [onlyWarns] : [])].join(' '),
    };
  }
  const { word, value, atWorst } = declared;
  const given = sideOf(value);
  const minimum = declared.minimum && sideOf(declared.minimum);
  const maximum = declared.maximum && sideOf(declared.maximum);
  /** Of two limits the one that the number passes by most, or is nearest to. */
  const limitOf = (belt: Belt): Limit => {
    const side = given(belt);
    const [nearest] = [
      ...(minimum === undefined ? [] : [{ ...minimum(belt), direction: 'minimum' } as const]),
      ...(maximum === undefined ? [] : [{ ...maximum(belt), direction: 'maximum' } as const]),
    ].toSorted((one, other) => roomLeft(side, one) - roomLeft(side, other));
    if (nearest === undefined) throw new Error(`the check ${word} has no limit`);
    return nearest;
  };
  return {
    given: (belt) => figure(given(belt), belt),
    limit: (belt) => figure(limitOf(belt), belt),
    message(belt, verdict) {
      const [side, limit] = [given(belt), limitOf(belt)];
      const isBeyond = verdict === 'fails' || (atWorst !== undefined && roomLeft(side, limit) < 0);
      const sentence = compared(side, limit, isBeyond, belt.named(marginOf(declared)), belt);
      return isBeyond && verdict === 'tight' ? `${sentence} ${onlyWarns}` : sentence;
    },
  };
}

/** A declared check, ready to explain its verdict on a belt. */
export function explainedCheck(declared: CheckDeclaration & { readonly word: CheckWord }): Check {
  const { word, look, remark, cures, defers } = declared;
  const { given, limit, message } = comparison(declared);
  const check = { word, column: checkHeader(word), margin: marginOf(declared) };
  return {
    word,
    column: check.column,
    look: beltColumn(look).header,
    given,
    limit,
    message: (belt, verdict) =>
      [message(belt, verdict), remark?.(checkedBelt(belt), verdict) ?? ''].filter((text) => text !== '').join(' '),
    *cures(belt, verdict) {
      const found: Cure[] = [];
      for (const cure of cures) {
        if (typeof cure === 'function') {
          found.push(untried(cure(checkedBelt(belt))));
          continue;
        }
        const kind = cureKinds[cure]({ belt, check, verdict });
        found.push(...('next' in kind ? yield* kind : kind));
      }
      return ordered(found)
        .filter(({ text }) => text !== '')
        .concat(defers === true && verdict === 'fails' ? [untried(deferrals.run)] : []);
    },
  };
}
