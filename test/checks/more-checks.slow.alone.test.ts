import type { Value } from '../../src/formula/values.ts';
import { describe, expect, test, vi } from 'vitest';
import { verdictColumns } from '../../sheets/belts/check-columns.ts';
import { beltCell, ofBelt, ofSeries, seriesCell, worked } from '../../sheets/belts/checks/compared.ts';
import { belts } from '../../sheets/belts/index.ts';
import { declarations, namedSheets } from '../../sheets/index.ts';
import { unitDimensions } from '../../sheets/values/units.ts';
import { explainedCheck } from '../../src/checks/check.ts';
import { checks } from '../../src/checks/checks.ts';
import { findings, recordFindings } from '../../src/checks/findings.ts';
import { checkSection } from '../../src/reference/check-section.ts';
import { notAsked, verdictOf, verdicts } from '../../src/functions/checks.ts';
import { functions } from '../../src/functions/index.ts';
import type { Finding } from '../../src/records/finding.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { declareSheet } from '../../src/sheet/declaration.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { compileBook } from '../../src/workbook/compiled-book.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { columnOf, bookOf, type Cells, plover, soundBelt } from '../workbook/books.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { stamp } from '../xlsx/write/exported-book.ts';
import { differences } from '../xlsx/write/recalculated-values.ts';

/**
 * The program with more checks than it has: they are put into the list that it reads, and nothing else is changed, so
 * that this fails when a check needs more than its declaration.
 */

const { extra } = await vi.hoisted(async () => {
  const compared = await import('../../sheets/belts/checks/compared.ts');
  const declaration = await import('../../sheets/belts/check-declaration.ts');
  const own: readonly CheckDeclaration[] = declaration.declareChecks([
    {
      word: 'belt rating',
      doc: "working tension against the belt's own permitted tension",
      source: 'arithmetic',
      look: 'Belt rating',
      value: compared.ofBelt('Working tension', 'the working tension'),
      maximum: compared.ofBelt('Belt rating used', "the belt's permitted tension"),
      cures: ['other series', (belt) => `Take a belt that is permitted ${belt.shown('Working tension')}.`, () => ''],
    },
    {
      word: 'roll',
      doc: 'spare roll against its core',
      source: 'arithmetic',
      look: 'Spare roll diameter',
      value: compared.ofBelt('Spare roll diameter', 'the spare roll'),
      minimum: compared.worked('2*{Spare roll core diameter}', 'Spare roll core diameter', 'twice its core'),
      margin: 'MethodMargin',
      silentWithout: [compared.beltCell('Spare roll diameter'), compared.beltCell('Spare roll core diameter')],
      cures: [],
    },
    {
      word: 'rated pulley',
      doc: "smallest pulley against the series' own figure",
      source: 'arithmetic',
      look: 'Smallest pulley',
      value: compared.ofBelt('Smallest pulley', 'the smallest pulley'),
      minimum: compared.ofSeries('Minimum pulley at 45', (belt) => `what ${belt.series} is rated for`),
      silentWithout: [compared.seriesCell('Minimum pulley at 45'), compared.beltCell('Passes per year')],
      atWorst: 'tight',
      ofJointInPlace: true,
      cures: [],
    },
  ]);
  // One that is made by a function, as checks that are alike may be.
  const like = (word: string): CheckDeclaration => ({
    word,
    doc: 'thickness against a range of the belt',
    source: 'arithmetic',
    look: 'Thickness',
    value: compared.ofBelt('Clamped thickness', 'the clamped thickness'),
    minimum: compared.ofSeries('Minimum thickness', 'the least'),
    maximum: compared.ofSeries('Maximum thickness', 'the greatest'),
    silentWithout: [compared.beltCell('Thickness')],
    atWorst: 'tight',
    cures: ['other series'],
  });
  return { extra: [...own, ...Array.from({ length: 1 }, (_, index) => like(`further trial ${index + 1}`))] };
});

vi.mock(import('../../sheets/belts/checks/index.ts'), async (original) => {
  const { beltChecks } = await original();
  const all: readonly CheckDeclaration[] = [...beltChecks, ...extra];
  // The words of the checks are types; those that a test adds are none of them.
  return { beltChecks: all as unknown as typeof beltChecks };
});

const book = (changed: Cells = {}, series: Cells = plover): Workbook =>
  new Workbook(bookOf({ belts: [{ ...soundBelt, ...changed }], series: [series] }));
const found = (of: Workbook, check: string): Finding | undefined =>
  recordFindings(of, 0).find((finding) => finding.check === check);

