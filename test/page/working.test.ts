import { describe, expect, it } from 'vitest';
import { Desk } from '../../src/page/desk.ts';
import { valueMarks } from '../../src/page/source-marks.ts';
import { sourceMarks } from '../../src/sheet/source-marks.ts';
import { formerValue, grounds, hold, partsOf, release, rootOf, turn, workingPlace } from '../../src/page/working.ts';
import { explained } from '../../src/workbook/explanation.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { type CellPlace, placeKey } from '../../src/workbook/place.ts';
import { type Workbook, Workbook as Book } from '../../src/workbook/workbook.ts';
import { functions } from '../../src/functions/index.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { bookOf, soundBelt } from '../workbook/books.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** What the panel of the working says of a cell, without a browser. */

const two = (): Workbook => new Book(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'B2', Width: 650 }] }));
const cell = (book: Workbook, header: BeltHeader, record = 0): CellPlace => ({
  sheet: 'Belts',
  record,
  column: book.column('Belts', header),
});

describe('the marks of a source', () => {
  it('say what is from memory and what a standard says, the less sure first', () => {
    expect(sourceMarks('DIN 22101, ISO 5048, from memory')).toEqual(['from memory', 'standard']);
    expect(sourceMarks('common practice, no source')).toEqual(['common practice']);
    expect(sourceMarks('trigonometry of the right triangle')).toEqual(['derived']);
    expect(sourceMarks('chosen')).toEqual(['our choice']);
  });

  it('keep every "from memory" and "common practice" of the program in sight', () => {
    for (const { source } of [...functions, ...assumptionValues]) {
      for (const mark of ['from memory', 'common practice'] as const)
        expect(sourceMarks(source).includes(mark), source).toBe(source.includes(mark));
    }
  });
});

describe('the marks of a value', () => {
  it('tell what was entered, what a supplier says and what is assumed', () => {
    const book = two();
    const marks = (place: CellPlace): readonly string[] => valueMarks(book, explained(book, place));
    expect(marks(cell(book, 'Width'))).toEqual(['entered']);
    expect(marks(cell(book, 'Cut length'))).toEqual([]);
    expect(marks({ sheet: 'Plate series', record: 0, column: book.column('Plate series', 'Pitch') })).toEqual([
      'supplier',
    ]);
    const rolling = book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === 'RollingFriction');
    expect(marks({ sheet: 'Assumptions', record: rolling, column: 1 })).toEqual(
      expect.arrayContaining(['assumption', 'from memory']),
    );
    book.edit([
      { ...cell(book, 'Cut length'), content: 900 },
      { ...cell(book, 'Skive depth'), content: '=1/2' },
    ]);
    expect(marks(cell(book, 'Cut length'))).toEqual(['over the formula']);
    expect(marks(cell(book, 'Skive depth'))).toEqual(['your formula']);
  });
});

describe('the grounds of a value', () => {
  it('count what it rests on and name what is not sure', () => {
    const book = two();
    const { counts, unsure } = grounds(book, explained(book, cell(book, 'Plates')));
    expect(Object.fromEntries(counts)).toMatchObject({ entered: expect.any(Number) as number, supplier: 3 });
    expect(counts[0]?.[0]).toBe('entered');
    expect(unsure.filter(({ place }) => place !== undefined)).toEqual([]);
    expect(unsure).toContainEqual({ name: 'PLATECOUNT', mark: 'common practice', place: undefined });
    const strip = grounds(book, explained(book, cell(book, 'Strip per joint')));
    expect(strip.unsure.map(({ name, mark }) => `${name}: ${mark}`)).toEqual(
      expect.arrayContaining(['StripPieces: common practice', 'StripOverhang: common practice']),
    );
  });
});

describe('the tree', () => {
  it('opens a part that is explained above as well, and keeps what is open when another record is selected', () => {
    const book = two();
    const desk = new Desk(book);
    const root = rootOf(book, cell(book, 'Plates'));
    expect(root.open).toBe(true);
    const [row] = partsOf(book, root, new Set()).filter(({ item }) => item.header === 'Series row');
    expect(row?.expandable).toBe(true);
    if (row !== undefined) turn(desk, row);
    const other = partsOf(book, rootOf(book, cell(book, 'Plates', 1)), new Set()).find(
      ({ item }) => item.header === 'Series row',
    );
    expect(other?.open).toBe(true);
    if (other !== undefined) turn(desk, other);
  });

  it('does not open a circle without end', () => {
    const book = two();
    const [skive, life] = [cell(book, 'Skive depth'), cell(book, 'Joint life')];
    book.edit([
      { ...skive, content: `=${columnLetters(life.column)}2+1` },
      { ...life, content: `=${columnLetters(skive.column)}2+1` },
    ]);
    let branch = rootOf(book, skive);
    const above = new Set([placeKey(skive)]);
    for (let depth = 0; depth < 6 && branch.expandable; depth += 1) {
      const [next] = partsOf(book, branch, above);
      if (next === undefined) break;
      above.add(placeKey(next.item.place));
      branch = next;
    }
    expect(branch.level).toBeLessThan(6);
  });
});

describe('a cell that is held', () => {
  it('stays on show, tells what its values were, and is found again when rows move', () => {
    const book = two();
    const desk = new Desk(book);
    const place = cell(book, 'Cut length', 1);
    hold(desk, place);
    desk.select({ place: cell(book, 'Width'), records: [0], columns: [3] });
    expect(workingPlace(desk)).toEqual({ place, held: true });
    book.edit([{ ...cell(book, 'Width', 1), content: 700 }]);
    expect(formerValue(explained(book, place))).toBeCloseTo(650 * Math.SQRT2, 9);
    expect(formerValue(explained(book, cell(book, 'Skew', 1)))).toBeUndefined();
    book.addRecords('Belts', 0);
    expect(workingPlace(desk)).toEqual({ place: { ...place, record: 2 }, held: true });
    book.removeRecords('Belts', 2, 1);
    expect(workingPlace(desk)?.held).toBe(false);
  });

  it('follows the selection again when it is let go, and shows nothing for a row that is not there', () => {
    const book = two();
    const desk = new Desk(book);
    hold(desk, cell(book, 'Plates', 1));
    release(desk);
    expect(workingPlace(desk)).toEqual({ place: desk.selection.place, held: false });
    desk.select({ place: cell(book, 'Belt', 2), records: [2], columns: [0] });
    expect(workingPlace(desk)).toBeUndefined();
  });
});
