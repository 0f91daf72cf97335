import { expect } from 'vitest';
import type { RawBook, RawCell, RawSheet } from '../src/xlsx/read/raw-book.ts';
import { columnName } from '../src/xlsx/read/cell-address.ts';

/**
 * What a generated file that is committed says otherwise than the program does now, a line a change: sheet, record and
 * column, both values, and the command that makes the file anew.
 */

const mostLines = 25;

/** Fails with every change in words; whoever meant them is told what to run. */
export function expectUnchanged(changes: readonly string[], command: string): void {
  if (changes.length === 0) return;
  const more = changes.length - mostLines;
  expect.fail(
    [
      ...changes.slice(0, mostLines).map((change) => `${change}; if that is meant: ${command}`),
      ...(more > 0 ? [`and ${more} changes more`] : []),
    ].join('\n'),
  );
}

/** Numbers to 12 digits: the last ones of a sine may differ between versions of Node. */
const settled = (value: unknown): unknown => (typeof value === 'number' ? Number(value.toPrecision(12)) : value);

const shortened = (text: string, from: number): string =>
  `${from > 0 ? '…' : ''}${text.slice(from, from + 80)}${text.length > from + 80 ? '…' : ''}`;

/** Both values; of long texts the piece around their first difference. */
function both(committed: unknown, now: unknown): string {
  const [one, other] = [committed, now].map((value) =>
    value === undefined || value === null ? 'empty' : String(value),
  );
  const [before, after] = [one ?? '', other ?? ''];
  let same = 0;
  while (same < before.length && before[same] === after[same]) same += 1;
  const from = Math.max(before.length, after.length) > 80 ? Math.max(0, same - 20) : 0;
  return `committed ${shortened(before, from)}, now ${shortened(after, from)}`;
}

/** Things under names that stand once each: a name that stands again is numbered. */
function named<T>(things: readonly T[], name: (thing: T) => string): Map<string, T> {
  const found = new Map<string, T>();
  for (const thing of things) {
    const own = name(thing);
    let key = own;
    for (let count = 2; found.has(key); count += 1) key = `${own} (${count})`;
    found.set(key, thing);
  }
  return found;
}

/** What only one side has, in words, and the pairs of what both have. */
function paired<T>(
  committed: ReadonlyMap<string, T>,
  now: ReadonlyMap<string, T>,
  what: (key: string) => string,
): { readonly changes: string[]; readonly pairs: (readonly [key: string, committed: T, now: T])[] } {
  return {
    changes: [
      ...[...now.keys()].filter((key) => !committed.has(key)).map((key) => `${what(key)} is new`),
      ...[...committed.keys()].filter((key) => !now.has(key)).map((key) => `${what(key)} is gone`),
    ],
    pairs: [...now].flatMap(([key, thing]) => {
      const other = committed.get(key);
      return other === undefined ? [] : [[key, other, thing] as const];
    }),
  };
}

const textOf = (cell: RawCell | undefined): string => String(cell?.value ?? '');

/** The columns of a sheet by what its first row calls them, its records by their name. */
function partsOf({ rows }: RawSheet): {
  readonly columns: Map<string, number>;
  readonly records: Map<string, ReadonlyMap<number, RawCell>>;
} {
  const numbers = [...new Set([...rows.values()].flatMap((cells) => cells.map(({ column }) => column)))];
  const heads = new Map(rows.get(1)?.map((cell) => [cell.column, textOf(cell)]));
  const records = [...rows].map(
    ([row, cells]) => [row, new Map(cells.map((cell) => [cell.column, cell] as const))] as const,
  );
  const repeated = new Set(
    records.map(([, cells]) => textOf(cells.get(1))).filter((name, place, all) => all.indexOf(name) !== place),
  );
  return {
    columns: named(
      numbers.toSorted((one, other) => one - other),
      (column) => heads.get(column) || `column ${columnName(column)}`,
    ),
    records: new Map(
      [
        ...named(records, ([row, cells]) => {
          const name = textOf(cells.get(1));
          // Parts of one whole bear its name in the first column, and their own in the second.
          return name === '' ? `row ${row}` : repeated.has(name) ? `${name} ${textOf(cells.get(2))}`.trim() : name;
        }),
      ].map(([name, [, cells]]) => [name, cells]),
    ),
  };
}

const looks = [
  ['', (cell) => cell?.error ?? settled(cell?.value ?? undefined)],
  [' (formula)', (cell) => cell?.formula],
  [' (number format)', (cell) => cell?.format],
  [' (date)', (cell) => cell?.date],
] as const satisfies readonly (readonly [string, (cell: RawCell | undefined) => unknown])[];

