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

/** Sideways in the same row where it goes on there, else to the nearest part on that side. */
function aside(places: readonly Place[], from: Place, sign: 1 | -1): number | undefined {
  const row = places.map((place): Place => (place[1] === from[1] ? place : from));
  return further(row, from, 0, sign) ?? further(places, from, 0, sign);
}

/**
 * The part that a key leads to; the same one at an end. Every part can be reached from every other: up and down go
 * through all rows, one after the other, and left and right through all of a row.
 */
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
      return aside(places, here, -1) ?? from;
    case 'right':
      return aside(places, here, 1) ?? from;
    case 'down':
      return further(places, here, 1, -1) ?? from;
    case 'up':
      return further(places, here, 1, 1) ?? from;
  }
}
