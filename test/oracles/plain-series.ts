import type { SeriesHeader } from '../../sheets/index.ts';

/** Whether plates can be made of a series' figures: laid out on paper, a plate and its neighbour. */
export function seriesCanBeMade(figure: (header: SeriesHeader) => number): boolean {
  const holds = (one: number, other: number, least: number): boolean =>
    Number.isNaN(one + other) || Math.round((other - one) * 1e9) / 1e9 >= least;
  /** Not more, and strictly less; whatever is missing is no fault. */
  const upTo = (one: number, other: number): boolean => holds(one, other, 0);
  const below = (one: number, other: number): boolean => holds(one, other, 1e-9);
  const [punch, holes] = [figure('Punch size'), figure('Holes per side')];
  const [width, pitch, gap] = [figure('Plate width'), figure('Pitch'), figure('Hole spacing')];
  /** From the outer rim of a plate's first hole to that of its last. */
  const span = holes > 1 ? (holes - 1) * gap + punch : holes === 1 && !Number.isNaN(gap) ? punch : Number.NaN;
  const square = figure('Minimum pulley square');
  return [
    upTo(figure('Minimum thickness'), figure('Maximum thickness')),
    upTo(figure('Minimum edge'), figure('Maximum edge')),
    ...([15, 22, 30, 45, 60] as const).map((skew) => upTo(figure(`Minimum pulley at ${skew}`), square)),
    upTo(width, pitch),
    !(holes > 1) || below(punch, gap),
    upTo(span, width),
    below(span, pitch),
    upTo(punch / 2, figure('Hole setback')),
    upTo(2 * figure('Hole setback') + punch, figure('Plate length')),
    upTo(punch / 2, figure('Minimum edge')),
    Number.isNaN(figure('Bolts per plate') + holes) || figure('Bolts per plate') === 2 * holes,
    below(figure('Bolt length'), figure('Long bolt length')),
    // A bolt reaches through the belt.
    below(figure('Long bolt above'), figure('Bolt length')),
    below(figure('Maximum thickness'), figure('Long bolt length')),
    Number.isNaN(figure('Minimum thickness') + figure('Maximum thickness')) ||
      (upTo(figure('Minimum thickness'), figure('Long bolt above')) &&
        upTo(figure('Long bolt above'), figure('Maximum thickness'))),
  ].every(Boolean);
}
