import { describe, expect, test } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { turnedReference } from '../../src/formula/turned-reference.ts';
import { unknownColumn, withCellsOfColumns } from '../../src/workbook/column-references.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { typedFault } from '../../src/workbook/typed-formula.ts';

const state = demoBook('metric');
const place = { sheet: 'Belts', record: 5, column: 160 };
const names = {
  functions: ['SUM', 'IF', 'SUMIFS', 'SKEWLENGTH', 'ROUND', 'LOG10'],
  values: ['RollingFriction', 'TightMargin'],
};
const fault = (text: string): { says: string; fix: string | undefined } | undefined =>
  typedFault(text, place, state, names);
const width = columnLetters(headerPosition('Belts', 'Width'));
const last = (sheet: string): number => (state.sheets.find(({ name }) => name === sheet)?.rows.length ?? 0) + 1;

describe('a formula that is right is not found fault with', () => {
  test.each([
    '=SUM(A2,A3)',
    '=IF(A2>3,"a;b",{1,2;3,4})',
    "=SUM('Plate series'!A2:A4)*RollingFriction",
    '=[Width]*2',
    '=SUM(Belts[Width])',
    "=SUM('Plate series'[Series])",
    '=tightmargin+TRUE',
    '=1E3%',
    '=#REF!+1',
  ])('%s', (text) => {
    expect(fault(text)).toBeUndefined();
  });
});

describe('a formula that is wrong is told in words, with the fix', () => {
  test.each([
    ['=SUM(A2;A3)', '=SUM(A2,A3)', 'separated by commas'],
    ['=SUM(1,2', '=SUM(1,2)', 'A closing bracket is missing'],
    ['=A2*1,5', '=A2*1.5', 'Numbers in formulas have a decimal point'],
    ['=IF(SUM(1,2)>3,1,ROUND(2,1', '=IF(SUM(1,2)>3,1,ROUND(2,1))', '2 closing brackets are missing'],
    ['=SUM(1,2))', '=SUM(1,2)', 'a closing bracket too many'],
    ['=SUM(A2;A3', '=SUM(A2,A3)', 'commas, not semicolons. A closing bracket'],
    ['=IF(A2=\u201Cyes\u201D,1,2)', '=IF(A2="yes",1,2)', 'straight'],
    ['=IF(A2="yes,1,2)', undefined, ''],
    ['="no end', '="no end"', 'no closing quote'],
    ['=Plate series!A2+1', "='Plate series'!A2+1", 'single quotes'],
    ['=SUMME(A2,A3)', '=SUM(A2,A3)', 'no function SUMME; the nearest is SUM'],
    ['=SKEWLENGHT(650,45)', '=SKEWLENGTH(650,45)', 'nearest is SKEWLENGTH'],
    ['=RolingFriction*2', '=RollingFriction*2', 'no named value RolingFriction'],
    ['=IF(A2=1,wide,"narrow")', '=IF(A2=1,"wide","narrow")', 'Put a text in double quotes'],
    ['=[Widht]*2', '=[Width]*2', 'Belts has no column Widht'],
    ['=SUM(Belt[Width])', '=SUM(Belts[Width])', 'no sheet Belt'],
    ['=2*', undefined, 'A value is missing after "*", at the end'],
    ['=2*)3', undefined, 'character 4'],
    ['=A2 A3', undefined, 'character 5'],
  ])('%s', (text, fix, says) => {
    const found = fault(text);
    expect(found?.says).toContain(says);
    if (says !== '') expect(found?.fix).toBe(fix);
    if (found?.fix !== undefined) expect(fault(found.fix)).toBeUndefined();
  });
});

describe('columns by their names', () => {
  test.each([
    ['=[Width]*2', `=$${width}7*2`],
    ['=[ width ]+[@Width]', `=$${width}7+$${width}7`],
    ['="[Width]"&[Width]', `="[Width]"&$${width}7`],
    ['=SUM(Belts[Width])', `=SUM($${width}$2:$${width}$${last('Belts')})`],
    ['=[No such]', '=[No such]'],
  ])('%s', (text, wanted) => {
    expect(withCellsOfColumns(text, place, state)).toBe(wanted);
  });

  test('of another sheet', () => {
    const column = columnLetters(headerPosition('Plate series', 'Series'));
    expect(withCellsOfColumns("='Plate series'[Series]", place, state)).toBe(
      `='Plate series'!$${column}$2:$${column}$${last('Plate series')}`,
    );
  });

  test('that there are not are told', () => {
    expect(unknownColumn('=[Widht]', 'Belts', state)).toMatchObject({ at: 1, fix: '=[Width]' });
    expect(unknownColumn('=[Width]', 'Belts', state)).toBeUndefined();
  });
});

describe('a reference is turned', () => {
  test.each([
    ['=D7*2', 3, '=$D$7*2'],
    ['=$D$7*2', 3, '=D$7*2'],
    ['=D$7*2', 2, '=$D7*2'],
    ['=$D7*2', 2, '=D7*2'],
    ["=SUM('Plate series'!A2:B9)", 20, "=SUM('Plate series'!$A$2:$B$9)"],
    ['=D:D', 3, '=$D:$D'],
    ['=2:2', 3, '=$2:$2'],
    ['=A1+B2', 6, '=A1+$B$2'],
    ['=A1+B2', 3, '=$A$1+B2'],
  ])('%s', (text, caret, wanted) => {
    const turned = turnedReference(text, caret);
    expect(turned?.text).toBe(wanted);
  });

  test('where none stands, nothing is', () => {
    expect(turnedReference('=SUM(1,2)', 6)).toBeUndefined();
    expect(turnedReference('="D7"', 4)).toBeUndefined();
  });
});
