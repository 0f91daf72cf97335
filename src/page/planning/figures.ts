/** Figures as the planning dialogs write them. */

export const money = (value: number): string =>
  value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
export const wholeMoney = (value: number): string => Math.round(value).toLocaleString('en-US');
export const percent = (value: number): string => `${(value * 100).toFixed(1)} %`;

/** A quantity with as many digits as it needs, at most two. */
export const plain = (value: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: Math.abs(value) < 10 ? 2 : 1 });
