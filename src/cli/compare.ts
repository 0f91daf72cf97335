import { differenceTable } from '../merge/difference-table.ts';
import { comparedBooks } from '../merge/compared-books.ts';
import { countWords, itemWords } from '../merge/item-words.ts';
import type { MergeItem } from '../merge/merge-item.ts';
import { Workbook } from '../workbook/workbook.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import type { Given } from './arguments.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { placeIn, type ReadBook, readBook, readBookLines } from './read-book.ts';
import { visibleLine } from './visible-text.ts';

/** What differs between two files, by sheet, record and column; the exit code says whether anything does. */

const withPlace = (words: string, places: readonly string[]): string => {
  const found = places.filter((place) => place !== '');
  return found.length === 0 ? words : `${words} (${found.join('; ')})`;
};

function written(output: string, inputs: readonly string[], bytes: Uint8Array): string {
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  return `Wrote ${output}${replaced ? ', in place of the file that was there' : ''}.`;
}

export async function run(typed: Given): Promise<number> {
  const [first = '', second = '', output] = typed.words;
  const inputs = [first, second];
  if (output !== undefined) checkOutput(output, inputs);
  const { choices } = listOptions(typed);
  const [one, other]: readonly [ReadBook, ReadBook] = [readBook(first, choices), readBook(second, choices)];
  const plan = comparedBooks(one.book, other.book);
  const names = { base: first, mine: first, theirs: second };
  const places = (item: MergeItem): string[] => [placeIn(one, item, 'mine'), placeIn(other, item, 'theirs')];
  const counts = countWords(plan.items, ({ there }) => there);
  const lines = [
    ...readBookLines(one),
    ...readBookLines(other),
    ...plan.told,
    ...plan.items.map((item) => withPlace(itemWords(item, names, plan.units), places(item))),
    plan.items.length === 0
      ? `Nothing differs between ${first} and ${second}.`
      : `From ${first} to ${second}: ${counts}. Without the file that both come from, nothing says who changed what.`,
  ];
  if (output !== undefined) {
    const book = new Workbook(plan.states.theirs);
    const table = differenceTable(plan, names, (item, side) => placeIn(side === 'mine' ? one : other, item, side));
    const about = [['Differences', `Between ${first} and ${second}.`], ...plan.told.map((text) => ['Matched', text])];
    const bytes = await tableBook(book, { title: `${first} and ${second}`, tables: [table], about });
    lines.push(written(output, inputs, bytes));
  }
  process.stdout.write(`${lines.map(visibleLine).join('\n')}\n`);
  return plan.items.length === 0 ? 0 : 1;
}
