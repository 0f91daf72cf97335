import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { isFault, type Content, type Value } from '../../src/formula/values.ts';
import { History } from '../../src/workbook/history.ts';
import { Listeners } from '../../src/workbook/listeners.ts';
import { RefusedChange } from '../../src/workbook/refused-change.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, soundBelt } from './books.ts';
import { agree } from './differences.ts';
import { faulty, withPlantedFault } from './planted-fault.ts';

/** A change is kept whole, or refused with the book as it was: state, values and the steps to undo. */

const started = (): Workbook =>
  new Workbook(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'B2', Width: 650 }, { ...soundBelt, Belt: 'B3' }] }));

/** A text of a thousand million characters, which the language has no room for. */
withPlantedFault();

function everyValue(book: Workbook): Map<string, Value> {
  const values = new Map<string, Value>();
  for (const { name, rows } of book.state.sheets)
    for (const record of rows.keys())
      for (const column of book.columns(name).keys())
        values.set(`${name} ${record} ${column}`, book.shown({ sheet: name, record, column }));
  return values;
}

function differing(one: Map<string, Value>, other: Map<string, Value>): string[] {
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((key) => {
    const [a, b] = [one.get(key) ?? null, other.get(key) ?? null];
    return agree(a, b, 1e-12) ? [] : [`${key}: ${String(a)}, ${String(b)}`];
  });
}

const widthOf = (book: Workbook, record: number): { sheet: string; record: number; column: number } => ({
  sheet: 'Belts',
  record,
  column: book.column('Belts', 'Width'),
});

describe('a reference to a sheet that there is not', () => {
  test.each([
    ['=Belt!D2', 'Belt'],
    ['=SUM(Sheet1!A1:A5)', 'Sheet1'],
    ['=2*Sheet1!D:D', 'Sheet1'],
    [`='Plant''s list'!$B$2`, "Plant's list"],
    ['=COUNTIF(Nope!A:A,1)', 'Nope'],
  ])('%s is #REF! and names it', (content, sheet) => {
    const book = started();
    book.edit([{ ...widthOf(book, 0), content }]);
    const value = book.read('Belts', 0, 'Width');
    expect(isFault(value) ? value.code : value).toBe('#REF!');
    expect(isFault(value) ? value.message : '').toContain(`there is no sheet ${sheet}`);
    book.edit([{ ...widthOf(book, 1), content: '=12 mm' }]);
    book.edit([{ ...widthOf(book, 0), content: 900 }]);
    expect(book.read('Belts', 0, 'Width')).toBe(900);
    expect(differing(everyValue(book), everyValue(new Workbook(book.state)))).toEqual([]);
  });

  test('moves its other references with their rows and keeps its own', () => {
    const book = started();
    book.edit([{ ...widthOf(book, 0), content: '=Belt!D2+D4' }]);
    book.addRecords('Belts', 1);
    expect(book.content(widthOf(book, 0))).toBe('=Belt!D2+D5');
  });

  test('in a text between quotes is none', () => {
    const book = started();
    book.edit([{ ...widthOf(book, 0), content: '=LEN("Belt!D2")' }]);
    expect(book.read('Belts', 0, 'Width')).toBe(7);
  });

  test('remains when the sheet is removed', () => {
    const book = started();
    book.addSheet('Notes', 2, 2);
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Cut length'), content: '=Notes!A2' }]);
    book.removeSheet('Notes');
    book.edit([{ ...widthOf(book, 1), content: '=D2' }]);
    const value = book.read('Belts', 0, 'Cut length');
    expect(isFault(value) ? value.message : '').toContain('there is no sheet Notes');
  });
});

test('what throws is refused in a sentence that names the cell', () => {
  const book = started();
  const state = book.state;
  const edit = (): void => book.edit([{ ...widthOf(book, 0), content: faulty }]);
  expect(edit).toThrow(RefusedChange);
  expect(edit).toThrow(
    'The entry in Belts D2 was refused, and the book is unchanged: it makes a text that is too long.',
  );
  expect([book.state, book.undoable]).toEqual([state, undefined]);
  book.edit([{ ...widthOf(book, 0), content: 900 }]);
  expect(book.read('Belts', 0, 'Width')).toBe(900);
});

test('a book that is closed to changes refuses each and says why', () => {
  const book = started();
  const { state } = book;
  book.closed = 'another window has it open';
  expect(() => book.edit([{ ...widthOf(book, 0), content: 900 }])).toThrow('unchanged: another window has it open.');
  expect(() => book.addRecords('Belts', 0)).toThrow(RefusedChange);
  expect(book.state).toBe(state);
  book.closed = undefined;
  book.edit([{ ...widthOf(book, 0), content: 900 }]);
  expect(book.read('Belts', 0, 'Width')).toBe(900);
});

