import fc from 'fast-check';
import type { Content } from '../../src/formula/values.ts';
import { recordKeys } from '../../src/workbook/record-names.ts';
import { bookColumns, compiledSheets, declarationOf, headerPosition } from '../../src/workbook/declared.ts';
import { withColumnAdded, withColumnRemoved, withSheet } from '../../src/workbook/state-changes.ts';
import { withFreeSheet } from '../../src/workbook/free-sheets.ts';
import { noLook } from '../../src/workbook/book-look.ts';
import { firstLayout } from '../../src/workbook/column-layout.ts';
import { ownColumnAt, withOwnColumn } from '../../src/workbook/own-columns.ts';
import type { BookRow, BookState, SheetState, UserColumn } from '../../src/workbook/state.ts';
import { randomBooks } from '../workbook/books.ts';

/** Books as people leave them, with own columns, formulas, overrides, remarks and free sheets, and edits of them. */

/** A change of a book; numbers pick a sheet, a row, a column, whatever there is of them. */
export interface Edit {
  readonly does: (typeof deeds)[number];
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly content: Content;
}

const deeds = [
  'set',
  'set',
  'set',
  'set',
  'own cell',
  'note',
  'add record',
  'remove record',
  'move record',
  'add column',
  'remove column',
  'add sheet',
  'remove sheet',
  'title',
  'column fact',
  'column fact',
  'cell format',
  'view',
] as const;

const contents = fc.constantFrom<Content>(
  null,
  7,
  650,
  12.5,
  'B2',
  'Plover',
  'checked',
  true,
  '=A2',
  '=SUM(D2:D4)',
  '=Belts!D3*2',
  "='Shift notes'!B3+1",
);

/** Few places, so that two people often meet in one. */
const edit: fc.Arbitrary<Edit> = fc.record({
  does: fc.constantFrom(...deeds),
  sheet: fc.nat(20),
  row: fc.nat(5),
  column: fc.constantFrom(0, 1, 3, 9, 9, 40, 100),
  content: contents,
});

export const edits: fc.Arbitrary<readonly Edit[]> = fc.array(edit, { maxLength: 12 });

const at = <Item>(items: readonly Item[], number: number): Item | undefined => items[number % items.length];

const withRow = (sheet: SheetState, row: number, change: (row: BookRow) => BookRow): SheetState => {
  const place = row % Math.max(1, sheet.rows.length);
  return { ...sheet, rows: sheet.rows.map((item, index) => (index === place ? change(item) : item)) };
};

const withCell = (sheet: SheetState, { row, content }: Edit, column: number): SheetState =>
  withRow(sheet, row, ({ cells, notes, formats }) => {
    const next = Array.from({ length: bookColumns(sheet).length }, (_, place) => cells[place] ?? null);
    const left = Object.fromEntries(Object.entries(notes ?? {}).filter(([place]) => Number(place) !== column));
    return {
      cells: next.with(column, content),
      ...(Object.keys(left).length === 0 ? {} : { notes: left }),
      ...(formats === undefined ? {} : { formats }),
    };
  });

function changedSheet(sheet: SheetState, change: Edit): SheetState {
  const width = bookColumns(sheet).length;
  const { does, row, column, content } = change;
  const rows = [...sheet.rows];
  const place = row % (rows.length + 1);
  switch (does) {
    case 'set':
      return width === 0 || rows.length === 0 ? sheet : withCell(sheet, change, column % width);
    case 'own cell':
      return sheet.userColumns.length === 0 || rows.length === 0
        ? sheet
        : withCell(sheet, change, width - 1 - (column % sheet.userColumns.length));
    case 'note':
      return rows.length === 0 || width === 0
        ? sheet
        : withRow(sheet, row, (item) => ({
            ...item,
            notes: { ...item.notes, [column % width]: `remark ${String(content)}` },
          }));
    case 'add record': {
      const cells = Array.from({ length: width }, (_, index): Content => (index === 0 ? `N${column % 5}` : null));
      return { ...sheet, rows: rows.toSpliced(place, 0, { cells: column % 7 === 0 ? cells.with(0, null) : cells }) };
    }
    case 'remove record':
      return rows.length === 0 ? sheet : { ...sheet, rows: rows.toSpliced(row % rows.length, 1) };
    case 'move record': {
      const [moved] = rows.splice(row % Math.max(1, rows.length), 1);
      return moved === undefined ? sheet : { ...sheet, rows: rows.toSpliced(column % (rows.length + 1), 0, moved) };
    }
    case 'cell format': {
      const at = width - 1 - (column % Math.max(1, sheet.userColumns.length));
      return sheet.userColumns.length === 0 || rows.length === 0
        ? sheet
        : withRow(sheet, row, (item) => ({
            ...item,
            formats: {
              ...item.formats,
              [at]: { kind: 'number', ...(column === 0 ? { percent: true } : { digits: 1 }) },
            },
          }));
    }
    default:
      return sheet;
  }
}

