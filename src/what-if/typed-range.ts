import { readQuantity } from '../units/reading.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { AskedRange, Factor } from './factor.ts';
import { ChangeRefused, typedMark } from './typed-change.ts';

/** A range and its step as people type them, '' or undefined for what is not said. */
export type TypedRange = Readonly<Partial<Record<keyof AskedRange, string | undefined>>>;

const ends = ['from', 'to', 'step'] as const satisfies readonly (keyof AskedRange)[];

/**
 * The range in the factor's unit; what is typed may stand in another, beside its number. Throws ChangeRefused, whose
 * message begins with `called` of what can't be read.
 */
export function typedRange(
  factor: Factor,
  book: Workbook,
  typed: TypedRange,
  called: (end: keyof AskedRange) => string,
): AskedRange {
  const found: Partial<Record<keyof AskedRange, number>> = {};
  for (const end of ends) {
    const text = typed[end]?.trim() ?? '';
    if (text === '') continue;
    const reading = readQuantity(text, factor.kind, { system: book.units, decimal: typedMark(text) });
    if ('reason' in reading)
      throw new ChangeRefused(
        `${called(end)}: "${text}" was not understood: ${reading.reason}. Give ${reading.allowed}.`,
      );
    if (end === 'step' && !(reading.value > 0))
      throw new ChangeRefused(`${called(end)} must be more than 0; "${text}" was given`);
    found[end] = reading.value;
  }
  if (found.from !== undefined && found.to !== undefined && found.from > found.to)
    throw new ChangeRefused(`${called('from')} must not be above ${called('to')}`);
  return found;
}
