import { expect, test } from 'vitest';
import { demoBook } from '../../src/workbook/demo.ts';
import { ChangeRefused, makeTypedChanges } from '../../src/what-if/typed-change.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

const book = new Workbook(demoBook('metric'));

const said = (...typed: readonly string[]): string => {
  try {
    return makeTypedChanges(book, typed).join('\n');
  } catch (error) {
    if (error instanceof ChangeRefused) return error.message;
    throw error;
  }
};

test('changes are one step, of belts, of all belts, of other sheets and of named values', () => {
  const before = book.state;
  expect(said('q3:SKEW=30', 'TightMargin=12%', 'Plate series!lapwing:Tension rating=500 kN/m').split('\n')).toEqual([
    'Skew of Q3: 30° instead of 45°.',
    'TightMargin: 0.12 instead of 0.05.',
    expect.stringMatching(/^Tension rating of Lapwing \(Plate series\): 500 N\/mm instead of \d+ N\/mm\.$/),
  ]);
  book.undo();
  expect(book.state).toEqual(before);
  expect(said('*:Skew=22.125').split('\n').length).toBeGreaterThan(30);
  expect(book.read('Belts', 3, 'Skew')).toBe(22.125);
  book.undo();
  expect(said('Q3:Working tension=40')).toMatch(/set by hand over what is calculated\.$/);
  book.undo();
});

test('what is refused leaves the book as it was and says what to type', () => {
  const before = book.state;
  expect(said('Q3:Skeww=30')).toContain('The sheet Belts has no column "Skeww". Did you mean Skew');
  expect(said('Z9:Skew=30')).toContain('There is no belt "Z9".');
  expect(said('TightMargn=0.1')).toContain('There is no named value "TightMargn". Did you mean TightMargin');
  expect(said('Q3:Power=80', 'Q3:Skew=95')).toContain('Skew is 95°');
  expect(said('Q3:Width=wide')).toContain('Width of Q3: "wide" was not understood');
  expect(said('Q3:Plate series=Lapwingg')).toContain('which is not in the sheet Plate series');
  expect(said('Skew')).toContain('Write NAME=VALUE');
  expect(book.state).toEqual(before);
});
