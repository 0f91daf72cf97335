import { counted } from '../units/phrases.ts';
import { roundSheet } from '../xlsx/write/forms.ts';
import { listFormFile } from '../xlsx/write/list-form.ts';
import type { Given } from './arguments.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { visibleLines } from './visible-text.ts';

/** What a book holds of its belts, to be corrected on a round. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  checkOutput(output, [input]);
  const { book } = listBook(input, listOptions(typed));
  const form = roundSheet(book);
  const bytes = await listFormFile(form);
  checkOutput(output, [input]);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  process.stdout.write(
    visibleLines([
      `Wrote ${output} with ${counted(form.rows.length, 'belt')}${replaced ? ', replacing the existing file' : ''}.`,
    ]),
  );
  return 0;
}
