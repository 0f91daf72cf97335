import { recordInRow } from '../formula/address.ts';
import { referencesIn } from '../formula/reference-text.ts';
import { columnsNamedIn } from './column-references.ts';
import { BookNames } from './names.ts';
import type { CellPlace } from './place.ts';
import type { BookState } from './state.ts';

/** What a formula that is being typed refers to, and where in its text: cells, columns by their names, named values. */

/** Cells of a sheet, by records and columns from 0; a whole column or row ends at Infinity. */
export interface ReferredCells {
  readonly sheet: string;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

export interface MarkedReference {
  readonly start: number;
  readonly end: number;
  readonly cells: ReferredCells;
  /** Counts the cells that are referred to from 0: the same cells have the same number. */
  readonly number: number;
}

type Found = Omit<MarkedReference, 'number'>;

const word = /"(?:[^"]|"")*"?|\[[^\]]*\]?|(?<![\p{L}\p{N}_.$!'])[\p{L}_][\p{L}\p{N}_.]*(?![\p{L}\p{N}_.(!['])/gu;

function namedCells(formula: string, state: BookState): Found[] {
  const names = new Map(new BookNames(state).places.map((place) => [place.name.toLowerCase(), place]));
  return [...formula.matchAll(word)].flatMap(({ 0: text, index }) => {
    const place = names.get(text.toLowerCase());
    if (place === undefined) return [];
    const { sheet, record, column } = place;
    return [
      {
        start: index,
        end: index + text.length,
        cells: { sheet, top: record, bottom: record, left: column, right: column },
      },
    ];
  });
}

/** References of a formula's text in their order, whether or not it can be read to its end. */
export function markedReferences(formula: string, place: CellPlace, state: BookState): MarkedReference[] {
  const sheetCalled = (name: string): string | undefined =>
    state.sheets.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase())?.name;
  const plain = referencesIn(formula).flatMap(({ reference, start, end }): Found[] => {
    const { from, to = from } = reference;
    const sheet = sheetCalled(reference.sheet ?? place.sheet);
    if (sheet === undefined) return [];
    const rows = [from.row, to.row].map((row) => (row === undefined ? undefined : recordInRow(row + 1)));
    const [one = 0, other = Infinity] = rows;
    const [left = 0, right = Infinity] = [from.column, to.column];
    return [
      {
        start,
        end,
        cells: {
          sheet,
          top: Math.min(one, other),
          bottom: Math.max(one, other),
          left: Math.min(left, right),
          right: Math.max(left, right),
        },
      },
    ];
  });
  const found = [...plain, ...columnsNamedIn(formula, place, state), ...namedCells(formula, state)];
  const numbers = new Map<string, number>();
  return found
    .toSorted((one, other) => one.start - other.start)
    .map((one) => {
      const { sheet, top, bottom, left, right } = one.cells;
      const key = `${sheet}!${top},${left},${bottom},${right}`;
      const number = numbers.get(key) ?? numbers.size;
      numbers.set(key, number);
      return { ...one, number };
    });
}
