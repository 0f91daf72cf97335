import { describe, expect, test } from 'vitest';
import { builtInFormat, formatKind } from '../../../src/xlsx/read/number-formats.ts';

describe('formats of dates', () => {
  test.each([
    'yyyy-mm-dd',
    'dd\\.mm\\.yyyy',
    '[$-407]dd.mm.yyyy',
    '[$-F800]dddd\\,\\ mmmm\\ dd\\,\\ yyyy',
    'd-mmm',
    'mmm-yy',
    'mmmm',
    'm/d/yy h:mm',
    'm/d/yyyy\\ h:mm:ss.000',
    'D.M.YY',
    '[$-409]d\\-mmm\\-yy;@',
    '0;-0;yyyy',
    'yyyy"年"m"月"d"日"',
    '[$-411]ge.m.d',
    'mmm h:mm',
    '"Week of "d mmm',
  ])('%s', (code) => expect(formatKind(code)).toBe('date'));
});

describe('formats of times', () => {
  test.each([
    'h:mm',
    'hh:mm:ss',
    '[h]:mm',
    '[hh]:mm:ss',
    '[mm]:ss',
    '[s]',
    '[ss].00',
    'mm:ss.0',
    'mmss.0',
    'mm:ss,00',
    'h:mm AM/PM',
    'h A/P',
    '[$-409]h:mm:ss\\ am/pm',
    'h"h" mm"min"',
  ])('%s', (code) => expect(formatKind(code)).toBe('time'));
});

describe('formats of numbers', () => {
  test.each([
    'General',
    'GENERAL',
    '0.00',
    '#,##0',
    '0.0" mm"',
    '0.0 mm',
    '0" days"',
    '0.00"m/s"',
    '0.0\\ \\m\\m',
    '[Red]0.00',
    '[Red][<=100]0.00;[Blue]0.0',
    '[DBNum1]0',
    '0.00E+00',
    '##0.0E+0',
    '0%',
    '# ?/?',
    '@',
    '"dd.mm.yyyy"',
    '\\d0',
    '0_d',
    '* d0',
    '* 0',
    '"TRUE";"TRUE";"FALSE"',
    '[$€-407]#,##0.00',
    'General" mm"',
    'Standard',
    ';;;',
    '',
    '"unfinished',
    '[unfinished',
    '0\\',
  ])('%s', (code) => expect(formatKind(code)).toBe('number'));
});

test('built-in formats have the kinds that their numbers have in the standard', () => {
  // ECMA-376 Part 1, 18.8.30: 14 to 17 and 22 are dates, 18 to 21 and 45 to 47 times, the others numbers.
  const kinds = Array.from({ length: 60 }, (_none, id) => [id, formatKind(builtInFormat(id) ?? 'General')] as const);
  const ofKind = (wanted: string): number[] => kinds.filter(([, kind]) => kind === wanted).map(([id]) => id);
  expect(ofKind('time')).toEqual([18, 19, 20, 21, 32, 33, 34, 35, 45, 46, 47]);
  expect(ofKind('date')).toEqual([14, 15, 16, 17, 22, 27, 28, 29, 30, 31, 36, 50, 51, 52, 53, 54, 55, 56, 57, 58]);
});

// Were each sign to look at all the others, this would take hours.
test.each(['[', '"', '\\', 'a/', '_'])('a format code of a million times %s is read', (piece) => {
  expect(formatKind(piece.repeat(1_000_000))).toBe('number');
});
