import { fixedText, groupedText } from '../../units/shown-mark.ts';
/** Figures as the planning dialogs write them. */

export const money = (value: number): string =>
  groupedText(value, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
export const wholeMoney = (value: number): string => groupedText(Math.round(value));
export const percent = (value: number): string => `${fixedText(value * 100, 1)} %`;

/** A quantity with as many digits as it needs, at most two. */
export const plain = (value: number): string =>
  groupedText(value, { maximumFractionDigits: Math.abs(value) < 10 ? 2 : 1 });
