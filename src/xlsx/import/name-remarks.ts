import { belts } from '../../../sheets/belts/index.ts';
import type { Content } from '../../formula/values.ts';
import type { SheetState } from '../../workbook/state.ts';
import { choiceWords } from './blank-fills.ts';
import type { EarlierRecords } from './import-model.ts';
import type { ImportNotes, SheetImport } from './sheet-import.ts';

/** What is told of the names in a list once all of it is read. */

/** What names are compared by: without case, within what the record is a part of. */
export const nameWord = (name: Content, owner: Content = null): string =>
  `${String(owner ?? '')}\n${String(name)}`.toLowerCase();

/** Names that are missing or stand twice. */
export function remarkNames(reading: SheetImport, { remarks }: ImportNotes, part: EarlierRecords | undefined): void {
  const { key, record, columns, partOf } = reading.declaration;
  const at = columns.findIndex(({ header }) => header === key);
  // A part's name is its own within the whole that it belongs to.
  const owner = columns.findIndex(({ header }) => header === partOf?.header);
  const firsts = new Map<string, string>();
  reading.rows.forEach(({ cells }, index) => {
    const origin = reading.origins[index];
    if (origin === undefined) return;
    const name = cells[at] ?? null;
    const place = { sheet: origin.sheet, cell: origin.cell(key), column: key, of: 'names' as const };
    if (name === null) {
      remarks.push({ ...place, given: '', what: `the ${record} has no name` });
      return;
    }
    const word = nameWord(name, cells[owner]);
    const first = part?.place(word) ?? firsts.get(word);
    if (first === undefined) firsts.set(word, `${origin.sheet} ${place.cell}`);
    else remarks.push({ ...place, given: String(name), what: `the name is already used in ${first}` });
  });
}

/** Plate series that belts name and that are in no sheet of the book. */
export function remarkSeries(reading: SheetImport, sheets: readonly SheetState[], { remarks }: ImportNotes): void {
  const at = belts.columns.findIndex(({ header }) => header === 'Plate series');
  const column = belts.columns[at];
  const known = column === undefined ? undefined : choiceWords(column, sheets);
  const missing = new Map<string, { readonly index: number; count: number }>();
  reading.rows.forEach(({ cells }, index) => {
    const name = cells[at];
    if (typeof name !== 'string' || name.startsWith('=') || known?.has(name.toLowerCase()) === true) return;
    const found = missing.get(name);
    if (found === undefined) missing.set(name, { index, count: 1 });
    else found.count += 1;
  });
  for (const [name, { index, count }] of missing) {
    const origin = reading.origins[index];
    if (origin === undefined) continue;
    remarks.push({
      sheet: origin.sheet,
      cell: origin.cell('Plate series'),
      column: 'Plate series',
      given: name,
      what: seriesWords(name, count),
      of: { seriesOf: count },
    });
  }
}

/** That a number of belts name a series that there is not. */
export const seriesWords = (name: string, count: number): string =>
  `the sheet Plate series has no "${name}"${count === 1 ? '' : `, and ${count - 1} more`}: enter it there, or use a ` +
  `series listed there`;
