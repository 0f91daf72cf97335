import { nativePack } from './native-packing.ts';
import { findings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import { withConflictMarks } from '../merge/conflict-marks.ts';
import { countWords, itemWords } from '../merge/item-words.ts';
import { mergePlan } from '../merge/merge-plan.ts';
import { mergedBook } from '../merge/merged-book.ts';
import type { MergeItem, Three } from '../merge/merge-item.ts';
import { counted } from '../units/phrases.ts';
import { deferrals } from '../workbook/safety.ts';
import { Workbook } from '../workbook/workbook.ts';
import { exportedBook } from '../xlsx/write/write.ts';
import type { Given } from './arguments.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { placeIn, type ReadBook, readBook, readBookLines } from './read-book.ts';
import { visibleLine } from './visible-text.ts';

/**
 * Two files and the one that both come from, in one book; conflicts are listed and marked, and the exit code says so.
 */

function conflictLine(item: MergeItem, files: Three<ReadBook>, names: Three<string>, units: 'metric' | 'us'): string {
  const places = (['mine', 'theirs'] as const).map((side) => placeIn(files[side], item, side));
  const found = places.filter((place) => place !== '');
  return `Conflict: ${itemWords(item, names, units)}${found.length === 0 ? '' : ` (${found.join('; ')})`}`;
}

/** What was taken from one file alone. */
function takenLine(file: string, items: readonly MergeItem[], side: 'here' | 'there'): string {
  const own = items.filter(
    (item) => item[side] !== undefined && item[side === 'here' ? 'there' : 'here'] === undefined,
  );
  const counts = countWords(own, (item) => item[side]);
  return `From ${file}: ${counts === '' ? 'nothing' : counts}.`;
}

export async function run(typed: Given): Promise<number> {
  const [earlier = '', first = '', second = '', output = ''] = typed.words;
  const inputs = [earlier, first, second];
  checkOutput(output, inputs);
  const { choices } = listOptions(typed);
  const [base, mine, theirs] = [readBook(earlier, choices), readBook(first, choices), readBook(second, choices)];
  const files = { base, mine, theirs };
  const names = { base: earlier, mine: first, theirs: second };
  const plan = mergePlan({ base: base.book, mine: mine.book, theirs: theirs.book });
  const merged = mergedBook(plan);
  const book = new Workbook(withConflictMarks(merged, names));
  const { bytes, otherwise } = await exportedBook(book, [...findings(book), ...buyingFindings(book)], {
    pack: nativePack,
  });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const both = plan.items.filter(({ here, there, conflict }) => here !== undefined && there !== undefined && !conflict);
  const lines = [
    ...[base, mine, theirs].flatMap(readBookLines),
    ...plan.told,
    takenLine(first, plan.items, 'here'),
    takenLine(second, plan.items, 'there'),
    ...(both.length === 0 ? [] : [`In both alike: ${countWords(both, ({ here }) => here)}.`]),
    ...merged.open.map(({ item }) => conflictLine(item, files, names, plan.units)),
    ...otherwise.map(({ place, why }) => `Written otherwise: ${output}, ${place}: ${why}`),
    merged.open.length === 0
      ? 'No conflicts.'
      : `${counted(merged.open.length, 'conflict')}: ${output} holds what ${first} says, and keeps what only one of ` +
        `the ` +
        `two took away. Each is marked at its cell and listed in the sheet Conflicts: decide there.`,
    `Wrote ${output}${replaced ? ', in place of the file that was there' : ''}.`,
    deferrals.use,
  ];
  process.stdout.write(`${lines.map(visibleLine).join('\n')}\n`);
  return merged.open.length === 0 ? 0 : 1;
}
