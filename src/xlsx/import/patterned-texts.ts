import { belts } from '../../../sheets/belts/index.ts';
import { columnNumber } from '../read/cell-address.ts';
import type { RawCell } from '../read/raw-book.ts';
import { readsAsPattern } from '../search-patterns.ts';
import { columnReader } from './cell-reading.ts';
import type { ImportProposal, TableProposal } from './import-model.ts';

/**
 * Texts of a long list that other programs take for patterns: a file spells formulas otherwise that look for one, and
 * its first rows are written before the last ones are read.
 */

/** Some cells of each column, the file's number of it, that hold such a text; each text once. */
export type PatternedTexts = ReadonlyMap<number, readonly RawCell[]>;

/** Different texts of a column that are kept: from there on one of them is taken to stay. Ours. */
const mostTexts = 20;

export function patternedTexts(rows: readonly (readonly RawCell[])[]): PatternedTexts {
  const found = new Map<number, Map<string, RawCell>>();
  for (const cells of rows)
    for (const cell of cells) {
      if (!readsAsPattern(cell.value)) continue;
      const texts = found.get(cell.column) ?? new Map<string, RawCell>();
      found.set(cell.column, texts);
      if (texts.size <= mostTexts) texts.set(cell.value, cell);
    }
  return new Map([...found].map(([column, texts]) => [column, [...texts.values()]]));
}

/**
 * The belts' columns, "Belts.Width", in which such a text may stand once the list is read. What a user has words of the
 * list mean is not looked at: a column may be named here without need, and is read figure by figure then.
 */
export function patternedColumns(
  parts: readonly PatternedTexts[],
  { columns, areaFrom, units }: TableProposal,
  { units: system, fill }: Pick<ImportProposal, 'units' | 'fill'>,
): ReadonlySet<string> {
  const found = new Set(fill.flatMap(({ column, value }) => (readsAsPattern(value) ? [column] : [])));
  if (areaFrom !== undefined && parts.some(({ size }) => size > 0)) found.add('Area');
  for (const { letter, target } of columns) {
    const column = belts.columns.find(({ header }) => header === target);
    const texts = parts.flatMap((part) => part.get(columnNumber(letter)) ?? []);
    if (column === undefined || texts.length === 0) continue;
    const reader = columnReader(column, belts, { system, listSystem: units });
    if (texts.length > mostTexts || texts.some((cell) => readsAsPattern(reader.read(cell).content))) found.add(target);
  }
  return new Set([...found].map((header) => `${belts.name}.${header}`));
}
