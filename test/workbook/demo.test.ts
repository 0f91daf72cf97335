import { describe, expect, test } from 'vitest';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { verdictOf } from '../../src/functions/checks.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { isFault } from '../../src/formula/values.ts';
import { commaRows } from '../../src/workbook/csv.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader, SeriesHeader } from '../../sheets/index.ts';

const metric = new Workbook(demoBook('metric'));
const us = new Workbook(demoBook('us'));
const records = [...metric.sheet('Belts').rows.keys()];
const column = (book: Workbook, header: BeltHeader) => records.map((record) => book.read('Belts', record, header));

describe('Tern Quay', () => {
  test('has 36 belts of its own names, widths 400 to 1600 mm, in six places', () => {
    expect(records).toHaveLength(36);
    expect(new Set(column(metric, 'Belt')).size).toBe(36);
    expect([...new Set(column(metric, 'Width'))].toSorted((a, b) => Number(a) - Number(b))).toEqual([
      400, 500, 650, 800, 1000, 1200, 1400, 1600,
    ]);
    expect(new Set(column(metric, 'Area')).size).toBe(6);
    expect(new Set(column(metric, 'Skew'))).toEqual(new Set([0, 17, 22, 30, 45]));
  });

  test('says that it is invented: the book, every series and every strip', () => {
    expect(metric.state.invented).toBe(true);
    for (const sheet of ['Plate series', 'Strips'] as const) {
      for (const record of metric.sheet(sheet).rows.keys()) {
        expect(metric.read(sheet, record, 'Supplier')).toMatch(/^Invented Supplier [A-C]$/);
        expect(metric.read(sheet, record, 'Remark')).toMatch(/^invented: /);
      }
    }
  });

  test('uses every plate series and every strip', () => {
    const used = new Set(column(metric, 'Plate series'));
    expect(
      new Set(metric.sheet('Plate series').rows.map((_, record) => metric.read('Plate series', record, 'Series'))),
    ).toEqual(used);
    const strips = metric.sheet('Strips').rows.map((_, record) => metric.read('Strips', record, 'Strip'));
    expect(
      new Set(metric.sheet('Plate series').rows.map((_, record) => metric.read('Plate series', record, 'Strip'))),
    ).toEqual(new Set(strips));
  });

  test('most belts fit; some are tight, fail or are not known', () => {
    const verdicts = column(metric, 'Verdict');
    const count = (verdict: string) => verdicts.filter((item) => item === verdict).length;
    expect(count('fits')).toBeGreaterThan(18);
    expect(count('tight')).toBeGreaterThanOrEqual(3);
    expect(count('fails')).toBeGreaterThanOrEqual(8);
    expect(count('not known')).toBeGreaterThanOrEqual(3);
  });

  test.each(checkColumns)('the $header has its worst somewhere, and fits in most places', ({ header, word }) => {
    const declared: CheckDeclaration | undefined = beltChecks.find((check) => check.word === word);
    const verdicts = column(metric, header);
    expect(verdicts).toContain(declared?.atWorst ?? 'fails');
    expect(verdicts.filter((verdict) => verdictOf(verdict) === 'fits').length).toBeGreaterThan(18);
  });

  test('tension comes by all four routes', () => {
    expect(new Set(column(metric, 'Tension from'))).toEqual(new Set(['entered', 'permitted', 'power', 'resistances']));
  });

  test('no cell holds an error except in belts whose verdict is not known', () => {
    const faulty = records.filter((record) =>
      metric.columns('Belts').some((_, at) => isFault(metric.value({ sheet: 'Belts', record, column: at }))),
    );
    expect(faulty.length).toBeGreaterThan(0);
    for (const record of faulty) expect(metric.read('Belts', record, 'Verdict')).toBe('not known');
    for (const sheet of ['Plate series', 'Strips'] as const) {
      for (const record of metric.sheet(sheet).rows.keys()) {
        for (const [at, { header }] of metric.columns(sheet).entries())
          expect(isFault(metric.value({ sheet, record, column: at })), `${sheet}, ${header}`).toBe(false);
      }
    }
  });

  test('the figures of the plates are possible: the plate within the pitch, limits in order, bolts as many as holes', () => {
    for (const record of metric.sheet('Plate series').rows.keys()) {
      const figure = (header: SeriesHeader): number => Number(metric.read('Plate series', record, header));
      expect(figure('Plate size')).toBeLessThan(figure('Pitch'));
      expect(figure('Least thickness')).toBeLessThan(figure('Greatest thickness'));
      expect(figure('Least edge')).toBeLessThan(figure('Greatest edge'));
      expect(figure('Bolts per plate')).toBe(2 * figure('Holes per side'));
      expect(figure('Hole gap') + figure('Punch size')).toBeLessThan(figure('Plate size'));
      expect(figure('Changing thickness')).toBeGreaterThan(figure('Least thickness'));
      expect(figure('Changing thickness')).toBeLessThan(figure('Greatest thickness'));
    }
  });

  test('the US customary book is the same fleet: same verdicts, lengths in inches', () => {
    for (const header of [
      'Verdict',
      'Findings',
      'Plates',
      'Tension from',
      ...checkColumns.map((check) => check.header),
    ] as const) {
      expect(column(us, header)).toEqual(column(metric, header));
    }
    // Metric books weigh with 9.81 m/s², US customary ones with a pound-force per pound, 9.80665 m/s².
    for (const record of records) {
      const [one, other] = [metric.read('Belts', record, 'Pull used'), us.read('Belts', record, 'Pull used')];
      const agree = ['resistances', 'power'].includes(String(metric.read('Belts', record, 'Tension from')))
        ? 9.81 / 9.80665 - 1
        : 1e-12;
      if (!isFault(one)) expect(Math.abs(Number(other) / Number(one) - 1)).toBeLessThanOrEqual(agree);
    }
    expect(us.read('Belts', 0, 'Width')).toBeCloseTo(1200 / 25.4, 10);
  });
});

test('comma-separated text: quotes, comments, blank lines, a last empty cell, line ends', () => {
  expect(commaRows('# note, with comma\r\na,b\r\n"x, ""y""\nz",\r\n\r\n,2')).toEqual([
    ['a', 'b'],
    ['x, "y"\nz', ''],
    ['', '2'],
  ]);
  expect(() => commaRows('a,"b"c\n')).toThrow('row 1');
});
