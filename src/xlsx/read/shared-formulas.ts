import type { CellPosition } from './cell-address.ts';
import { type FormulaPiece, formulaPieces, movedFormula } from './formula-text.ts';
import type { SharedFormula } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';

interface SharedFormulas {
  /** Remembers the formula of the cell that shares it. */
  define(id: string, at: CellPosition, text: string): void;
  has(id: string): boolean;
  /** The formula that cells share; undefined while nobody has defined it. */
  formula(id: string): SharedFormula | undefined;
}

/** Characters of shared formulas written out so far, in all sheets. */
interface FormulaTally {
  characters: number;
}

/** Where formulas are written out, and how much of that is read. */
interface WritingOut {
  readonly limits: ReadLimits;
  readonly tally: FormulaTally;
  readonly place: (cell: CellPosition) => string;
}

class MovedFormula implements SharedFormula {
  readonly #from: CellPosition;
  readonly #pieces: readonly FormulaPiece[];
  readonly #out: WritingOut;

  constructor(from: CellPosition, text: string, out: WritingOut) {
    this.#from = from;
    this.#pieces = formulaPieces(text);
    this.#out = out;
  }

  at(cell: CellPosition): string {
    const { limits, tally, place } = this.#out;
    const text = movedFormula(this.#pieces, cell.row - this.#from.row, cell.column - this.#from.column);
    tally.characters += text.length;
    if (tally.characters > limits.sharedFormulaCharacters) {
      throw new UnreadableFile(
        'too much content',
        `The shared formulas come to more than ${grouped(limits.sharedFormulaCharacters)} characters when written ` +
          `out for each cell (${place(cell)}), ` +
          `the maximum that can be read. ${saveAgain}`,
      );
    }
    return text;
  }
}

/**
 * Formulas written once and shared by many cells, moved to each of them.
 *
 * One long formula shared by a million cells is a small file and much text, so the text is written only for who asks
 * for it, and counted.
 *
 * Source: ECMA-376 Part 1, 18.3.1.40 (f).
 */
export function sharedFormulas(out: WritingOut): SharedFormulas {
  const shared = new Map<string, SharedFormula>();
  return {
    define: (id, at, text) => void shared.set(id, new MovedFormula(at, text, out)),
    has: (id) => shared.has(id),
    formula: (id) => shared.get(id),
  };
}
