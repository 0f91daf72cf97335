import { expect, test } from 'vitest';
import { type GivenFile, knownFiles, plainFile } from '../../src/page/library/known-file.ts';
import { beyond, type FileMemory } from '../../src/page/library/library-store.ts';
import { bookToOpen } from '../../src/page/library/window-book.ts';
import { freeTitle } from '../../src/page/library/book-library.ts';

/** Which file a file comes from, which book a window opens, and what goes when there is too much. */

const memory = (key: number, rest: Partial<FileMemory>): FileMemory => ({
  key,
  book: 'book',
  file: 'belts.xlsx',
  how: 'read',
  at: new Date(2026, 9, key),
  fileDigest: `digest ${key}`,
  whole: false,
  headers: 'belt|width',
  size: 1,
  ...rest,
});

const given = { name: 'belts.xlsx', digest: 'other', mark: undefined, whole: false, headers: 'belt|width' };

test('a file is known by its content, the mark of an export, its name, its headers, in this order', () => {
  const memories = [
    memory(5, { file: 'Quay.xlsx', how: 'written', whole: true, mark: 'm5', headers: '' }),
    memory(4, { file: 'other.xlsx' }),
    memory(3, { file: 'belts.xlsx', headers: 'belt|breadth' }),
    memory(2, { file: 'Quay.xlsx', how: 'written', whole: true, mark: 'm2', headers: '' }),
  ];
  const found = (rest: Partial<GivenFile>): unknown => {
    const known = knownFiles(memories, { ...given, ...rest });
    return known === undefined ? 'none' : [known.memories.map(({ key }) => key), known.why];
  };
  expect(found({ digest: 'digest 4' })).toEqual([[4], 'the content is the same']);
  expect(found({ name: 'renamed.xlsx', whole: true, mark: 'm2', headers: '' })).toEqual([
    [2],
    'it carries the mark of that export',
  ]);
  expect(found({ name: 'Belts (2).xlsx' })).toEqual([[3], 'it has the same name']);
  expect(found({ name: 'november.xlsx' })).toEqual([[4], 'it has the same headers']);
  expect(found({ name: 'november.xlsx', headers: 'a|b' })).toBe('none');
  // An export of which nothing is remembered is not taken for another of the same name.
  expect(found({ name: 'Quay.xlsx', whole: true, mark: 'm1', headers: '' })).toBe('none');
  expect(found({ name: 'Quay.xlsx', whole: true, headers: '' })).toEqual([[5, 2], 'it has the same name']);
});

test('copies of a file have its name', () => {
  for (const name of ['Quay.xlsx', 'quay (1).xlsx', 'Quay - Copy.xlsx', 'Quay_copy (3).XLSX', 'Quay - Kopie.xlsx'])
    expect(plainFile(name)).toBe('quay');
});

test('the oldest go first, the newest never', () => {
  const items = [9, 5, 5, 5].map((size, key) => ({ key, size }));
  const gone = (count: number, bytes: number): number[] => beyond(items, count, bytes).map(({ key }) => key);
  expect([gone(4, 100), gone(2, 100), gone(4, 15), gone(4, 1)]).toEqual([[], [2, 3], [2, 3], [1, 2, 3]]);
});

test('a window opens the book of its address, else the last one, and none that is in the bin', () => {
  const entry = (id: string, day: number, binned?: Date) => ({
    id,
    title: id,
    units: 'metric' as const,
    belts: 1,
    at: new Date(2026, 9, day),
    binned,
  });
  const entries = [entry('a', 1), entry('b', 3), entry('c', 5, new Date())];
  const open = (id: string | undefined, among = entries): [string, boolean] => {
    const { id: opened, told } = bookToOpen(id, among, () => 'fresh');
    return [opened, told !== undefined];
  };
  expect([open('a'), open(undefined, []), open('book'), open('c'), open('lost')]).toEqual([
    ['a', false],
    ['book', false],
    ['book', false],
    ['b', true],
    ['b', true],
  ]);
  expect(open('book', [entry('book', 1, new Date())])).toEqual(['fresh', true]);
});

test('copies get names of their own', () => {
  expect(freeTitle('Quay', ['Pier'])).toBe('Quay');
  expect(freeTitle('Quay', ['Quay', 'Quay 2'])).toBe('Quay 3');
});
