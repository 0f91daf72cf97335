import type { Value } from '../formula/values.ts';

/** What selected cells come to: texts, truths, errors and blanks are passed over by sum and mean. */
interface SelectionSummary {
  /** Cells that hold something. */
  readonly filled: number;
  readonly numbers: number;
  readonly sum: number;
  /** Undefined without a number. */
  readonly mean: number | undefined;
}

export function summaryOf(values: Iterable<Value>): SelectionSummary {
  let [filled, numbers, sum, lost] = [0, 0, 0, 0];
  for (const value of values) {
    if (value !== null && value !== '') filled += 1;
    if (typeof value !== 'number') continue;
    numbers += 1;
    // What falls off the end of one addition is kept for the next (Neumaier's summation), or 0.1 ten times is not 1.
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return { filled, numbers, sum: sum + lost, mean: numbers === 0 ? undefined : (sum + lost) / numbers };
}
