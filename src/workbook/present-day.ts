import type { Content } from '../formula/values.ts';
import { serialOf } from '../units/dates.ts';

/**
 * The day that it is here now, and the formula by which a cell follows it.
 *
 * The formula stands in every book whose ages count to today. It needs no cell and no engine, so it is worked out
 * here, and a book with no other formula stays as quick as one without any.
 */
export const dayFormula = '=TODAY()';

export const isDayFormula = (content: Content): boolean =>
  typeof content === 'string' && /^=\s*TODAY\(\s*\)\s*$/i.test(content);

/** Today's serial number, on the clock of this computer. */
export function today(now = new Date()): number {
  const serial = serialOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
  // The clock of a computer is within the years that dates have.
  if (serial === undefined) throw new Error(`the clock shows a year without dates: ${now.getFullYear()}`);
  return serial;
}

/** What a content is worth today: the formula's day, anything else as it is. */
export const contentToday = (content: Content): Content => (isDayFormula(content) ? today() : content);
