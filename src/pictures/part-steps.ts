import type { Part } from './picture.ts';

/** From one part of a picture to the next, by arrow keys. */

export type Way = 'left' | 'right' | 'up' | 'down' | 'first' | 'last';

type Place = Part['at'];

/** The other of two axes. */
const across = (axis: 0 | 1): 0 | 1 => (axis === 0 ? 1 : 0);

/** The nearest part further on along an axis; of several, the one that stays closest to the line. */
function further(places: readonly Place[], from: Place, axis: 0 | 1, sign: 1 | -1): number | undefined {
  const other = across(axis);
  let best: number | undefined;
  const cost = (place: Place): readonly [number, number] => [
    sign * (place[axis] - from[axis]),
    Math.abs(place[other] - from[other]),
  ];
  for (const [index, place] of places.entries()) {
    const [along, aside] = cost(place);
    if (along <= 0) continue;
    const [bestAlong, bestAside] = best === undefined ? [Infinity, Infinity] : cost(places[best] ?? from);
    if (along < bestAlong || (along === bestAlong && aside < bestAside)) best = index;
  }
  return best;
}

/** The part that a key leads to; the same one at an end. Every part can be reached by some keys from every other. */
export function stepped(parts: readonly Pick<Part, 'at'>[], from: number, way: Way): number {
  const places = parts.map(({ at }) => at);
  const here = places[from];
  if (here === undefined) return 0;
  switch (way) {
    case 'first':
      return 0;
    case 'last':
      return parts.length - 1;
    case 'left':
      return further(places, here, 0, -1) ?? from;
    case 'right':
      return further(places, here, 0, 1) ?? from;
    case 'down':
      return further(places, here, 1, -1) ?? from;
    case 'up':
      return further(places, here, 1, 1) ?? from;
  }
}
