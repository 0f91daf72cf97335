import { nativePack } from './native-packing.ts';
import { findings } from '../checks/findings.ts';
import { placedOrderLines, type PlacedOrderLine } from '../purchase/order-key.ts';
import { placedBook } from '../purchase/placed-edits.ts';
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

function linesIn(file: string): PlacedOrderLine[] {
  const lines = placedOrderLines(inputBook(file).sheets);
  if (lines.length === 0)
    throw new FileError(
      `${file} could not be used: it is not an order that book order wrote. Use the .xlsx of the order.`,
    );
  return lines;
}

/** Orders that were sent, entered into a full book. */
export async function run(typed: Given): Promise<number> {
  const [input = '', order = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const files = [order, ...(typed.options.get('also') ?? [])];
  const inputs = [input, ...files, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const { book } = listBook(input, options);
  const placed = placedBook(book, files.flatMap(linesIn));
  const after = new Workbook(placed.state);
  const { bytes, otherwise } = await exportedBook(after, findings(after), { pack: nativePack });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const lines = [
    ...placed.problems.map((problem) => `Left out: ${problem}.`),
    `${counted(placed.added.length, 'order line')} entered in the sheet Orders.`,
    ...otherwise.map(({ place, why }) => `Exported differently: ${output}, ${place}: ${why}`),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    deferrals.order,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
