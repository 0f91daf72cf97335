import { columnLetters, sheetRow } from '../formula/address.ts';
import type { CellPlace } from './place.ts';

/** What the language's own errors mean to a planner; others are passed on as they are. */
const meanings: readonly (readonly [RegExp, string])[] = [
  [/invalid string length/i, 'it makes a text that is too long'],
  [/call stack|recursion/i, 'its formulas are nested too deep, or their chain is too long'],
  [
    /invalid (?:typed )?array length|allocation failed|out of memory|map maximum size|set maximum size/i,
    'it is too large',
  ],
];

const meaning = (error: unknown): string => {
  const message = error instanceof Error ? error.message : String(error);
  return meanings.find(([pattern]) => pattern.test(message))?.[1] ?? message;
};

/** A change that could not be worked out; the book is what it was before. Its message is for the planner. */
export class RefusedChange extends Error {
  constructor(label: string, cells: readonly CellPlace[] | undefined, cause: unknown) {
    const [only] = cells ?? [];
    const what =
      only === undefined || cells?.length !== 1
        ? `The step "${label}" was refused`
        : `The entry in ${only.sheet} ${columnLetters(only.column)}${sheetRow(only.record)} was refused`;
    super(`${what}, and the book is unchanged: ${meaning(cause)}.`, { cause });
    this.name = 'RefusedChange';
  }
}
