/**
 * A ratio rounded to 9 decimals before it is counted or compared with a table.
 *
 * Converting a book between mm and inches moves the last digits, so that seven plates may come out as 6.999999999999.
 */
export function settled(ratio: number): number {
  const scaled = Math.round(ratio * 1e9) / 1e9;
  return Number.isFinite(scaled) ? scaled : ratio;
}
