import { constructionColumns } from '../../sheets/belts/construction.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { named } from '../evaluation.ts';
import { near } from '../xlsx/write/recalculated-values.ts';
import { rowFormulas } from './row-formulas.ts';

/** The columns that a file reads a designation by, and what they have to give. */

export const headers = ['Carcass material', 'Belt strength', 'Plies', 'Covers', 'Designated cover'] as const;

const columns = constructionColumns
  .filter(({ header }) => headers.some((one) => one === header))
  .flatMap(({ header, inFile: { formula = '', parts = {} } = {} }) => [
    ...Object.entries(parts).map(([heading, part]) => ({ header: heading, formula: part })),
    { header, formula },
  ]);

/** Of a row, in the columns beside the text, which stands in the first. */
export const designationFormulas = rowFormulas('Construction', columns, {
  TensionPerMetric: 1,
  MillimetresPerShort: 1,
});

/** Where a column's formula stands among them. */
export const placeOf = (header: string): number => columns.findIndex((column) => column.header === header);

type Read = Readonly<Record<(typeof headers)[number], Value>>;

/** What the functions say: nothing of what can't be read, but for the material, which is an error then. */
export function readByFunctions(text: string): Read {
  const read = (name: string): Value => {
    const value = named(name).evaluate([text]);
    if (Array.isArray(value)) throw new Error(`${name} fills several cells`);
    return isFault(value as Value) ? '' : (value as Value);
  };
  const [top, bottom] = [read('TOPCOVER'), read('BOTTOMCOVER')];
  return {
    'Carcass material': read('CARCASSMATERIAL') || '#N/A',
    'Belt strength': read('BELTSTRENGTH'),
    Plies: read('BELTPLIES'),
    Covers: typeof top === 'number' && typeof bottom === 'number' ? top + bottom : '',
    'Designated cover': top,
  };
}

/** What another way gives otherwise, in words. */
export const differencesFrom = (texts: readonly string[], given: (index: number, header: string) => Value): string[] =>
  texts.flatMap((text, index) => {
    const ours = readByFunctions(text);
    return headers.flatMap((header) => {
      const theirs = given(index, header);
      return near(theirs, ours[header])
        ? []
        : [`${header} of ${JSON.stringify(text)}: ${String(ours[header])} here, ${String(theirs)} there`];
    });
  });