test('there are more than 30, with their columns, and their units agree', () => {
  expect(checks.length).toBeGreaterThan(30);
  const headers = belts.columns.map(({ header }) => header);
  expect(headers).toContain('Belt rating check');
  expect(headers.slice(-2)).toEqual(['Verdict', 'Findings']);
  const named = namedSheets.flatMap(({ values }) => values);
  const declared = { sheets: declarations, named, dimensions: unitDimensions, functions };
  expect(() => compileBook(declared)).not.toThrow();
  const { about, groups } = checkSection();
  expect(about.join(' ')).toContain('A check that is **not asked** counts as one that fits');
  expect(groups.flatMap(({ entries }) => entries).find(({ name }) => name === 'rated pulley')).toMatchObject({
    says:
      "smallest pulley against the series' own figure; not asked without Minimum pulley at 45 and Passes per year; " +
      'tight at worst; not for a joint still to be made',
    facts: expect.arrayContaining([
      { label: 'column of its verdict', text: 'Rated pulley check' },
      { label: 'input to look at first', text: 'Smallest pulley' },
    ]),
  });
});

/** A cell of a check that only this test declares. */
const read = (open: Workbook, record: number, header: string): Value =>
  open.value({ sheet: 'Belts', record, column: columnOf(open, 'Belts', header) });

describe('a further check', () => {
  test('fails with both numbers and its cures, and is listed', () => {
    const open = book({ 'Belt rating': 18, 'Known tension': 20 });
    expect(read(open, 0, 'Belt rating check')).toBe('fails');
    expect(read(open, 0, 'Verdict')).toBe('fails');
    expect(String(read(open, 0, 'Findings')).split('; ')).toContain('belt rating fails');
    const finding = found(open, 'belt rating');
    expect(finding?.message).toBe("The working tension, 20 N/mm, is above the belt's permitted tension, 18 N/mm.");
    expect(finding?.cures).toEqual([
      'No other series in the sheet Plate series cures it at this skew.',
      'Take a belt that is permitted 20 N/mm.',
    ]);
    expect([finding?.given?.value, finding?.limit?.value, finding?.column]).toEqual([20, 18, 'Belt rating']);
  });

  test('is tight by the margin that it names', () => {
    const margins = { MethodMargin: 0.5, TightMargin: 0.01 };
    const open = new Workbook(
      bookOf({
        belts: [{ ...soundBelt, 'Spare roll diameter': 260, 'Spare roll core diameter': 100 }],
        named: margins,
      }),
    );
    expect(read(open, 0, 'Roll check')).toBe('tight');
    expect(found(open, 'roll')?.message).toBe(
      'The spare roll, 260 mm, is only 30 % above twice its core, 200 mm, less than the margin of 50 %.',
    );
    expect(found(open, 'roll')?.limit).toEqual({ label: 'twice its core', value: 200, kind: 'length', unit: 'mm' });
  });

  test('is silent while what it compares is not given, and only then', () => {
    const open = book();
    expect([read(open, 0, 'Roll check'), read(open, 0, 'Verdict')]).toEqual([notAsked, 'fits']);
    expect([read(open, 0, 'Findings'), findings(open)]).toEqual(['', []]);
    expect(read(book({ 'Spare roll diameter': 260 }), 0, 'Roll check')).toBe(notAsked);
    const wrong = book({ 'Spare roll diameter': 260, 'Spare roll core diameter': 'thin' });
    expect(read(wrong, 0, 'Roll check')).toBe('not known');
    expect(found(wrong, 'roll')?.message).toContain('Spare roll core diameter holds the text "thin"');
    expect(read(book({ 'Spare roll diameter': -1, 'Spare roll core diameter': 10 }), 0, 'Roll check')).toBe(
      'not known',
    );
    // A series that is not known is no figure that the series does not give; neither is an error in a computed cell.
    expect(read(book({ 'Plate series': 'Plovr' }), 0, 'Rated pulley check')).toBe('not known');
    expect(read(book({ 'Passes per year': '=1/0' }), 0, 'Rated pulley check')).not.toBe(notAsked);
    expect(read(book({}, { ...plover, 'Minimum pulley at 45': null }), 0, 'Rated pulley check')).toBe(notAsked);
    expect(read(book({ 'Pulley centres': null }), 0, 'Rated pulley check')).toBe(notAsked);
  });

  test('warns where it says no more than tight', () => {
    const open = book({ 'Smallest pulley': 200, Skew: 0 });
    expect(read(open, 0, 'Rated pulley check')).toBe('tight');
    expect(found(open, 'rated pulley')).toMatchObject({
      verdict: 'tight',
      message:
        'The smallest pulley, 200 mm, is below what Plover is rated for, 225 mm. This check only warns: the belt is ' +
        'tight, it does not fail.',
    });
    expect(read(book({ 'Smallest pulley': 'small' }), 0, 'Rated pulley check')).toBe('not known');
    expect(found(book({ 'Smallest pulley': 'small' }), 'rated pulley')?.cell).toBe('Belts!J2');
  });
});