/** What a planner says of an own column; some take a fact away. */
const facts: readonly Partial<Record<keyof UserColumn, UserColumn[keyof UserColumn] | undefined>>[] = [
  { kind: 'length', unit: undefined },
  { kind: 'number', unit: 'pcs' },
  { digits: 2 },
  { digits: undefined },
  { doc: 'how far it reaches' },
  { formula: '=$A2&"x"' },
  { formula: '=D2*3' },
  { formula: undefined },
];

function withFact(state: BookState, { name, userColumns }: SheetState, { row, column, sheet }: Edit): BookState {
  if (userColumns.length === 0) return state;
  const position = (compiledSheets.get(name)?.columns.length ?? 0) + (column % userColumns.length);
  const before = ownColumnAt(state, name, position);
  const {
    header = '',
    kind = 'text',
    ...said
  } = Object.fromEntries(
    Object.entries({ ...before, ...at(facts, row + sheet) }).filter(([, fact]) => fact !== undefined),
  ) as Partial<UserColumn>;
  return withOwnColumn(state, name, position, { header, kind, ...said });
}

function withView(state: BookState, { name }: SheetState, { row, column }: Edit): BookState {
  const { layouts, views } = state.look ?? noLook;
  const view = { sheet: name, name: `View ${column % 3}`, layout: { ...firstLayout(name), frozen: row } };
  const others = views.filter((one) => one.sheet !== name || one.name !== view.name);
  return { ...state, look: { layouts, views: row === 0 ? others : [...others, view] } };
}

/** Sheets that a planner edits. */
function editable({ sheets }: BookState): readonly SheetState[] {
  const busy = sheets.filter(
    ({ name }) => ['Belts', 'Pulleys', 'Assumptions'].includes(name) || !compiledSheets.has(name),
  );
  const belts = sheets.filter(({ name }) => name === 'Belts');
  return [...belts, ...belts, ...busy, ...sheets.filter(({ name }) => name === 'Plate series')];
}

function changed(state: BookState, change: Edit): BookState {
  const sheet = at(editable(state), change.sheet);
  const free = state.sheets.filter(({ name }) => !compiledSheets.has(name));
  if (sheet === undefined) return state;
  switch (change.does) {
    case 'column fact':
      return withFact(state, sheet, change);
    case 'view':
      return withView(state, sheet, change);
    case 'title':
      return { ...state, title: `Title ${change.row % 3}` };
    case 'add column':
      return withColumnAdded(state, sheet.name, { header: `Own ${change.column % 4}`, kind: 'text' });
    case 'remove column': {
      const own = sheet.userColumns.length - 1;
      return own < 0 ? state : withColumnRemoved(state, sheet.name, bookColumns(sheet).length - 1);
    }
    case 'add sheet': {
      const name = `Sheet ${change.column % 3}`;
      return state.sheets.some((other) => other.name === name) ? state : withFreeSheet(state, name, 3, 4);
    }
    case 'remove sheet': {
      const gone = at(free, change.column)?.name;
      return { ...state, sheets: state.sheets.filter(({ name }) => name !== gone) };
    }
    default:
      return withSheet(state, sheet.name, (item) => changedSheet(item, change));
  }
}

export const edited = (state: BookState, list: readonly Edit[]): BookState => list.reduce(changed, state);

/** Records by names of their own. */
const withOwnNames = (state: BookState, name: string): BookState =>
  withSheet(state, name, (sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row, record) => ({
      ...row,
      cells: row.cells.with(headerPosition(name, declarationOf(name)?.key ?? ''), `B${record + 1}`),
    })),
  }));

/** Whether every record and own column has a name that no other of its sheet has, as a book should. */
export const hasOwnNames = ({ sheets }: BookState): boolean =>
  sheets.every((sheet) => {
    const keys = compiledSheets.has(sheet.name) ? recordKeys(sheet) : [];
    const headers = sheet.userColumns.map(({ header }) => header);
    return !keys.includes('') && [keys, headers].every((names) => new Set(names).size === names.length);
  });

/** A random book with some of everything that a planner adds to one. */
export const livedInBooks: fc.Arbitrary<BookState> = fc
  .tuple(randomBooks({ belts: 10, series: 5, named: 5 }), edits)
  .map(([state, list]) => {
    const owned = withColumnAdded(state, 'Belts', { header: 'WO no', kind: 'text' });
    const width = bookColumns(
      owned.sheets.find(({ name }) => name === 'Belts') ?? { name: '', userColumns: [], rows: [] },
    ).length;
    const filled = withSheet(owned, 'Belts', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row, record) => ({
        ...row,
        cells: row.cells.with(width - 1, record % 2 === 0 ? `=D${record + 2}*2` : `WO ${record}`),
      })),
    }));
    const named = ['Belts', 'Pulleys'].reduce(withOwnNames, filled);
    const free = withSheet(withFreeSheet(named, 'Shift notes', 3, 5), 'Shift notes', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row, record) =>
        record < 3 ? { cells: [`line ${record}`, record * 3, `=B${record + 2}+1`] } : row,
      ),
    }));
    return edited(free, list);
  });
