import type { Among } from './among.ts';
import { type CaseRoom, type CaseValues, caseValue, parted } from './case-values.ts';
import { asTruth } from './standard.ts';
import { isFault, type Value } from './values.ts';

/** What each case makes of a condition: those that hold it, those that do not, and the others with their errors. */
export function chosen(room: CaseRoom, condition: CaseValues, among: Among): readonly [Among, Among, Among] {
  const none: Among = { at: among.at, count: 0 };
  if (condition.of === 'same') {
    const truth = asTruth(condition.value);
    return isFault(truth) ? [none, none, among] : truth ? [among, none, none] : [none, among, none];
  }
  if (condition.of === 'truths') {
    const { values } = condition;
    return [...parted(room, among, (index) => values[index] === 1), none];
  }
  const [known, unknown] = parted(room, among, (index) => !isFault(asTruth(caseValue(condition, index))));
  return [...parted(room, known, (index) => asTruth(caseValue(condition, index)) === true), unknown];
}

/** Why a condition holds neither way. */
export const faultOf = (value: Value): Value => asTruth(value);
