import type { CellPosition } from './cell-address.ts';
import { type FormulaPiece, formulaPieces, movedFormula } from './formula-text.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';

interface SharedFormulas {
  /** Remembers the formula of the cell that shares it. */
  define(id: string, at: CellPosition, text: string): void;
  has(id: string): boolean;
  /** The formula as it reads in a cell that shares it; undefined while nobody has defined it. */
  formula(id: string, at: CellPosition): string | undefined;
}

/** Characters of shared formulas written out so far, in all sheets. */
interface FormulaTally {
  characters: number;
}

/**
 * Formulas written once and shared by many cells, moved to each of them.
 *
 * One long formula shared by a million cells is a small file and much text, so the text is counted as it is written.
 *
 * Source: ECMA-376 Part 1, 18.3.1.40 (f).
 */
export function sharedFormulas(limits: ReadLimits, tally: FormulaTally, place: () => string): SharedFormulas {
  const shared = new Map<string, { readonly at: CellPosition; readonly pieces: readonly FormulaPiece[] }>();
  return {
    define(id, at, text) {
      shared.set(id, { at, pieces: formulaPieces(text) });
    },
    has: (id) => shared.has(id),
    formula(id, at) {
      const own = shared.get(id);
      if (!own) return undefined;
      const text = movedFormula(own.pieces, at.row - own.at.row, at.column - own.at.column);
      tally.characters += text.length;
      if (tally.characters > limits.sharedFormulaCharacters) {
        throw new UnreadableFile(
          'too much content',
          `The shared formulas come to more than ${grouped(limits.sharedFormulaCharacters)} characters when written ` +
            `out for each cell (${place()}), ` +
            `the maximum that can be read. ${saveAgain}`,
        );
      }
      return text;
    },
  };
}
