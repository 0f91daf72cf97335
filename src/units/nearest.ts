/** Names near to one that is not known. */

const bare = (text: string): string => text.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '');

/**
 * Letters to change, add, leave out or swap with the next, to make one word the other (Damerau-Levenshtein,
 * restricted).
 */
export function changes(one: string, other: string): number {
  let before: number[] = [];
  let above = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let row = 1; row <= one.length; row += 1) {
    const here = [row];
    for (let column = 1; column <= other.length; column += 1) {
      const same = one[row - 1] === other[column - 1];
      const swapped = row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1];
      here.push(
        Math.min(
          (above[column] ?? 0) + 1,
          (here[column - 1] ?? 0) + 1,
          (above[column - 1] ?? 0) + (same ? 0 : 1),
          swapped ? (before[column - 2] ?? 0) + 1 : Infinity,
        ),
      );
    }
    before = above;
    above = here;
  }
  return above[other.length] ?? 0;
}

/** The known names nearest to a text, the nearest first; none that shares less than half of it. */
export function nearest(text: string, names: readonly string[], most = 3): string[] {
  const given = bare(text);
  const distance = (name: string): number => {
    const known = bare(name);
    if (known === '' || given === '') return 1;
    if (known.includes(given) || given.includes(known))
      return Math.abs(known.length - given.length) / (10 * Math.max(known.length, given.length));
    return changes(given, known) / Math.max(known.length, given.length);
  };
  return names
    .map((name) => ({ name, far: distance(name) }))
    .filter(({ far }) => far <= 0.5)
    .toSorted((one, other) => one.far - other.far)
    .slice(0, most)
    .map(({ name }) => name);
}
