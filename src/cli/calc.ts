import { nativePack } from './native-packing.ts';
import { counted } from '../units/phrases.ts';
import { deferrals } from '../workbook/safety.ts';
import { findings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import { bookFile } from '../xlsx/write/write.ts';
import type { Given } from './arguments.ts';
import { comparedBelts, compareText, countLine, countsOf } from './finding-lines.ts';
import { importLines } from './import-report.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writePieces } from './output-file.ts';
import { visibleLines } from './visible-text.ts';

/** A list of belts in, a full book out. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const { book, report, reviewed, supposed } = listBook(input, options);
  const found = [...findings(book), ...buyingFindings(book)];
  const { pieces, otherwise } = await bookFile(book, found, { pack: nativePack });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writePieces(output, pieces);
  const lines = [
    ...importLines(input, report),
    ...supposed,
    ...(options.series === undefined
      ? []
      : [`Plate series, strips, steps and assumptions come from ${options.series}.`]),
    ...(reviewed.day === undefined ? [] : [`Joint age is counted to ${reviewed.day} (${reviewed.why}).`]),
    ...(book.sheet('Plate series').rows.length > 0
      ? []
      : [
          `The book has no plate series, so no joint can be checked. Enter your supplier's figures in its sheet ` +
            `Plate series, or give a book that has them with --series.`,
        ]),
    `${countLine(countsOf(book))}${compareText(comparedBelts(found))} ${counted(found.length, 'finding')}, in the ` +
      `sheet Findings of ` +
      `${output}.`,
    ...otherwise.map(({ place, why }) => `Exported differently: ${output}, ${place}: ${why}`),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    deferrals.use,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
