import { belts } from '../../sheets/belts/index.ts';
import { variantDifferences, variantLines, variantTables } from '../what-if/variant-differences.ts';
import { variantNamed, variantsOf } from '../what-if/variants.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import type { Given } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { orUsageError } from './refused-change.ts';
import { visibleLines } from './visible-text.ts';

/** The variants of a book beside each other, and as a file of every difference. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output] = typed.words;
  const options = { ...listOptions(typed), variants: [] };
  if (output !== undefined) checkOutput(output, [input, ...(options.series === undefined ? [] : [options.series])]);
  const { book } = listBook(input, options);
  const names = typed.options.get('variant') ?? [];
  const chosen = typed.options.get('belt') ?? [];
  const records =
    chosen.length === 0 ? [...book.sheet(belts.name).rows.keys()] : chosen.map((name) => beltRecord(book, input, name));
  const all = orUsageError(() => {
    const variants =
      names.length === 0
        ? variantsOf(book).length === 0
          ? [variantNamed(book, '')]
          : variantsOf(book)
        : names.map((name) => variantNamed(book, name));
    return variants.map((variant) => variantDifferences(book, variant, records));
  });
  const lines = all.flatMap((one) => variantLines(one, book.units));
  if (output !== undefined) {
    const bytes = await tableBook(book, variantTables(all, input, book.units));
    const replaced = replaces(output);
    writeWhole(output, bytes);
    lines.push(`Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`);
  }
  process.stdout.write(visibleLines(lines));
  return 0;
}
