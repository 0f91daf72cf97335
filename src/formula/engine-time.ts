import { CellError, ErrorType } from 'hyperformula';
import { type Part, wrap } from './engine-parts.ts';
import { FormulasTooSlow, mostForSlow } from './slow-formulas.ts';

/**
 * How long formulas may take, whatever they are made of.
 *
 * The bounds of a function hold for one call; a formula may hold hundreds of calls, and a book any number of such
 * formulas. A formula that takes too long is an error of its cell, where it can be corrected. Many slow ones together
 * end what asked for them. A single call is not ended on the way: its own bounds keep it to seconds.
 */

/** Milliseconds for one formula. Ours: who typed it waits that long once; none that is meant takes a tenth of it. */
const mostForOne = 5_000;
/** From so many milliseconds on a formula is slow. Ours: quick ones, of which a large book has any number, are not. */
const slow = 500;

const seconds = (milliseconds: number): string => `${milliseconds / 1000} s`;

/** Milliseconds that slow formulas took since the change began. One for all engines: they never compute at a time. */
let slowTime = 0;

/** Begins a change: the time of slow formulas counts from here. */
export function beginFormulaTime(): void {
  slowTime = 0;
}

/** Bounds the time of one engine's formulas. */
export function boundTime(interpreter: unknown): void {
  let [depth, begun, over] = [0, 0, false];
  const tooLong = (state: Part): CellError =>
    new CellError(
      ErrorType.NUM,
      `the formula takes more than ${seconds(mostForOne)} to calculate: use smaller ranges or fewer functions`,
      state['formulaVertex'] as ConstructorParameters<typeof CellError>[2],
    );
  const formulaEnds = (): void => {
    const taken = performance.now() - begun;
    if (taken < slow) return;
    slowTime += taken;
    if (slowTime > mostForSlow) throw new FormulasTooSlow();
  };
  wrap(interpreter, 'evaluateAst', (inner) => (...given: never[]) => {
    const state = given[1] as unknown as Part;
    if (depth === 0) [begun, over] = [performance.now(), false];
    // The parts that are still to come are not begun.
    if (over) return tooLong(state);
    depth += 1;
    let value;
    try {
      value = inner(...given);
      over ||= performance.now() - begun > mostForOne;
    } finally {
      depth -= 1;
    }
    if (depth === 0) formulaEnds();
    return over ? tooLong(state) : value;
  });
}
