import { nativePack } from './native-packing.ts';
import { findings } from '../checks/findings.ts';
import { changeText, quotedBook } from '../purchase/quote-edits.ts';
import { requestAnswers, type RequestAnswers } from '../purchase/request-answers.ts';
import { counted } from '../units/phrases.ts';
import { deferrals } from '../workbook/safety.ts';
import { Workbook } from '../workbook/workbook.ts';
import { exportedBook } from '../xlsx/write/write.ts';
import type { Given } from './arguments.ts';
import { inputBook } from './input-file.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { FileError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

function answersIn(file: string): RequestAnswers {
  const answers = requestAnswers(inputBook(file).sheets);
  if (answers === undefined)
    throw new FileError(
      `${file} could not be used: it is not a request for quotation of ours, or its columns were moved. Use the file ` +
        'that was sent out.',
    );
  return answers;
}

/** Suppliers' answers, taken over into a full book. */
export async function run(typed: Given): Promise<number> {
  const [input = '', answer = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const files = [answer, ...(typed.options.get('also') ?? [])];
  const inputs = [input, ...files, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const { book } = listBook(input, options);
  const quoted = quotedBook(book, files.map(answersIn));
  const after = new Workbook(quoted.state);
  const { bytes, otherwise } = await exportedBook(after, findings(after), { pack: nativePack });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const lines = [
    ...quoted.problems.map((problem) => `Not taken over: ${problem}.`),
    ...quoted.notOffered.map((line) => `Not offered: ${line}.`),
    ...quoted.changes.map((change) => `Changed: ${changeText(change)}.`),
    `${counted(quoted.changes.length, 'cell')} of Offers changed.`,
    ...otherwise.map(({ place, why }) => `Exported differently: ${output}, ${place}: ${why}`),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    deferrals.order,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
