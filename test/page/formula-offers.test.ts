import { afterAll, describe, expect, test } from 'vitest';
import { demoBook } from '../../src/workbook/demo.ts';
import { openCall, offersFor } from '../../src/workbook/formula-offers.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { Desk } from '../../src/page/desk.ts';
import { knownNames, offerableIn, parameterOf } from '../../src/page/offerable.ts';
import { awaitsReference, pointedText } from '../../src/page/pointing.ts';

/** Help while a formula is typed. */

const book = new Workbook(demoBook('metric'));
afterAll(() => book.destroy());
const offerable = offerableIn(new Desk(book));
const offered = (text: string): string[] | undefined =>
  offersFor(text, text.length, offerable)?.list.map((offer) => offer.text);

describe('what is offered', () => {
  test('functions that begin as typed, not inside a text', () => {
    expect(offered('=SKEWL')).toEqual(['SKEWLENGTH(', 'SKEWLOSS(']);
    expect(offered('="SKEWL')).toBeUndefined();
    expect(offered('SKEWL')).toBeUndefined();
  });

  test('standard functions, named values, sheets and columns', () => {
    expect(offered('=SUMI')).toEqual(['SUMIF(', 'SUMIFS(']);
    expect(offered('=2*TightM')).toContain('TightMargin');
    expect(offered('=RollingF')).toContain('RollingFriction');
    expect(offered('=Bel')).toContain('Belts!');
    expect(offered('=Plat')).toContain("'Plate series'!");
    expect(offered('=Widt')).toContain('[Width]');
  });

  test('columns of the sheet before the bracket, else of the own one', () => {
    expect(offered('=[Wid')).toContain('Width]');
    expect(offered("='Plate series'[Ser")?.[0]).toBe('Series]');
    expect(offered("='Plate series'[Wid")).not.toContain('Width]');
    expect(offersFor('=[Wid', 5, offerable)?.begun).toBe(3);
  });

  test('no function twice, and those that are computed our own way among them', () => {
    const { functions } = knownNames(new Desk(book));
    expect(new Set(functions).size).toBe(functions.length);
    for (const name of ['INT', 'ROUND', 'TEXT', 'SUM', 'SUMIFS', 'INDEX', 'IF', 'SKEWLENGTH'])
      expect(functions).toContain(name);
  });
});

describe('the call that the caret is in', () => {
  test('and which of its arguments', () => {
    expect(openCall('=SKEWLENGTH(MAX(D2,3),')).toEqual({ name: 'SKEWLENGTH', argument: 1 });
    expect(openCall('=SKEWLENGTH(MAX(D2,')).toEqual({ name: 'MAX', argument: 1 });
    expect(openCall('=IF(A1="a,(b",1,')).toEqual({ name: 'IF', argument: 2 });
    expect(openCall('=SKEWLENGTH(1,2)')).toBeUndefined();
  });

  test('with the parameter, of standard functions too', () => {
    const call = offersFor('=SUMIFS(A1:A3,B1:B3,', 20, offerable)?.call;
    expect(call?.definition.name).toBe('SUMIFS');
    expect(call === undefined ? undefined : parameterOf(call.definition, call.argument)).toBe(2);
    const own = offersFor('=SKEWLENGTH(650,', 16, offerable)?.call;
    expect(own === undefined ? undefined : own.definition.parameters[parameterOf(own.definition, 1) ?? -1]?.name).toBe(
      'skew',
    );
  });
});

describe('pointing', () => {
  test.each([
    ['=', true],
    ['=2*', true],
    ['=SUM(', true],
    ['=SUM(A2, ', true],
    ['=A2', false],
    ['=SUM(A2)', false],
    ['="a+', false],
    ['12+', false],
  ])('after %s: %s', (before, wanted) => {
    expect(awaitsReference(before)).toBe(wanted);
  });

  test('names one cell or a range, with its sheet where it is another', () => {
    const cell = (record: number, column: number, sheet = 'Belts'): Parameters<typeof pointedText>[0] => ({
      sheet,
      record,
      column,
    });
    expect(pointedText(cell(5, 3), cell(5, 3), 'Belts')).toBe('D7');
    expect(pointedText(cell(5, 3), cell(2, 1), 'Belts')).toBe('B4:D7');
    expect(pointedText(cell(0, 0, 'Plate series'), cell(0, 0, 'Plate series'), 'Belts')).toBe("'Plate series'!A2");
  });
});
