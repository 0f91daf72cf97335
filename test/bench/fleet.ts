import { belts } from '../../sheets/belts/index.ts';
import type { Content } from '../../src/formula/values.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { demoBook } from '../../src/workbook/demo.ts';

const position = (header: string): number => belts.columns.findIndex((column) => column.header === header);
/** Inputs that are varied from belt to belt, by how much of themselves at most. */
const varied = [
  { column: position('Lift'), share: 0.2 },
  { column: position('Power'), share: 0.15 },
  { column: position('Known tension'), share: 0.15 },
  { column: position('Take-up travel'), share: 0.25 },
] as const;

/** A fixed sequence that is spread evenly, so that every run has the same fleet. */
const spread = (index: number): number => ((index * 0.618033988749895) % 1) * 2 - 1;

/** The belts of a fleet one by one: the demo's over and over, each with its own name and somewhat other figures. */
export function* fleetRows(count: number): Generator<readonly Content[]> {
  const rows = sheetOf(demoBook('metric'), belts.name).rows;
  const name = position('Belt');
  for (let index = 0; index < count; index += 1) {
    const cells = [...(rows[index % rows.length]?.cells ?? [])];
    cells[name] = `B${String(index + 1).padStart(5, '0')}`;
    for (const { column, share } of varied) {
      const value = cells[column];
      if (typeof value === 'number')
        cells[column] = Math.round(value * (1 + share * spread(index + column)) * 100) / 100;
    }
    yield cells;
  }
}

/** A fleet of any size. */
export function fleet(count: number): BookState {
  const demo = demoBook('metric');
  const rows = [...fleetRows(count)].map((cells) => ({ cells }));
  return {
    ...demo,
    title: `${count} belts`,
    sheets: demo.sheets.map((sheet) => (sheet.name === belts.name ? { ...sheet, rows } : sheet)),
  };
}
