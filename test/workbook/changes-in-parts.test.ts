import { describe, expect, it } from 'vitest';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A change of all of a book, done part by part: what a page does with a large one. */

const width = (book: Workbook, record: number): unknown => book.read('Belts', record, 'Width');
const joint = (book: Workbook, record: number): unknown => book.read('Belts', record, 'Cut length');

function edited(book: Workbook, inParts: boolean): void {
  const column = book.column('Belts', 'Width');
  const edits = book.sheet('Belts').rows.map((_, record) => ({ sheet: 'Belts', record, column, content: 1350 }));
  const edit = (): void => book.edit(edits, 'fill down');
  if (!inParts) edit();
  else for (const _ of book.inParts(edit));
}

describe('a change in parts', () => {
  it('comes to the same as at once, as does what takes it back', () => {
    const [whole, parts] = [new Workbook(demoBook('metric')), new Workbook(demoBook('metric'))];
    const before = joint(parts, 3);
    edited(whole, false);
    edited(parts, true);
    expect(parts.state).toEqual(whole.state);
    parts
      .sheet('Belts')
      .rows.forEach((_, record) => expect(joint(parts, record), `belt ${record}`).toEqual(joint(whole, record)));
    expect(joint(parts, 3)).not.toEqual(before);
    expect(parts.undoable).toBe('fill down');
    for (const _ of parts.inParts(() => parts.undo()));
    expect(joint(parts, 3)).toEqual(before);
    expect(parts.redoable).toBe('fill down');
    for (const _ of parts.inParts(() => parts.redo()));
    expect(joint(parts, 3)).toEqual(joint(whole, 3));
  });

  it('leaves the book as it was until its last part, and for good when it is not gone on with', () => {
    const book = new Workbook(demoBook('metric'));
    const { state } = book;
    const before = [width(book, 3), joint(book, 3)];
    let told = 0;
    book.listen(() => (told += 1));
    const parts = book.inParts(() => book.replace({ ...state, sheets: state.sheets.slice(0, 1) }, 'import'));
    for (let part = 0; part < 20; part += 1) expect(parts.next().done).toBe(false);
    expect([width(book, 3), joint(book, 3)]).toEqual(before);
    parts.return();
    expect(book.state).toBe(state);
    expect(told).toBe(0);
    expect(book.undoable).toBeUndefined();
    edited(book, false);
    expect(width(book, 3)).toBe(1350);
  });

  it('refuses other changes until it is done, and keeps how columns are brought into order meanwhile', () => {
    const book = new Workbook(demoBook('metric'));
    const parts = book.inParts(() => book.convert('us'));
    parts.next();
    expect(() => edited(book, false)).toThrow('another change is being worked out');
    book.lookAs({ ...book.look, layouts: {} });
    const { look } = book;
    for (const _ of parts);
    expect(book.units).toBe('us');
    expect(book.look).toBe(look);
    edited(book, false);
  });

  it('that fails leaves the book as it was, and lets it be changed', () => {
    const book = new Workbook(demoBook('metric'));
    const { state } = book;
    const parts = book.inParts(() => book.replace(undefined as unknown as typeof state, 'import'));
    expect(() => {
      for (const _ of parts);
    }).toThrow('The step "import" was refused, and the book is unchanged');
    expect(book.state).toBe(state);
    edited(book, false);
    expect(width(book, 3)).toBe(1350);
  });
});
