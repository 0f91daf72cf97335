/** Places of labels so that none covers another: as near as can be to where they belong, within bounds. */
export function spread(wanted: readonly number[], apart: number, least: number, most: number): number[] {
  const order = wanted.map((at, index) => ({ at, index })).toSorted((one, other) => one.at - other.at);
  const placed: number[] = [];
  let floor = least;
  for (const { at, index } of order) {
    placed[index] = Math.max(at, floor);
    floor = (placed[index] ?? 0) + apart;
  }
  let ceiling = most;
  for (const { index } of order.toReversed()) {
    placed[index] = Math.min(placed[index] ?? 0, ceiling);
    ceiling = (placed[index] ?? 0) - apart;
  }
  return placed;
}
