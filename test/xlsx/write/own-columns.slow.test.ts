import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isFault } from '../../../src/formula/values.ts';
import { cellText } from '../../../src/page/cell-text.ts';
import type { QuantityKind } from '../../../src/units/quantities.ts';
import { withCellsOfColumns } from '../../../src/workbook/column-references.ts';
import { withOwnColumn } from '../../../src/workbook/own-columns.ts';
import { withColumnAdded } from '../../../src/workbook/state-changes.ts';
import { type BookState, type CellFormat, sheetOf, type UserColumn } from '../../../src/workbook/state.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { bookOf, soundBelt } from '../../workbook/books.ts';
import { edited } from '../libreoffice.ts';
import { stamp } from './exported-book.ts';
import { cellAt, near, shown } from './recalculated-values.ts';

/** Columns of the user's own, with what they hold and how they show it, as another program works them out and shows. */

const belts = 12;
const formulas = 40;

const typed: readonly UserColumn[] = [
  { header: 'Pieces', kind: 'number', unit: 'pcs' },
  { header: 'Rate', kind: 'number', percent: true, digits: 1 },
  { header: 'Cost', kind: 'money', digits: 2 },
  { header: 'Wanted', kind: 'date' },
  { header: 'Reach', kind: 'length', digits: 1 },
  { header: 'Remark', kind: 'text' },
];

const number = fc.oneof(
  fc.constantFrom('[Pieces]', '[Rate]', '[Cost]', '[Wanted]', '[Reach]', '[Width]'),
  fc.constantFrom('SUM(Belts[Pieces])', 'MAX(Belts[Cost])', 'AVERAGE(Belts[Rate])', 'COUNTIF(Belts[Rate],">0.2")'),
  fc.constantFrom('INDEX(Belts[Cost],MATCH([Belt],Belts[Belt],0))', 'SUMIFS(Belts[Cost],Belts[Remark],[Remark])'),
  fc.constantFrom('YEAR([Wanted])', 'EOMONTH([Wanted],1)', 'LEN([Remark])', '10%', '2.5', 'TightMargin'),
);
const expression: fc.Arbitrary<string> = fc.letrec((tie) => ({
  any: fc.oneof(
    { depthSize: 'small' },
    number,
    fc
      .tuple(tie('any'), fc.constantFrom('+', '-', '*', '/'), tie('any'))
      .map(([one, by, two]) => `(${one}${by}${two})`),
    fc.tuple(tie('any'), fc.nat(3)).map(([one, digits]) => `ROUND(${one},${digits})`),
    fc
      .tuple(tie('any'), fc.constantFrom('<', '>=', '='), tie('any'), tie('any'), tie('any'))
      .map(([one, than, two, yes, no]) => `IF(${one}${than}${two},${yes},${no})`),
  ),
})).any as fc.Arbitrary<string>;

const looks = fc.constantFrom<CellFormat>(
  { kind: 'number' },
  { kind: 'number', digits: 3 },
  { kind: 'number', percent: true, digits: 2 },
  { kind: 'money', digits: 2 },
  { kind: 'length', digits: 1 },
  { kind: 'date' },
);

