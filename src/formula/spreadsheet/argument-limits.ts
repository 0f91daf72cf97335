/**
 * Why a function of the engine is not to be called with these arguments, where it would answer and other programs
 * refuse. Source: ECMA-376 Part 1, 18.17.7, and what LibreOffice refuses.
 */

const within = (name: string, period: number | undefined, periods: number | undefined): string | undefined =>
  period !== undefined && periods !== undefined && (period < 1 || period > periods)
    ? `${name}: the period must be from 1 to the ${periods} that there are; ${period} was given`
    : undefined;

const above0 = (name: string, value: number | undefined): string | undefined =>
  value !== undefined && value <= 0 ? `${name} takes a number above 0 as its first; ${value} was given` : undefined;

const notNegative = (name: string, value: number | undefined): string | undefined =>
  value !== undefined && value < 0 ? `${name} takes a number of 0 or more as its first; ${value} was given` : undefined;

const limits: Readonly<Record<string, (name: string, given: readonly (number | undefined)[]) => string | undefined>> = {
  IPMT: (name, [, period, periods]) => within(name, period, periods),
  PPMT: (name, [, period, periods]) => within(name, period, periods),
  CUMIPMT: (name, [, periods, , , last]) => within(name, last, periods),
  CUMPRINC: (name, [, periods, , , last]) => within(name, last, periods),
  DB: (name, [, , periods, period]) => within(name, period, (periods ?? Infinity) + 1),
  DDB: (name, [, , periods, period]) => within(name, period, periods),
  NOMINAL: (name, [rate]) => above0(name, rate),
  'CHISQ.DIST': (name, [x]) => notNegative(name, x),
  'CHISQ.DIST.RT': (name, [x]) => notNegative(name, x),
  CHIDIST: (name, [x]) => notNegative(name, x),
  'CHISQ.INV': (name, [chance]) =>
    chance !== undefined && chance >= 1 ? `${name} takes a probability below 1; ${chance} was given` : undefined,
  'CHISQ.INV.RT': (name, [chance]) => above0(name, chance),
  CHIINV: (name, [chance]) => above0(name, chance),
  COMBINA: (name, [all, taken]) =>
    all !== undefined && taken !== undefined && Math.trunc(taken) > Math.trunc(all)
      ? `${name}: at most as many may be taken as there are; ${taken} of ${all} were asked`
      : undefined,
};

export const refusedNumbers = (name: string, given: readonly (number | undefined)[]): string | undefined =>
  limits[name]?.(name, given);
