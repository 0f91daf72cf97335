import { groupedText, shownMark } from '../../units/shown-mark.ts';
import type { ScaleOptions } from '@observablehq/plot';
import { dayLength, dayZero } from '../../units/dates.ts';
import type { Axis } from '../picture.ts';
import { roundTicks } from '../round-ticks.ts';

/** Axes as the plotting library takes them, and the room that their words need. */

/** The size of all text in a picture, in CSS pixels, and about how wide a letter of it is. */
export const textSize = 11;
const letter = 6;

export const textWidth = (text: string): number => text.length * letter;

/** A value where its axis has it: days as dates, whose months and years are then written. */
export const placed = ({ scale }: Axis, value: number): number | Date =>
  scale === 'date' ? new Date(dayZero + value * dayLength) : value;

/** Names that fit beside each other: all, or every so many. */
export function thinned(names: readonly string[], room: number, each: number): number[] {
  const every = Math.max(1, Math.ceil((names.length * each) / Math.max(1, room)));
  return [...names.keys()].filter((place) => place % every === 0);
}

/** Room beside an axis for names, within bounds, so that a long name leaves some for the picture. */
export const nameRoom = (names: readonly string[], most: number): number =>
  Math.min(most, Math.max(24, ...names.map(textWidth)) + 14);

/** A name as it fits into its room. */
export function shortened(name: string, room: number): string {
  const letters = Math.max(3, Math.floor((room - 14) / letter));
  return name.length <= letters ? name : `${name.slice(0, letters - 1)}…`;
}

/** Pixels from one mark of an axis to the next, about, and of an upright one. */
const [tickRoom, uprightRoom] = [70, 34];

/** How an axis of numbers lies. */
interface Lie {
  readonly room: number;
  readonly upright: boolean;
  /** It begins at 0 and ends with what is drawn, as for bars. */
  readonly fromZero?: boolean;
}

const spread = (values: readonly number[], fromZero: boolean): readonly [from: number, to: number] => {
  const low = values.reduce((least, value) => Math.min(least, value), fromZero ? 0 : Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), fromZero ? 0 : -Infinity);
  if (low > high) return [0, 1];
  if (low < high) return [low, high];
  const around = Math.abs(low || 1) / 10;
  return fromZero ? [0, 1] : [low - around, high + around];
};

/** Writes ticks with as many digits as it takes to tell them apart. */
function tickText(ticks: readonly number[]): (value: number) => string {
  const digits = Math.max(0, ...ticks.map((tick) => (String(tick).split('.')[1] ?? '').length));
  return (value) => groupedText(value, { minimumFractionDigits: digits, maximumFractionDigits: digits });
}

/** An axis of numbers or dates over a range of its values. */
export function measured(
  axis: Axis,
  values: readonly number[],
  { room, upright, fromZero = false }: Lie,
): ScaleOptions {
  if (axis.scale === 'date') return { type: 'utc', label: axis.label };
  const percent = axis.scale === 'percent';
  const [from, to] = spread(values, fromZero).map((value) => value * (percent ? 100 : 1));
  const about = Math.max(2, Math.floor(room / (upright ? uprightRoom : tickRoom)));
  const all = roundTicks(from ?? 0, to ?? 1, about);
  const ticks = all.filter(
    (tick) => (axis.whole !== true || Number.isInteger(tick)) && (!fromZero || tick <= (to ?? 1)),
  );
  return {
    type: 'linear',
    label: axis.label,
    percent,
    domain: fromZero ? [0, to ?? 1] : [all[0] ?? 0, all.at(-1) ?? 1],
    ticks,
    ...(axis.whole === true || shownMark() === 'comma' ? { tickFormat: tickText(ticks) } : {}),
  };
}
