import { namedSheets } from '../../sheets/index.ts';
import { functions } from '../../src/functions/index.ts';
import { Engine, type SheetContents } from '../../src/formula/engine.ts';
import { type Content } from '../../src/formula/values.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../src/formula/address.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from './fleet.ts';
import { PlainFleet } from '../oracles/plain-fleet.ts';
import { median, milliseconds, quantile, timed, times } from './timing.ts';

/** The workbook's times as ratios to the same figures in plain loops; each number of rounds interleaves the two. */

interface Compared {
  readonly what: string;
  readonly book: number;
  readonly plain: number;
}

const rounds = 5;
const edits = 200;

const line = ({ what, book, plain }: Compared): string =>
  `  ${what.padEnd(34)} ${milliseconds(book).padStart(11)}  plain ${milliseconds(plain).padStart(11)}  ` +
  `${times(book / plain).padStart(7)}`;

export function engineBench(count: number, write: (text: string) => void): void {
  const state = fleet(count);
  const proof = new Workbook(state);
  const plain = new PlainFleet(proof);
  const wrong = plain.disagreements(proof);
  if (wrong.length > 0)
    throw new Error(
      `the plain loops and the book disagree in ${wrong.length} cells, first: ${wrong.slice(0, 3).join('; ')}`,
    );

  const builds: number[] = [];
  const loops: number[] = [];
  let book = proof;
  for (let round = 0; round < rounds; round += 1) {
    builds.push(timed(() => (book = new Workbook(state))));
    loops.push(timed(() => plain.joints()));
  }

  const width = book.column('Belts', 'Width');
  const bookEdits: number[] = [];
  const plainEdits: number[] = [];
  for (let edit = 0; edit < edits; edit += 1) {
    const record = (edit * 7919) % count;
    const content = 600 + edit;
    bookEdits.push(timed(() => book.edit([{ sheet: 'Belts', record, column: width, content }])));
    const belt = plain.belts[record];
    if (belt !== undefined) plainEdits.push(timed(() => plain.joint({ ...belt, width: content })));
  }

  const bookAssumptions: number[] = [];
  const plainAssumptions: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const content = 0.06 + round / 100;
    bookAssumptions.push(timed(() => book.edit([{ sheet: 'Assumptions', record: 0, column: 1, content }])));
    plainAssumptions.push(timed(() => plain.joints({ ...plain.named, TightMargin: content })));
  }

  write(`${count.toLocaleString('en-US')} belts (medians of ${rounds}; edits: ${edits} different belts)`);
  for (const compared of [
    { what: 'build', book: median(builds), plain: median(loops) },
    { what: 'edit of an input, p50', book: median(bookEdits), plain: median(plainEdits) },
    { what: 'edit of an input, p99', book: quantile(bookEdits, 0.99), plain: quantile(plainEdits, 0.99) },
    { what: 'change of an assumption', book: median(bookAssumptions), plain: median(plainAssumptions) },
  ])
    write(line(compared));
}

/** What the formula engine takes when every computed cell is a formula cell in it, against compiled rows. */
export function allFormulaCells(count: number, write: (text: string) => void): void {
  const book = new Workbook(fleet(count));
  const sheets = book.state.sheets.map((sheet): SheetContents => {
    const columns = book.columns(sheet.name);
    return {
      name: sheet.name,
      rows: [
        columns.map(({ header }) => header),
        ...sheet.rows.map((_, record) =>
          columns.map(
            (__, column): Content =>
              book.formula({ sheet: sheet.name, record, column }) ??
              book.content({ sheet: sheet.name, record, column }),
          ),
        ),
      ],
    };
  });
  const names = namedSheets.flatMap(({ declaration: { name } }) =>
    book
      .sheet(name)
      .rows.map((row, record) => ({
        name: String(row.cells[0]),
        reference: `${quotedSheet(name)}!$${columnLetters(1)}$${sheetRow(record)}`,
      })),
  );
  let engine: Engine | undefined;
  const whole = timed(() => (engine = Engine.build(functions, sheets, names)));
  const compiled = timed(() => new Workbook(book.state));
  const verdict = engine?.value({ sheet: 'Belts', row: 1, column: book.column('Belts', 'Verdict') });
  if (verdict !== book.read('Belts', 0, 'Verdict')) throw new Error(`the engine's own cells say ${String(verdict)}`);
  write(`${count.toLocaleString('en-US')} belts, every computed cell a formula cell of the engine (one run)`);
  write(`  build ${milliseconds(whole)}, compiled rows ${milliseconds(compiled)}: ${times(whole / compiled)}`);
}
