import { nativePack } from './native-packing.ts';
import { counted } from '../units/phrases.ts';
import { deferrals } from '../workbook/safety.ts';
import { findings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import type { VerdictCounts } from '../reference/findings-json.ts';
import type { ImportReport } from '../xlsx/import/import-model.ts';
import type { WrittenFile } from '../xlsx/write/book-file.ts';
import { bookFile } from '../xlsx/write/write.ts';
import type { Given } from './arguments.ts';
import { comparedBelts, compareText, countLine, countsOf } from './finding-lines.ts';
import { importLines } from './import-report.ts';
import { listBook } from './list-book.ts';
import { type ListOptions, listOptions } from './list-options.ts';
import { LongBook } from './long/long-book.ts';
import { type Dealing, longList, readWhole } from './long/long-list.ts';
import { progress } from './long/progress.ts';
import { stepBegun, stepsEnded } from './run-progress.ts';
import { checkOutput, replaces, writePieces } from './output-file.ts';
import { visibleLines } from './visible-text.ts';

/** A book that is to be written, and what is said of it. */
interface Calculated {
  readonly report: ImportReport;
  readonly supposed: readonly string[];
  readonly day: string | undefined;
  readonly why: string;
  readonly hasSeries: boolean;
  readonly counts: VerdictCounts;
  readonly compared: number;
  readonly found: number;
  readonly file: WrittenFile;
  readonly close: () => void;
}

async function whole(input: string, options: ListOptions): Promise<Calculated> {
  const { book, report, reviewed, supposed } = listBook(input, options);
  const found = [...findings(book), ...buyingFindings(book)];
  return {
    report,
    supposed,
    ...reviewed,
    hasSeries: book.sheet('Plate series').rows.length > 0,
    counts: countsOf(book),
    compared: comparedBelts(found),
    found: found.length,
    file: await bookFile(book, found, { pack: nativePack }),
    close: () => undefined,
  };
}

async function inParts(
  input: string,
  options: ListOptions,
  dealing: Dealing | undefined,
): Promise<Calculated | string | undefined> {
  const book = new LongBook();
  const results = await longList(input, options, 'data', dealing, book);
  if (typeof results !== 'object') return results;
  const { first, report, counts, compared, found } = results;
  if (first === undefined || report === undefined) throw new Error('a long list had no part');
  const step = (): void => stepBegun(`writing the book of ${input}`, 1);
  step();
  const file = await book.end(results, step);
  progress('');
  stepsEnded();
  return {
    report,
    supposed: [],
    day: first.day,
    why: options.date === undefined ? 'today' : 'as given',
    hasSeries: book.hasSeries,
    counts,
    compared,
    found,
    file,
    close: () => {
      results.close();
      book.close();
    },
  };
}

/** The book of a list. For tests: long ones are compared with those that are read whole. */
export async function calculated(input: string, options: ListOptions, dealing?: Dealing): Promise<Calculated> {
  const parts = await inParts(input, options, dealing);
  return typeof parts === 'object' ? parts : readWhole(parts, () => whole(input, options));
}

/** A list of belts in, a full book out. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const { report, supposed, day, why, hasSeries, counts, compared, found, file, close } = await calculated(
    input,
    options,
  );
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writePieces(output, file.pieces);
  close();
  const lines = [
    ...importLines(input, report),
    ...supposed,
    ...(options.series === undefined
      ? []
      : [`Plate series, strips, steps and assumptions come from ${options.series}.`]),
    ...(day === undefined ? [] : [`Joint age is counted to ${day} (${why}).`]),
    ...(hasSeries
      ? []
      : [
          `The book has no plate series, so no joint can be checked. Enter your supplier's figures in its sheet ` +
            `Plate series, or give a book that has them with --series.`,
        ]),
    `${countLine(counts)}${compareText(compared)} ${counted(found, 'finding')}, in the sheet Findings of ${output}.`,
    ...file.otherwise.map(({ place, why: reason }) => `Exported differently: ${output}, ${place}: ${reason}`),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    deferrals.use,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