/** A book with the typed columns filled, and formula columns over them. */
function ownBook(): { readonly state: BookState; readonly headers: readonly string[] } {
  const [figures] = fc.sample(
    fc.array(fc.tuple(fc.nat(500), fc.nat(1000), fc.nat(99_999), fc.integer({ min: 40_000, max: 50_000 })), {
      minLength: belts,
      maxLength: belts,
    }),
    { numRuns: 1, seed: 14 },
  );
  let state = bookOf({ belts: Array.from({ length: belts }, (_, at) => ({ ...soundBelt, Belt: `B${at}` })) });
  for (const column of typed) state = withColumnAdded(state, 'Belts', column);
  const first = sheetOf(state, 'Belts').rows[0]?.cells.length ?? 0;
  const book = new Workbook(state);
  book.edit(
    (figures ?? []).flatMap(([pieces, rate, cost, due], record) =>
      [pieces, rate / 1000, cost / 100, due, Math.round(pieces * 1.25) / 10, record % 3 === 0 ? 'round' : 'flat'].map(
        (content, at) => ({
          sheet: 'Belts',
          record,
          column: book.column('Belts', 'Belt') + first - typed.length + at,
          content,
        }),
      ),
    ),
  );
  state = book.state;
  book.destroy();
  const made = fc.sample(fc.tuple(expression, looks), { numRuns: formulas, seed: 14 });
  for (const [at, [text, look]] of made.entries()) {
    const header = `Own ${at}`;
    state = withColumnAdded(state, 'Belts', { header, kind: 'number' });
    const position = (sheetOf(state, 'Belts').rows[0]?.cells.length ?? 0) - 1;
    const formula = withCellsOfColumns(`=${text}`, { sheet: 'Belts', record: 0, column: position }, state);
    state = withOwnColumn(state, 'Belts', position, { header, ...look, formula });
  }
  return { state, headers: [...typed.map(({ header }) => header), ...made.map((_, at) => `Own ${at}`)] };
}

/** A shown number without what programs part thousands with, and with a plain minus. */
const bare = (text: string): string => text.replaceAll(/[\s\u202f\u00a0,]/gu, '').replaceAll('\u2212', '-');
const numeric: ReadonlySet<QuantityKind> = new Set(['number', 'money', 'length']);

test('own columns come to the same values in LibreOffice, and show the same', { timeout: 240_000 }, async () => {
  const { state, headers } = ownBook();
  const book = new Workbook(state);
  const { bytes } = await exportedBook(book, [], { stamp });
  const width = book.columns('Belts').length;
  const beside = 600;
  const file = readBook(
    await edited(bytes, [
      'book.calculateAll()',
      'sheet = book.Sheets.getByName("Belts")',
      'cursor = sheet.createCursor()',
      'cursor.gotoEndOfUsedArea(False)',
      'last = cursor.RangeAddress.EndColumn',
      `For row = 0 To ${belts}`,
      'For at = 0 To last',
      `If row = 0 Or at < ${width} Then sheet.getCellByPosition(${beside} + at, row).String = ` +
        'sheet.getCellByPosition(at, row).String',
      'Next at',
      'Next row',
    ]),
    readLimits,
    true,
  );
  const other: string[] = [];
  let [values, texts] = [0, 0];
  for (const header of headers) {
    const column = book.findColumn('Belts', header) ?? -1;
    const found = book.columnAt({ sheet: 'Belts', column });
    if (found === undefined) throw new Error(`no column ${header}`);
    for (let record = 0; record < belts; record += 1) {
      const place = { sheet: 'Belts', record, column };
      const value = book.shown(place);
      const theirs = shown(cellAt(file, 'Belts', record + 2, column + 1));
      const says = `${header} ${String(book.formula(place))}: ${String(value)}`;
      values += 1;
      if (isFault(value) ? !String(theirs).startsWith('#') : !near(value, theirs))
        other.push(`${says} ${String(theirs)}`);
      if (typeof value !== 'number' || Math.abs(value) >= 1e12 || (value !== 0 && Math.abs(value) < 1e-6)) continue;
      const text = String(shown(cellAt(file, 'Belts', record + 2, beside + column + 1)));
      // Without digits asked for, the page shows six at most; and it shows the time of a day that has one.
      const isSaid = found.look.digits !== undefined && numeric.has(found.kind);
      if (!isSaid && !(found.kind === 'date' && Number.isInteger(value) && value > 0)) continue;
      texts += 1;
      const own = bare(cellText(book, found, place));
      if (own !== bare(text)) other.push(`${says} shown ${own}, there ${text}`);
    }
  }
  book.destroy();
  expect(other).toEqual([]);
  expect([values, texts > 200]).toEqual([headers.length * belts, true]);
});
