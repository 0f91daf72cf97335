import { fleetOrder, usualScope } from '../order/fleet-order.ts';
import { requestDocuments } from '../purchase/request-document.ts';
import { requestFiles } from '../purchase/request-papers.ts';
import { siteLacks } from '../purchase/site.ts';
import { counted } from '../units/phrases.ts';
import { laidBook } from '../xlsx/write/laid-book.ts';
import type { Given } from './arguments.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkFolder, writeInto } from './order-folder.ts';
import { scopeOf } from './planning-options.ts';
import { FileError, UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** Requests for quotation, a file to a supplier. */
export async function run(typed: Given): Promise<number> {
  const [input = '', folder = ''] = typed.words;
  const options = listOptions(typed);
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkFolder(folder);
  const { book, places } = listBook(input, options);
  const asked = scopeOf(typed, book, input, 'ask');
  const scope = asked.which === 'all' && !typed.options.has('all') ? usualScope(book) : asked;
  const order = fleetOrder(book, scope, typed.options.has('failing') ? { failing: true } : {});
  const suppliers = typed.options.get('supplier') ?? [];
  for (const name of suppliers)
    if (!order.offered.suppliers.some((one) => one.name.toLowerCase() === name.toLowerCase()))
      throw new UsageError(
        `--supplier must be one of ${order.offered.suppliers.map((one) => one.name).join(', ')}; "${name}" was given`,
      );
  const documents = requestDocuments(book, order, { suppliers, everything: typed.options.has('all-items') });
  if (documents.length === 0)
    throw new FileError(
      `No request was written for ${input}: ${
        order.offered.suppliers.length === 0 ? 'the sheet Suppliers has no usable row' : 'nothing is to be ordered'
      }.`,
    );
  const files = await requestFiles(documents, book.units, laidBook);
  writeInto(folder, files, inputs);
  const lacks = documents[0] === undefined ? '' : siteLacks(documents[0].site);
  const lines = [
    ...order.remarks.map((remark) => `Left out: ${places.of(remark)}: ${remark.message}.`),
    ...(lacks === '' ? [] : [lacks.replace('send an order', 'send a request')]),
    ...documents.map(({ lines: asked }, place) => `${files[place]?.name ?? ''}: ${counted(asked.length, 'line')}.`),
    `Wrote ${counted(documents.length, 'request')} to ${folder}.`,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