function sheetChanges(committed: RawSheet, now: RawSheet): string[] {
  const [before, after] = [partsOf(committed), partsOf(now)];
  const columns = paired(before.columns, after.columns, (header) => `${now.name}: the column ${header}`);
  const records = paired(before.records, after.records, (name) => `${now.name}: the record ${name}`);
  const changed = looks.flatMap(([what, look]) =>
    columns.pairs.flatMap(([header, one, other]) => {
      const found = records.pairs.flatMap(([name, cells, others]) => {
        const [old, fresh] = [look(cells.get(one)), look(others.get(other))];
        return old === fresh ? [] : [{ name, told: both(old, fresh) }];
      });
      const place = (name: string): string => `${now.name}, ${name}, ${header}${what}`;
      // A value stands for itself; a formula or a format changes down a whole column.
      if (what === '') return found.map(({ name, told }) => `${place(name)}: ${told}`);
      return found.slice(0, 1).map(({ name, told }) => {
        const rest = found.length > 1 ? ` and ${found.length - 1} more` : '';
        return `${place(`${name}${rest}`)}: ${told}`;
      });
    }),
  );
  const merges = [committed, now].map((sheet) => JSON.stringify(sheet.merges));
  return [
    ...columns.changes,
    ...records.changes,
    ...changed,
    ...(merges[0] === merges[1] ? [] : [`${now.name}, merged cells: ${both(merges[0], merges[1])}`]),
  ];
}

/** Of workbook files: values before formulas, so that what a reader sees is told first. */
export function bookChanges(committed: RawBook, now: RawBook): string[] {
  const byName = ({ sheets }: RawBook): Map<string, RawSheet> => named(sheets, ({ name }) => name);
  const { changes, pairs } = paired(byName(committed), byName(now), (name) => `the sheet ${name}`);
  const orders = [committed, now].map(({ sheets }) => sheets.map(({ name }) => name).join(', '));
  const moved = changes.length === 0 && orders[0] !== orders[1] ? [`the sheets: ${both(orders[0], orders[1])}`] : [];
  return [...changes, ...moved, ...pairs.flatMap(([, one, other]) => sheetChanges(one, other))];
}

const isTree = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** What an item of a list is called: by its sheet, record and column where it has them. */
function itemName(item: unknown): string {
  const words = isTree(item) ? [item['sheet'], item['name'], item['column'], item['check']] : [];
  const known = words.filter((word) => typeof word === 'string' && word !== '');
  return known.length === 0 ? 'item' : known.join(', ');
}

/** Of files of JSON. */
export function treeChanges(committed: unknown, now: unknown, at = ''): string[] {
  if (!isTree(committed) || !isTree(now))
    return settled(committed) === settled(now) ? [] : [`${at}: ${both(committed, now)}`];
  const entries = (tree: Readonly<Record<string, unknown>>): Map<string, unknown> =>
    Array.isArray(tree) ? named<unknown>(tree, itemName) : new Map(Object.entries(tree));
  const path = (key: string): string => (at === '' ? key : `${at}, ${key}`);
  const { changes, pairs } = paired(entries(committed), entries(now), path);
  return [...changes, ...pairs.flatMap(([key, one, other]) => treeChanges(one, other, path(key)))];
}

interface Row {
  readonly key: string;
  readonly cells: ReadonlyMap<string, string>;
}

/** The rows of a text's tables, each by its section and first cell, and all lines that are in none. */
function tablesOf(text: string): { readonly rows: Row[]; readonly lines: string[] } {
  const rows: Row[] = [];
  const lines: string[] = [];
  let section = '';
  let headers: readonly string[] | undefined;
  for (const line of text.split('\n')) {
    section =
      /^<!-- ([^:]+): generated|^#+ (.*)$/
        .exec(line)
        ?.slice(1)
        .find((name) => name !== undefined) ?? section;
    const cells = /^\| .* \|$/.test(line) ? line.slice(2, -2).split(/(?<!\\)\s\|\s/) : undefined;
    if (cells === undefined) {
      headers = undefined;
      lines.push(line);
    } else if (headers === undefined) {
      headers = cells;
      lines.push(line);
    } else {
      const names = headers;
      rows.push({
        key: [section, cells[0] ?? ''].join(', '),
        cells: new Map(cells.map((cell, place) => [names[place] || `cell ${place + 1}`, cell])),
      });
    }
  }
  return { rows, lines };
}

/** Of texts: row by row in their tables, and the first of the other lines that differs. */
export function textChanges(committed: string, now: string): string[] {
  if (committed === now) return [];
  const [before, after] = [tablesOf(committed), tablesOf(now)];
  const byKey = (rows: readonly Row[]): Map<string, Row> => named(rows, ({ key }) => key);
  const { changes, pairs } = paired(byKey(before.rows), byKey(after.rows), (key) => `${key}: the row`);
  const changed = pairs.flatMap(([key, one, other]) =>
    [...other.cells].flatMap(([header, cell]) =>
      one.cells.get(header) === cell ? [] : [`${key}, ${header}: ${both(one.cells.get(header), cell)}`],
    ),
  );
  const longer = Array.from({ length: Math.max(before.lines.length, after.lines.length) }, (_, place) => place);
  const place = longer.find((line) => before.lines[line] !== after.lines[line]);
  const first = place === undefined ? [] : [both(before.lines[place], after.lines[place])];
  const found = [...changes, ...changed, ...first.map((told) => `first line that differs: ${told}`)];
  return found.length > 0 ? found : ['the order of the rows in the tables has changed'];
}
