import { columnLetters } from '../../src/formula/address.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, timed } from './timing.ts';

/** Formulas that people fill down a column of their own, each with what it asks of the whole list. */
const demo = new Workbook(demoBook('metric'));
const letters = (header: 'Belt' | 'Area' | 'Width'): string => columnLetters(demo.column('Belts', header));
const [belt, area, width] = [letters('Belt'), letters('Area'), letters('Width')];

const filledDown: Readonly<Record<string, (row: number, last: number) => string>> = {
  'SUMIFS by area': (row, last) => `=SUMIFS(${width}$2:${width}$${last},${area}$2:${area}$${last},${area}${row})`,
  'SUMIFS by belt': (row) => `=SUMIFS(${width}:${width},${belt}:${belt},${belt}${row})`,
  'SUMIFS above': (row, last) =>
    `=SUMIFS(${width}$2:${width}$${last},${width}$2:${width}$${last},">"&${width}${row}-${row}/1000)`,
  MATCH: (row, last) => `=MATCH(${belt}${row},${belt}$2:${belt}$${last},0)`,
  VLOOKUP: (row, last) => `=VLOOKUP(${belt}${row},$A$2:${width}$${last},4,FALSE)`,
  'COUNTIF so far': (row) => `=COUNTIF(${width}$2:${width}${row},${width}${row})`,
  'product of two cells': (row) => `=${width}${row}*2`,
};

/** A fleet with one formula filled down a column of the user's own. */
function filled(count: number, formula: (row: number, last: number) => string): BookState {
  const state = fleet(count);
  return {
    ...state,
    sheets: state.sheets.map((sheet) =>
      sheet.name !== 'Belts'
        ? sheet
        : {
            ...sheet,
            userColumns: [...sheet.userColumns, { header: 'Own', kind: 'number' }],
            rows: sheet.rows.map(({ cells }, index) => {
              const own = [...cells];
              own[demo.columns('Belts').length + sheet.userColumns.length] = formula(index + 2, count + 1);
              return { cells: Array.from(own, (cell) => cell ?? null) };
            }),
          },
    ),
  };
}

/** The same sheets before the formula is filled down. */
const emptied = (state: BookState): BookState['sheets'] =>
  state.sheets.map((sheet) =>
    sheet.name !== 'Belts' ? sheet : { ...sheet, rows: sheet.rows.map(({ cells }) => ({ cells: cells.slice(0, -1) })) },
  );

/**
 * How long a book with so many formulas of its user takes to open, to have them filled down, and to settle after an
 * edit that they all rest on.
 */
export function typedFormulasBench(count: number, write: (text: string) => void): void {
  const without = timed(() => new Workbook(fleet(count)));
  write(`${count.toLocaleString('en-US')} belts and a formula in each row; without: ${milliseconds(without)}`);
  for (const [what, formula] of Object.entries(filledDown)) {
    const state = filled(count, formula);
    let book = demo;
    const open = timed(() => (book = new Workbook(state)));
    const column = book.column('Belts', 'Width');
    const edits = [1, 2, 3].map((round) =>
      timed(() => book.edit([{ sheet: 'Belts', record: round * 100, column, content: 900 + round }])),
    );
    const own = { sheet: 'Belts', column: demo.columns('Belts').length };
    const unfilled = new Workbook({ ...state, sheets: emptied(state) });
    const cells = Array.from({ length: count }, (_, record) => ({
      ...own,
      record,
      content: formula(record + 2, count + 1),
    }));
    const fill = timed(() => unfilled.edit(cells));
    const times = { open, fill, edit: median(edits) };
    const told = Object.entries(times).map(([name, taken]) => `${name} ${milliseconds(taken).padStart(10)}`);
    write(`  ${what.padEnd(22)} ${told.join('  ')}`);
  }
}
