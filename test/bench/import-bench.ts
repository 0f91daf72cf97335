import { emptyBook } from '../../src/workbook/declared.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import type { RawBook, RawCell } from '../../src/xlsx/read/raw-book.ts';
import { median, milliseconds, timed, times } from './timing.ts';

/** Understanding a planner's list, once its cells are read, against copying the same cells in a plain loop. */

const headers = [
  'Conveyor',
  'Area',
  'Material',
  'Belt width mm',
  'Belt type',
  'Thk (mm)',
  'Carcass thk',
  'Top cover mm',
  'Belt rating N/mm',
  'Pulley min dia.',
  'Head Ø',
  'Tail Ø',
  'C/C m',
  'Lift m',
  'Speed m/s',
  'kW',
  't/h',
  'Wrap angle',
  'Drive friction',
  'T1 kN/m',
  'Take-up mm',
  'Splice angle',
  'Fasteners',
  'Skive depth',
  'No. of splices',
  'Install date',
  'Hrs/yr',
  'Life h',
  'Service',
];
const ownColumns = 13;

/** Numbers, texts with units, decimal commas, dates and formulas, as such lists mix them. */
function listRow(row: number): RawCell[] {
  const index = row - 2;
  const values: Partial<RawCell>[] = [
    `C${index}`,
    `Area ${index % 7}`,
    'coal',
    800,
    'EP 400/3 4+2',
    10.5,
    '4,5',
    4,
    40,
    '≈ 400 mm',
    500,
    400,
    120 + (index % 5),
    5.5,
    2.5,
    75,
    900,
    210,
    0.35,
    undefined,
    1200,
    45,
    'Lapwing',
    0,
    2,
    undefined,
    6000,
    18_000,
    'UG, FRAS',
    ...Array.from({ length: ownColumns - 4 }, (_, own) => index * own),
    undefined,
    undefined,
    `text ${index}`,
    '14.5.2023',
  ].map((value) => (value === undefined ? {} : { value }));
  values[19] = { value: 32, formula: `I${row}*0.8` };
  values[25] = { value: 45_000 + (index % 900), date: true };
  values[38] = { value: 2, formula: `D${row}/J${row}` };
  values[39] = { value: 240, formula: `M${row}*2` };
  return values.map((cell, column) => ({ value: null, ...cell, row, column: column + 1 }));
}

function list(count: number): RawBook {
  const titles = [...headers, ...Array.from({ length: ownColumns }, (_, index) => `Own ${index}`)];
  const rows = new Map<number, readonly RawCell[]>([
    [1, titles.map((value, index) => ({ row: 1, column: index + 1, value }))],
  ]);
  for (let row = 2; row < count + 2; row += 1) rows.set(row, listRow(row));
  return {
    sheets: [{ name: 'Belts', hidden: false, rows, merges: [], lastRow: count + 1, lastColumn: titles.length }],
    names: [],
  };
}

export function importBench(count: number, write: (text: string) => void): void {
  const base = emptyBook('metric');
  const [proposing, accepting, copying]: [number[], number[], number[]] = [[], [], []];
  for (let round = 0; round < 5; round += 1) {
    const book = list(count);
    let proposal = proposeImport(list(2));
    proposing.push(timed(() => (proposal = proposeImport(book))));
    accepting.push(timed(() => acceptImport(book, proposal, base)));
    const copies: unknown[] = [];
    copying.push(
      timed(() => {
        for (const cells of book.sheets[0]?.rows.values() ?? [])
          copies.push(cells.map(({ value }) => ({ content: value })));
      }),
    );
    if (copies.length !== count + 1) throw new Error('the plain loop lost rows');
  }
  const [propose, accept, copy] = [median(proposing), median(accepting), median(copying)];
  write(
    `Understanding a list of ${count} belts in ${headers.length + ownColumns} columns: ${milliseconds(propose)} to ` +
      `propose, ${milliseconds(accept)} to take, ${times((propose + accept) / copy)} a plain copy of its cells ` +
      `(${milliseconds(copy)})`,
  );
}