test("the demo's Verdict and Findings are those of all", () => {
  const demo = new Workbook(demoBook('metric'));
  const list = findings(demo);
  demo.sheet('Belts').rows.forEach((_, record) => {
    const cells = checks.map(({ word, column }) => ({ word, verdict: read(demo, record, column) }));
    const open = cells.filter(({ verdict }) => verdict !== 'fits' && verdict !== notAsked);
    expect(read(demo, record, 'Findings')).toBe(
      open.map(({ word, verdict }) => `${word} ${String(verdict)}`).join('; '),
    );
    const places = cells.map(({ verdict }) => verdicts.indexOf(verdictOf(verdict)));
    expect(read(demo, record, 'Verdict')).toBe(verdicts[Math.max(...places)]);
    expect(
      list.flatMap(({ sheet, record: of, check }) =>
        sheet === 'Belts' && of === record && checks.some(({ word }) => word === check) ? [check] : [],
      ),
    ).toEqual(open.map(({ word }) => word));
  });
});

test('another program comes to the same from the exported file, all of it formulas', { timeout: 240_000 }, async () => {
  const open = new Workbook(demoBook('metric'));
  const column = (header: string): number => columnOf(open, 'Belts', header);
  open.edit([
    { sheet: 'Belts', record: 0, column: column('Spare roll diameter'), content: 210 },
    { sheet: 'Belts', record: 0, column: column('Spare roll core diameter'), content: 100 },
    { sheet: 'Belts', record: 1, column: column('Plate series'), content: 'none such' },
    { sheet: 'Belts', record: 2, column: column('Thickness'), content: null },
    { sheet: 'Belts', record: 3, column: column('Age check'), content: 'f*' },
    { sheet: 'Belts', record: 4, column: column('Age check'), content: '=1/0' },
  ]);
  expect(read(open, 2, 'Further trial 1 check')).toBe(notAsked);
  const { bytes, otherwise } = await exportedBook(open, findings(open), { stamp });
  expect(otherwise.filter(({ place }) => /check|Verdict|Findings/.test(place))).toEqual([]);
  const { compared, differing } = differences(open, await recalculated(bytes));
  expect(differing).toEqual([]);
  expect(compared).toBeGreaterThan(36 * 150);
});

describe('a declaration that cannot be right is refused at once', () => {
  const right: CheckDeclaration & { readonly word: 'age' } = {
    word: 'age',
    doc: 'spare roll against its core',
    source: 'arithmetic',
    look: 'Spare roll diameter',
    value: ofBelt('Spare roll diameter', 'the spare roll'),
    minimum: worked('2*{Spare roll core diameter}', 'Spare roll core diameter', 'twice its core'),
    cures: [],
  };
  test('as it stands it is taken', () => expect(() => explainedCheck(right)).not.toThrow());
  test.each<[string, CheckDeclaration & { readonly word: 'age' }]>([
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a column to look at', { ...right, look: 'Spare rol' }],
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a column that is compared', { ...right, value: ofBelt('Spare rol', 'the spare roll') }],
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a figure of the series', { ...right, minimum: ofSeries('Spare rol', 'the least') }],
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a column whose measure a number has', { ...right, minimum: worked('{Width}', 'Spare rol', 'the least') }],
  ])('%s that is none', (_, check) => {
    expect(() => explainedCheck(check)).toThrow('there is no column Spare rol');
  });
  test.each<[string, CheckDeclaration]>([
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['an input that it is silent without', { ...right, silentWithout: [beltCell('Spare rol')] }],
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a figure that it is silent without', { ...right, silentWithout: [seriesCell('Spare rol')] }],
    ['a formula', { ...right, minimum: worked('{Spare rol}*2', 'Width', 'the least') }],
    // @ts-expect-error A wrong name does not compile; one that gets past the compiler is refused as well.
    ['a margin', { ...right, margin: 'SpareRol' }],
  ])('%s that is none', (_, check) => {
    const sheet = { ...belts, columns: [...belts.columns.slice(0, -checks.length - 2), ...verdictColumns([check])] };
    const sheets = declarations.map((other) => (other.name === 'Belts' ? sheet : other));
    expect(() => {
      declareSheet(sheet);
      compileBook({
        sheets,
        named: namedSheets.flatMap(({ values }) => values),
        dimensions: unitDimensions,
        functions,
      });
    }).toThrow(/SpareRol|Spare rol/);
  });
});
