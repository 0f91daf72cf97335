/**
 * The pairing of rows with columns that has the greatest total of scores; a pair that scores 0 is no pair.
 *
 * Answers each row's column, or undefined. Source: the shortest augmenting path form of the assignment method (Kuhn
 * 1955, Munkres 1957), on costs that are the negative scores.
 */
export function bestPairs(scores: readonly (readonly number[])[]): (number | undefined)[] {
  const firsts = scores.map((row) => {
    const most = Math.max(0, ...row);
    return most > 0 ? row.indexOf(most) : undefined;
  });
  // Where no two rows want the same column, each has its best, and no total is greater.
  const wanted = firsts.filter((column) => column !== undefined);
  return new Set(wanted).size === wanted.length
    ? firsts
    : scores.length > mostContested
      ? greedyPairs(scores)
      : contestedPairs(scores);
}

/** Rows up to which the best of all pairings is looked for; its work grows with their cube. Lists have some tens. */
const mostContested = 200;

/** Pairs by their score, the best first: each row and column once. */
function greedyPairs(scores: readonly (readonly number[])[]): (number | undefined)[] {
  const pairs: (number | undefined)[] = scores.map(() => undefined);
  const taken = new Set<number>();
  const all = scores.flatMap((row, index) =>
    row.flatMap((score, column) => (score > 0 ? [{ score, index, column }] : [])),
  );
  for (const { index, column } of all.toSorted((one, other) => other.score - one.score)) {
    if (pairs[index] !== undefined || taken.has(column)) continue;
    pairs[index] = column;
    taken.add(column);
  }
  return pairs;
}

function contestedPairs(scores: readonly (readonly number[])[]): (number | undefined)[] {
  const rows = scores.length;
  const columns = scores[0]?.length ?? 0;
  // With as many worthless columns as rows added, every row finds a place.
  const width = columns + rows;
  const cost = (row: number, column: number): number => -(column < columns ? (scores[row]?.[column] ?? 0) : 0);
  const rowPrice = new Float64Array(rows + 1);
  const columnPrice = new Float64Array(width + 1);
  const taken = new Int32Array(width + 1).fill(-1);
  for (let row = 0; row < rows; row += 1) {
    taken[width] = row;
    let at = width;
    const least = new Float64Array(width + 1).fill(Infinity);
    const before = new Int32Array(width + 1).fill(-1);
    const used = new Uint8Array(width + 1);
    while ((taken[at] ?? -1) >= 0) {
      used[at] = 1;
      const here = taken[at] ?? 0;
      let step = Infinity;
      let next = -1;
      for (let column = 0; column < width; column += 1) {
        if (used[column] === 1) continue;
        const reduced = cost(here, column) - (rowPrice[here] ?? 0) - (columnPrice[column] ?? 0);
        if (reduced < (least[column] ?? Infinity)) {
          least[column] = reduced;
          before[column] = at;
        }
        if ((least[column] ?? Infinity) < step) {
          step = least[column] ?? Infinity;
          next = column;
        }
      }
      for (let column = 0; column <= width; column += 1) {
        if (used[column] === 1) {
          const owner = taken[column] ?? 0;
          rowPrice[owner] = (rowPrice[owner] ?? 0) + step;
          columnPrice[column] = (columnPrice[column] ?? 0) - step;
        } else least[column] = (least[column] ?? Infinity) - step;
      }
      at = next;
    }
    while (at !== width) {
      const previous = before[at] ?? width;
      taken[at] = taken[previous] ?? -1;
      at = previous;
    }
  }
  const pairs = new Array<number | undefined>(rows).fill(undefined);
  for (let column = 0; column < columns; column += 1) {
    const row = taken[column] ?? -1;
    if (row >= 0 && (scores[row]?.[column] ?? 0) > 0) pairs[row] = column;
  }
  return pairs;
}
