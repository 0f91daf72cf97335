import fc from 'fast-check';
import { alike, work } from '../property/sheet-edits.ts';
import { milliseconds, timed } from './timing.ts';

/** So many random sequences of edits as no test has the time for, against the plain model; throws at a difference. */
export function sheetEditsBench(count: number, write: (text: string) => void): void {
  const taken = timed(() => fc.assert(fc.property(work, alike), { numRuns: count }));
  write(`${count} random sequences of edits like the plain model: no difference, ${milliseconds(taken)}`);
}