test('a book that follows another has none of its steps to take back', () => {
  const [book, other] = [started(), started()];
  other.edit([{ ...widthOf(other, 0), content: 900 }]);
  book.replace(other.state, 'changes of the other window');
  book.forgetSteps();
  expect([book.undoable, book.undo(), book.state]).toEqual([undefined, [], other.state]);
  book.edit([{ ...widthOf(book, 1), content: 700 }]);
  book.undo();
  book.undo();
  expect([book.read('Belts', 0, 'Width'), book.read('Belts', 1, 'Width')]).toEqual([900, 650]);
});

const chance = fc.nat({ max: 99 });
const content = fc.constantFrom<Content>(
  faulty,
  faulty,
  700,
  null,
  'abc',
  '=D3*2',
  '=Belt!D2',
  '=SUM(D2;D3)',
  '=SUM(D2:D4)',
  '=Notes!A2',
  '=D2/0',
  '=MIN(12,D3)',
);
type Act = (book: Workbook) => void;
const typed = fc.tuple(chance, chance, content).map(([row, column, given]): Act => (book) => {
  const record = row % book.sheet('Belts').rows.length;
  book.edit([{ sheet: 'Belts', record, column: column % book.columns('Belts').length, content: given }]);
});
const pasted = fc.array(fc.tuple(chance, content), { minLength: 2, maxLength: 4 }).map((list): Act => (book) => {
  const { length } = book.sheet('Belts').rows;
  book.edit(list.map(([row, given], index) => ({ ...widthOf(book, row % length), column: 3 + index, content: given })));
});
const rows = fc.tuple(chance, fc.constantFrom<Content>(800, faulty, '=Belt!D2')).map(([at, width]): Act => (book) => {
  const { length } = book.sheet('Belts').rows;
  if (at % 3 === 0 && length > 2) book.removeRecords('Belts', at % length, 1);
  else book.addRecords('Belts', at % (length + 1), [['new', null, null, width]]);
});
const sheets: Act = (book) => {
  if (book.state.sheets.some(({ name }) => name === 'Notes')) book.removeSheet('Notes');
  else book.addSheet('Notes', 2, 3);
};
const act = fc.oneof(
  { weight: 5, arbitrary: typed },
  { weight: 2, arbitrary: pasted },
  { weight: 2, arbitrary: rows },
  { weight: 1, arbitrary: fc.constant(sheets) },
  {
    weight: 3,
    arbitrary: fc.constantFrom<Act>(
      (book) => book.undo(),
      (book) => book.redo(),
    ),
  },
);

/** One that is refused whatever the book holds. */
const refusedAlways: Act = (book) => book.edit([{ ...widthOf(book, 0), content: faulty }]);

test('a session in which changes are refused goes on as if they had not been tried', () => {
  let refused = 0;
  fc.assert(
    fc.property(fc.array(act, { minLength: 2, maxLength: 6 }), (acts) => {
      const book = started();
      for (const change of acts.flatMap((each) => [each, refusedAlways])) {
        const [state, values] = [book.state, everyValue(book)];
        const steps = [book.undoable, book.redoable];
        let told = 0;
        const deaf = book.listen(() => (told += 1));
        try {
          change(book);
        } catch (error) {
          if (!(error instanceof RefusedChange)) throw error;
          refused += 1;
          expect(book.state).toBe(state);
          expect([book.undoable, book.redoable]).toEqual(steps);
          expect(differing(everyValue(book), values)).toEqual([]);
          expect(told).toBe(0);
        }
        deaf();
        expect(differing(everyValue(book), everyValue(new Workbook(book.state)))).toEqual([]);
      }
    }),
    { numRuns: 5 },
  );
  expect(refused).toBeGreaterThanOrEqual(10);
}, 120_000);

test('undo keeps no more whole books than it has room for, and always the last', () => {
  const large = (size: number): BookState =>
    bookOf({ belts: Array.from({ length: size }, (_, index) => ({ Belt: `C${index}` })) });
  const history = new History();
  let before = large(1000);
  for (let count = 0; count < 60; count += 1) {
    const after = large(1000);
    history.did({ label: `import ${count}`, before, after });
    before = after;
  }
  const kept: (string | undefined)[] = [];
  for (let { last } = history; last !== undefined; { last } = history) {
    kept.push(last.label);
    history.undid();
  }
  expect(kept[0]).toBe('import 59');
  expect(kept.length).toBeGreaterThan(10);
  expect(kept.length).toBeLessThan(21);
  history.did({ label: 'import of a large book', before: large(30_000), after: large(1) });
  const { last } = history;
  expect(last?.label).toBe('import of a large book');
});

test('a listener that fails keeps no other from hearing, and fails by itself', () => {
  const later: (() => void)[] = [];
  const queue = vi.spyOn(globalThis, 'queueMicrotask').mockImplementation((task) => void later.push(task));
  const listeners = new Listeners<number>();
  const heard: number[] = [];
  listeners.listen(() => {
    throw new Error('a view that can not draw');
  });
  listeners.listen((change) => heard.push(change));
  listeners.tell(7);
  queue.mockRestore();
  expect(heard).toEqual([7]);
  expect(later).toHaveLength(1);
  expect(later[0]).toThrow('a view that can not draw');
});
