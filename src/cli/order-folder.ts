import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import type { AuditTerms, HashedInput } from '../purchase/audit.ts';
import { orderFiles, orderPapers, type PaperFile } from '../purchase/order-papers.ts';
import { money } from '../purchase/order-words.ts';
import { siteLacks } from '../purchase/site.ts';
import { counted } from '../units/phrases.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { laidBook } from '../xlsx/write/laid-book.ts';
import type { Given } from './arguments.ts';
import { fileFault } from './file-fault.ts';
import { checkOutput, writeWhole } from './output-file.ts';
import type { SourcePlaces } from './source-places.ts';
import { FileError } from './usage-error.ts';

/** A folder of orders or requests, a few files to a supplier. */

/** Makes sure of a folder before any work is done; one that is not there is made when its place is. */
export function checkFolder(path: string): void {
  const there = statSync(path, { throwIfNoEntry: false });
  if (there?.isDirectory() === true) return;
  if (there !== undefined) throw new FileError(`${path} could not be used: it is a file, not a folder.`);
  try {
    mkdirSync(path);
  } catch (error) {
    throw fileFault(path, 'written', error);
  }
}

/** Writes files into a folder, each whole or not at all; no input may be among them. */
export function writeInto(folder: string, files: readonly PaperFile[], inputs: readonly string[]): void {
  const endings = ['xlsx', 'pdf', 'csv', 'ics'];
  for (const { name } of files) checkOutput(join(folder, name), inputs, endings);
  for (const { name, bytes } of files) writeWhole(join(folder, name), bytes);
}

/** Files by the SHA-256 of their bytes. */
export const hashedInputs = (files: readonly string[]): HashedInput[] =>
  files.map((file) => ({
    name: basename(file),
    sha256: createHash('sha256').update(readFileSync(file)).digest('hex'),
  }));

/** The options of an order as they were typed, for its audit. */
export const typedOptions = ({ options }: Given): (readonly [string, string])[] => [
  ...(['belt', 'due'].some((name) => options.has(name)) ? [] : [['Scope', 'all belts'] as const]),
  ...[...options]
    .filter(([name]) => name !== 'orders')
    .map(([name, values]) => [`--${name}`, values.join(', ') || 'yes'] as const),
];

/** Writes the orders of all suppliers, and says what is in them. */
export async function writeOrders(
  book: Workbook,
  places: Pick<SourcePlaces, 'of'>,
  made: { readonly order: FleetOrder; readonly supplied: SuppliedOrder },
  {
    folder,
    inputs,
    audit,
  }: { readonly folder: string; readonly inputs: readonly string[]; readonly audit: AuditTerms },
): Promise<string[]> {
  const { papers, remarks } = orderPapers(book, made.order, made.supplied, audit);
  writeInto(folder, await orderFiles(papers, book.units, laidBook), inputs);
  const lacks = papers[0] === undefined ? '' : siteLacks(papers[0].document.site);
  return [
    ...remarks.map((remark) => `Left out: ${places.of(remark)}: ${remark.message}.`),
    ...(lacks === '' ? [] : [lacks]),
    ...papers.map(
      ({ name, document: { order, lines, payable } }) =>
        `Order ${name}: ${counted(lines.length, 'line')}, ${order.currency} ${money(order.total)}, with tax ` +
        `${order.currency} ${money(payable)}.`,
    ),
    `Wrote ${counted(papers.length, 'order')} as .xlsx, .pdf and .csv, and Orders.ics, to ${folder}.`,
  ];
}
