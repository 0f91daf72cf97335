import { notAsked, verdictOf } from '../../src/functions/checks.ts';
import type { BeltHeader, SeriesHeader } from '../../sheets/index.ts';
import { describe, expect, test } from 'vitest';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';

import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { isFault } from '../../src/formula/values.ts';
import { commaRows } from '../../src/workbook/csv.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { agree } from './differences.ts';
import { placeWords } from './place-words.ts';

const metric = new Workbook(demoBook('metric'));
const us = new Workbook(demoBook('us'));
const records = [...metric.sheet('Belts').rows.keys()];
const column = (book: Workbook, header: BeltHeader) => records.map((record) => book.read('Belts', record, header));

/** What to do when the demo has changed, for the messages. */
const meant = 'if that is meant: npm run exports';

/** A column belt by belt, for the messages. */
const told = (header: BeltHeader): string =>
  `${records
    .map((record) => `${placeWords(metric, 'Belts', record, header)}: ${String(metric.read('Belts', record, header))}`)
    .join('\n')}\n${meant}`;

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
    expect(count('fits'), told('Verdict')).toBeGreaterThan(18);
    expect(count('tight'), told('Verdict')).toBeGreaterThanOrEqual(3);
    expect(count('fails'), told('Verdict')).toBeGreaterThanOrEqual(8);
    expect(count('not known'), told('Verdict')).toBeGreaterThanOrEqual(3);
  });

  /**
   * A series that can't be made would spoil all belts that use it, and layers thicker than their belt would leave
   * nothing else to see of it: belts made to be refused have them.
   */
  const ofSoundRecords: ReadonlySet<string> = new Set(['series', 'layers']);

  test.each(checkColumns)('the $header has its worst somewhere, and fits in most places', ({ header, word }) => {
    const declared: CheckDeclaration | undefined = beltChecks.find((check) => check.word === word);
    const verdicts = column(metric, header);
    // Checks whose inputs few lists have are asked of no belt here.
    if (verdicts.every((verdict) => verdict === notAsked)) return;
    if (!ofSoundRecords.has(word)) expect(verdicts, told(header)).toContain(declared?.atWorst ?? 'fails');
    expect(verdicts.filter((verdict) => verdictOf(verdict) === 'fits').length, told(header)).toBeGreaterThan(18);
  });

  test('tension comes by all four routes', () => {
    expect(new Set(column(metric, 'Tension from'))).toEqual(
      new Set(['entered', 'belt rating', 'power', 'resistances']),
    );
  });

  test('no cell holds an error except in belts whose verdict is not known', () => {
    const faults = (sheet: string, record: number): string[] =>
      metric.columns(sheet).flatMap(({ header }, column) => {
        const value = metric.value({ sheet, record, column });
        return isFault(value) ? [`${placeWords(metric, sheet, record, header)}: ${value.code}`] : [];
      });
    const faulty = records.filter((record) => faults('Belts', record).length > 0);
    expect(faulty.length).toBeGreaterThan(0);
    const wrong = [
      ...faulty.flatMap((record) => {
        const verdict = metric.read('Belts', record, 'Verdict');
        return verdict === 'not known'
          ? []
          : faults('Belts', record).map((fault) => `${fault}, while its verdict is ${String(verdict)}; ${meant}`);
      }),
      ...['Plate series', 'Strips'].flatMap((sheet) =>
        [...metric.sheet(sheet).rows.keys()].flatMap((record) => faults(sheet, record)),
      ),
    ];
    expect(wrong).toEqual([]);
  });

  test('the plates are possible: less than the pitch, limits in order, bolts as many as holes', () => {
    const wrong = [...metric.sheet('Plate series').rows.keys()].flatMap((record) => {
      const figure = (header: SeriesHeader): number => Number(metric.read('Plate series', record, header));
      const below = (lesser: readonly SeriesHeader[], greater: SeriesHeader): string[] => {
        const sum = lesser.reduce((all, header) => all + figure(header), 0);
        return sum < figure(greater)
          ? []
          : [
              `${placeWords(metric, 'Plate series', record, lesser.join(' + '))}: ${sum}, not less than ` +
                `${greater}, ${figure(greater)}`,
            ];
      };
      const [bolts, holes] = [figure('Bolts per plate'), 2 * figure('Holes per side')];
      return [
        ...below(['Plate width'], 'Pitch'),
        ...below(['Minimum thickness'], 'Maximum thickness'),
        ...below(['Minimum edge'], 'Maximum edge'),
        ...below(['Hole spacing', 'Punch size'], 'Plate width'),
        ...below(['Minimum thickness'], 'Long bolt above'),
        ...below(['Long bolt above'], 'Maximum thickness'),
        ...(bolts === holes
          ? []
          : [`${placeWords(metric, 'Plate series', record, 'Bolts per plate')}: ${bolts} for ${holes} holes`]),
      ];
    });
    expect(wrong).toEqual([]);
  });

  test('the US customary book is the same fleet: same verdicts, lengths in inches', () => {
    const headers = [
      'Verdict',
      'Findings',
      'Plates',
      'Tension from',
      ...checkColumns.map(({ header }) => header),
    ] as const;
    const unlike = (record: number, header: BeltHeader, share: number): string[] => {
      const [one, other] = [metric.read('Belts', record, header), us.read('Belts', record, header)];
      return agree(one, other, share)
        ? []
        : [
            `${placeWords(metric, 'Belts', record, header)}: ${String(one)} in the metric book, ${String(other)} in ` +
              `the US customary one`,
          ];
    };
    // Metric books weigh with 9.81 m/s², US customary ones with a pound-force per pound, 9.80665 m/s².
    const weighed = (record: number): boolean =>
      ['resistances', 'power'].includes(String(metric.read('Belts', record, 'Tension from')));
    expect(
      records.flatMap((record) => [
        ...headers.flatMap((header) => unlike(record, header, 0)),
        ...unlike(record, 'Rating used', weighed(record) ? 9.81 / 9.80665 - 1 : 1e-12),
      ]),
    ).toEqual([]);
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
