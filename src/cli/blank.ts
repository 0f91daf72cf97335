import { blankList } from '../xlsx/write/forms.ts';
import { listFormFile } from '../xlsx/write/list-form.ts';
import type { Given } from './arguments.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { visibleLines } from './visible-text.ts';

/** A blank list for a site. */
export async function run(typed: Given): Promise<number> {
  const [output = ''] = typed.words;
  const { choices } = listOptions(typed);
  checkOutput(output, []);
  const bytes = await listFormFile(blankList(choices.units ?? 'metric'));
  const replaced = replaces(output);
  writeWhole(output, bytes);
  process.stdout.write(visibleLines([`Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`]));
  return 0;
}
