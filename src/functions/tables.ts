/** Tables that the functions read, laid out like the printed ones, with their source. */

/**
 * Least pulley as a multiple of the carcass's thickness (of a steel cord: of the cord's diameter).
 *
 * Source: DIN 22101 and ISO 3684, from memory; the four factors also in GB 50431-2020 clause 8.2.1.
 */
export const carcassFactors = [
  { code: 'B', material: 'cotton', factor: 80 },
  { code: 'P', material: 'polyamide', factor: 90 },
  { code: 'NN', material: 'polyamide', factor: 90 },
  { code: 'E', material: 'polyester', factor: 108 },
  { code: 'EP', material: 'polyester and polyamide', factor: 108 },
  { code: 'St', material: 'steel cord', factor: 145 },
] as const;

/**
 * Standard pulley diameters without lagging, mm; of a crowned pulley the largest.
 *
 * Source: DIN 22101 and ISO 1536, from memory.
 */
export const standardPulleys: readonly number[] = [
  100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1400, 1600, 1800, 2000,
];

/**
 * Usual pulley diameters of inch practice, in: what a planner there can order.
 *
 * The carcass steps along the metric series in either unit system, so a belt has one minimum pulley whichever units its
 * book is in. A step by use and group is one of that series, about a quarter; here it is a ninth to a third. A step up,
 * for a belt beyond its rating, from 18 to 20 in would ask for a ninth more instead of a quarter, and no source gives
 * steps for these.
 *
 * Source: from memory.
 */
export const inchPulleys: readonly number[] = [6, 8, 10, 12, 14, 16, 18, 20, 24, 30, 36, 42, 48, 54, 60];

/**
 * Pulleys at which a step down the series passes over entries: one step from a diameter above the first of these, two
 * from one above the second, so that 1600 is followed by 1250 and 1000, 1800 by 1400 and 1250, 2000 by 1600 and 1250.
 *
 * Source: a published sheet of pulley diameters after DIN 22101, seen; below 1600 mm it steps entry by entry.
 */
export const passedOver: readonly number[] = [1400, 1800];

/**
 * Steps along the series of standard pulleys by the share of the belt's permitted tension that is used, in per cent.
 *
 * Groups: A drive and other high-tension pulleys, B low-tension bends, C snubs with at most 30 degrees of wrap.
 * Source: DIN 22101, from memory.
 */
export const pulleySteps = [
  { over: 100, A: 1, B: 0, C: -1 },
  { over: 60, A: 0, B: -1, C: -2 },
  { over: 30, A: -1, B: -2, C: -3 },
  { over: 0, A: -2, B: -2, C: -3 },
] as const;

/**
 * Factor on the main resistances that stands for the secondary ones, by the conveyor's length in m.
 *
 * Source: DIN 22101 and ISO 5048, from memory.
 */
export const lengthFactors = [
  { length: 80, factor: 1.92 },
  { length: 100, factor: 1.78 },
  { length: 150, factor: 1.58 },
  { length: 200, factor: 1.45 },
  { length: 300, factor: 1.31 },
  { length: 400, factor: 1.25 },
  { length: 500, factor: 1.2 },
  { length: 600, factor: 1.17 },
  { length: 700, factor: 1.14 },
  { length: 800, factor: 1.12 },
  { length: 900, factor: 1.1 },
  { length: 1000, factor: 1.09 },
  { length: 1500, factor: 1.06 },
  { length: 2000, factor: 1.05 },
] as const;

/**
 * Rotating mass of idlers by the belt's width in mm, kg per metre of conveyor: carrying idlers 1.2 m apart, return
 * idlers 3 m apart.
 *
 * Source: from memory.
 */
export const idlerMasses = [
  { width: 500, carrying: 7, returning: 2.5 },
  { width: 650, carrying: 9, returning: 3 },
  { width: 800, carrying: 12, returning: 4 },
  { width: 1000, carrying: 16, returning: 5.5 },
  { width: 1200, carrying: 20, returning: 7 },
  { width: 1400, carrying: 26, returning: 10 },
  { width: 1600, carrying: 31, returning: 12 },
  { width: 1800, carrying: 36, returning: 14 },
  { width: 2000, carrying: 40, returning: 16 },
] as const;

/** A column of numbers or words as an array constant of a formula. */
export const columnText = (items: readonly (number | string)[]): string =>
  `{${items.map((item) => (typeof item === 'string' ? `"${item}"` : String(item))).join(';')}}`;

/** The line that holds from one entry of a table to the next, level from the last on, over a place in the table. */
export function lineText(at: string, places: readonly number[], figures: readonly string[]): string {
  const place = `MATCH(${at},${columnText(places)},1)`;
  const slopes = figures.map((figure, index) => {
    const [from, to, next] = [places[index] ?? 0, places[index + 1], figures[index + 1]];
    return to === undefined || next === undefined ? '0' : `(${next}-${figure})/${to - from}`;
  });
  return `${chosenText(place, figures)}+(${at}-INDEX(${columnText(places)},${place}))*${chosenText(place, slopes)}`;
}

/** The same as a number. */
export function lineAt(at: number, places: readonly number[], figure: (index: number) => number): number {
  const index = places.findLastIndex((place) => place <= at);
  const [from, to] = [places[index], places[index + 1]];
  if (from === undefined) return Number.NaN;
  return to === undefined
    ? figure(index)
    : figure(index) + ((at - from) * (figure(index + 1) - figure(index))) / (to - from);
}

/** One of several expressions by its place, from 1. */
export const chosenText = (place: string, items: readonly string[]): string =>
  items.every((item) => /^[-\d.]+$/.test(item))
    ? `INDEX({${items.join(';')}},${place})`
    : `CHOOSE(${place},${items.join(',')})`;
