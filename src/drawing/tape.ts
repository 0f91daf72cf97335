import { shortText, withShownMark } from '../units/shown-mark.ts';
import { inch } from '../units/quantities.ts';

/**
 * Lengths as a tape shows them: whole millimetres, or inches and sixteenths.
 *
 * A rounded length is at most half a step from the exact one. Lengths that follow each other are each rounded from the
 * exact running length, never summed from rounded steps, so that half a step is all that the last one is off, too.
 */
export type LengthUnit = 'mm' | 'in';

/** How many millimetres a length is. */
export const millimetres: Readonly<Record<LengthUnit, number>> = { mm: 1, in: inch };

/** What a tape's finest marks are apart. For tests: readings are held to the tape. */
export const tapeStep: Readonly<Record<LengthUnit, number>> = { mm: 1, in: 1 / 16 };

/**
 * The nearest mark of a tape; of a length midway between two marks always the same one, whichever way it was worked
 * out.
 */
export function onTape(value: number, unit: LengthUnit): number {
  const step = tapeStep[unit];
  // + 0 turns -0 into 0.
  return Math.round(Number((value / step).toFixed(9))) * step + 0;
}

/** A whole number of sixteenths as a tape is read. */
function fractionText(value: number): string {
  const sixteenths = Math.abs(value) * 16;
  const whole = Math.floor(sixteenths / 16);
  let [above, below] = [sixteenths % 16, 16];
  while (above > 0 && above % 2 === 0) [above, below] = [above / 2, below / 2];
  const parts = [...(whole > 0 || above === 0 ? [String(whole)] : []), ...(above > 0 ? [`${above}/${below}`] : [])];
  return `${value < 0 ? '-' : ''}${parts.join(' ')}`;
}

/** The nearest mark of a tape without its unit: "919", "36 3/16". */
export const tapeNumber = (value: number, unit: LengthUnit): string =>
  unit === 'mm' ? withShownMark(String(onTape(value, unit))) : fractionText(onTape(value, unit));

/** The nearest mark of a tape with its unit: "919 mm", "36 3/16 in". */
export const tapeText = (value: number, unit: LengthUnit): string => `${tapeNumber(value, unit)} ${unit}`;

/** A length of a part, finer than a tape shows: "6.3 mm", "0.248 in". */
export const fineText = (value: number, unit: LengthUnit): string =>
  `${shortText(value, unit === 'mm' ? 1 : 3)} ${unit}`;
