import { belts } from '../../sheets/belts/index.ts';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { verdictOf, verdicts } from '../functions/checks.ts';
import type { Value } from '../formula/values.ts';
import { beltColumn } from '../records/belt.ts';
import { amount, listed } from '../sheet/words.ts';
import { nearest } from '../units/nearest.ts';
import { isWords, type UnitSystem } from '../units/quantities.ts';
import { readQuantity } from '../units/reading.ts';
import { columnNamed } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Target } from './solutions.ts';
import { ChangeRefused, typedMark } from './typed-change.ts';

/** What is wanted of a belt's column: "Joint minimum pulley<=400", "Pulley check", "Verdict=fits". */

type Operator = '<=' | '>=' | '<' | '>' | '=' | '<>';

export interface Goal extends Target {
  readonly header: BeltHeader;
  /** In words: "Joint minimum pulley at most 400 mm". */
  readonly words: string;
}

const isVerdictColumn = (header: BeltHeader): boolean =>
  header === 'Verdict' || checkColumns.some((check) => check.header === header);

/** How far a verdict is from one that is good enough. */
const verdictDistance = (value: Value, wanted: 'fits' | 'tight'): number =>
  Math.max(0, verdicts.indexOf(verdictOf(value)) - verdicts.indexOf(wanted));

/** That a check, or the whole belt, does not fail: it fits or is tight. For tests: random goals are made of it. */
export const passes = (header: BeltHeader): Goal => ({
  header,
  words: `${header} passes`,
  distance: (value) => verdictDistance(value, 'tight'),
});

const operatorWords: Readonly<Record<Operator, string>> = {
  '<=': 'at most',
  '>=': 'at least',
  '<': 'below',
  '>': 'above',
  '=': 'equal to',
  '<>': 'other than',
};

/** By how much a number misses its limit. A strict limit is missed by nothing at the limit itself, yet missed. */
function missing(value: number, operator: Operator, limit: number): number {
  const beyond = operator === '<=' || operator === '<' ? value - limit : limit - value;
  switch (operator) {
    case '=':
      return Math.abs(value - limit);
    case '<>':
      return value === limit ? Number.MIN_VALUE : 0;
    case '<':
    case '>':
      return beyond === 0 ? Number.MIN_VALUE : Math.max(0, beyond);
    default:
      return Math.max(0, beyond);
  }
}

function numberGoal(header: BeltHeader, operator: Operator, typed: string, units: UnitSystem): Goal {
  const column = beltColumn(header);
  const reading = readQuantity(typed, column.kind, { system: units, decimal: typedMark(typed) });
  if ('reason' in reading)
    throw new ChangeRefused(`${header}: "${typed}" was not understood: ${reading.reason}. Give ${reading.allowed}.`);
  const limit = reading.value;
  const shown = amount(limit, { ...column, digits: 6 }, units);
  return {
    header,
    words: `${header} ${operatorWords[operator]} ${shown}`,
    distance: (value) => (typeof value === 'number' ? missing(value, operator, limit) : undefined),
    ...(operator === '=' ? { difference: (value) => (typeof value === 'number' ? value - limit : undefined) } : {}),
  };
}

function wordGoal(header: BeltHeader, operator: Operator, typed: string): Goal {
  if (operator !== '=' && operator !== '<>')
    throw new ChangeRefused(`${header} holds words: ask for ${header}=WORD or ${header}<>WORD.`);
  const wanted = typed.trim().toLowerCase();
  if (isVerdictColumn(header) && !verdicts.some((verdict) => verdict === wanted))
    throw new ChangeRefused(`${header} is ${listed(verdicts, 'or')}; "${typed}" was given.`);
  const is = (value: Value): boolean => String(value ?? '').toLowerCase() === wanted;
  return {
    header,
    words: `${header} ${operator === '=' ? 'is' : 'is not'} "${wanted}"`,
    distance: (value) =>
      is(value) === (operator === '=') ? 0 : operator === '=' && wanted === 'fits' ? verdictDistance(value, 'fits') : 1,
  };
}

/**
 * A goal as it is typed. A check or Verdict alone is wanted to pass. Throws ChangeRefused for what can't be read: a
 * column that there is not, a number that is none.
 */
export function typedGoal(book: Workbook, typed: string): Goal {
  const [, name = typed, operator, limit = ''] = /^([^<>=]*)(<=|>=|<>|<|>|=)([^]*)$/.exec(typed) ?? [];
  const column = columnNamed(book.sheet(belts.name), name.trim());
  const declared = column === undefined ? undefined : belts.columns[column];
  if (declared === undefined) {
    const near = nearest(
      name,
      belts.columns.map(({ header }) => header),
    );
    throw new ChangeRefused(
      `The sheet Belts has no column ` +
        `"${name.trim()}".${near.length === 0 ? '' : ` Did you mean ` + `${listed(near, 'or')}?`}`,
    );
  }
  const { header, kind } = declared;
  if (operator === undefined) {
    if (isVerdictColumn(header)) return passes(header);
    throw new ChangeRefused(`"${typed}" says no goal. Write ${header}<=VALUE, ${header}>=VALUE or ${header}=VALUE.`);
  }
  // The pattern lets no other through.
  const known = operator as Operator;
  return isWords(kind) ? wordGoal(header, known, limit) : numberGoal(header, known, limit.trim(), book.units);
}
