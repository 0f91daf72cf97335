import { isNear } from './near-numbers.ts';

/**
 * Rounding to decimal places as spreadsheet programs do it: of the decimal number that is meant, not of its binary
 * neighbour. 1.005 stands in the machine a little below; to two places it is 1.01.
 *
 * The number is taken with its 15 significant digits, which is what a cell holds (ISO/IEC 29500).
 */

type Step = (value: number) => number;

/** A number with its decimal point moved, by its digits: multiplying by 10^n would round once more. */
function shifted(value: number, places: number): number {
  const [mantissa = '0', power = '0'] = value.toString().split('e');
  return Number(`${mantissa}e${Number(power) + places}`);
}

const fifteenDigits = (value: number): number => (Number.isFinite(value) ? Number(value.toPrecision(15)) : value);

function atPlaces(value: number, digits: number, step: Step): number {
  const places = Math.trunc(digits);
  if (value === 0 || places > 300) return value;
  if (places < -308) return 0;
  const moved = shifted(fifteenDigits(value), places);
  // Of a number so large the last of 15 digits stands far before the place.
  if (!Number.isFinite(moved)) return value;
  const result = shifted(step(moved), -places);
  return result === 0 ? 0 : result;
}

const powers = Array.from({ length: 16 }, (_, places) => 10 ** places);

/**
 * A number rounded to a whole number of units in its last place, where it is clear which: it lies farther from the
 * middle between two than 15 digits leave open. A whole number over a power of ten is then the same as its digits read.
 */
function clearlyRounded(value: number, digits: number): number | undefined {
  const power = powers[digits];
  const units = Math.abs(value) * (power ?? NaN);
  if (power === undefined || value === 0 || !(units < 2 ** 50)) return undefined;
  const whole = Math.floor(units);
  const part = units - whole;
  if (Math.abs(part - 0.5) <= 1e-14 * units + 1e-14) return undefined;
  const result = (part > 0.5 ? whole + 1 : whole) / power;
  return result === 0 ? 0 : value < 0 ? -result : result;
}

const halfAway: Step = (value) => Math.sign(value) * Math.round(Math.abs(value));
const away: Step = (value) => Math.sign(value) * Math.ceil(Math.abs(value));

/** For tests: the quick way is held to it. */
export const roundedByDigits = (value: number, digits = 0): number => atPlaces(value, digits, halfAway);

export const rounded = (value: number, digits = 0): number =>
  clearlyRounded(value, digits) ?? roundedByDigits(value, digits);
export const roundedDown = (value: number, digits = 0): number => atPlaces(value, digits, Math.trunc);
export const roundedUp = (value: number, digits = 0): number => atPlaces(value, digits, away);

/** The next whole number below; one that is whole but for rounding stays. */
export function floored(value: number): number {
  const whole = Math.round(value);
  return isNear(value, whole) ? whole : Math.floor(value);
}

/** The next whole number above; one that is whole but for rounding stays. */
export function ceiled(value: number): number {
  const whole = Math.round(value);
  return isNear(value, whole) ? whole : Math.ceil(value);
}
