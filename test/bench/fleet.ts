import { belts } from '../../sheets/belts/index.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { demoBook } from '../../src/workbook/demo.ts';

const position = (header: string): number => belts.columns.findIndex((column) => column.header === header);
/** Inputs that are varied from belt to belt, by how much of themselves at most. */
const varied = [
  { column: position('Lift'), share: 0.2 },
  { column: position('Power'), share: 0.15 },
  { column: position('Known tension'), share: 0.15 },
  { column: position('Take-up travel'), share: 0.25 },
] as const;

/** A fleet of any size: the demo's belts over and over, each with a name of its own and somewhat other figures. */
export function fleet(count: number): BookState {
  const demo = demoBook('metric');
  const name = position('Belt');
  // A fixed sequence that is spread evenly, so that every run has the same fleet.
  const spread = (index: number): number => ((index * 0.618033988749895) % 1) * 2 - 1;
  return {
    ...demo,
    title: `${count} belts`,
    sheets: demo.sheets.map((sheet) => {
      if (sheet.name !== belts.name) return sheet;
      const rows = Array.from({ length: count }, (_, index) => {
        const cells = [...(sheet.rows[index % sheet.rows.length]?.cells ?? [])];
        cells[name] = `B${String(index + 1).padStart(5, '0')}`;
        for (const { column, share } of varied) {
          const value = cells[column];
          if (typeof value === 'number')
            cells[column] = Math.round(value * (1 + share * spread(index + column)) * 100) / 100;
        }
        return { cells };
      });
      return { ...sheet, rows };
    }),
  };
}
