import { expect, test, vi } from 'vitest';
import { recordFindings, verdictCounts } from '../../src/checks/findings.ts';
import { overviewOf } from '../../src/page/belt-overview.ts';
import { FindingGroups } from '../../src/page/finding-groups.ts';
import { scopeOf } from '../../src/page/findings-list.ts';
import { numbersCompared } from '../../src/page/grid/read-rows.ts';
import { TextSearch } from '../../src/page/text-search.ts';
import { NamingMemory } from '../../src/records/naming-memory.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { foundCells } from '../../src/workbook/found-cells.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/**
 * What the page keeps beside a book, so that nothing goes through all of it: after any change it is as if made anew.
 */

const every = { verdict: undefined, check: '' };

function groupsOf(book: Workbook, records: Iterable<number> = book.sheet('Belts').rows.keys()): FindingGroups {
  const groups = new FindingGroups();
  for (const record of records) groups.put(record, recordFindings(book, record));
  return groups;
}

test('findings put in again, or in another order, are listed as if they had been put in first', () => {
  const book = new Workbook(demoBook('metric'));
  const whole = scopeOf(book, undefined, '');
  const records = [...book.sheet('Belts').rows.keys()];
  const groups = groupsOf(book, records.toReversed());
  for (const record of [3, 20, 7]) groups.put(record, recordFindings(book, record));
  const fresh = groupsOf(book);
  const listed = fresh.list(every, whole, 5);
  expect(listed.count).toBeGreaterThan(20);
  expect(groups.list(every, whole, 5)).toEqual(listed);
  expect([groups.count, groups.checks.toSorted()]).toEqual([fresh.count, fresh.checks.toSorted()]);
  expect(groups.list(every, whole, 5, 4)).toEqual({ listed: listed.listed.slice(0, 4), count: listed.count });
  groups.shorten(10);
  expect(groups.all().every(({ record }) => record < 10)).toBe(true);
  expect(groups.count).toBe(groups.all().length);
});

test('the findings of another belt that is selected stand first, and the others stay as they are', () => {
  const book = new Workbook(demoBook('metric'));
  const groups = groupsOf(book);
  const some = new Set([2, 3, 5, 8, 13, 21]);
  const { of } = scopeOf(book, undefined, '');
  for (const scope of [scopeOf(book, undefined, ''), { records: some, of }]) {
    const whole = groups.list(every, scope, undefined);
    for (const record of [...book.sheet('Belts').rows.keys(), 1000]) {
      const isOwn = (finding: { readonly sheet: string; readonly record: number }): boolean =>
        finding.sheet === 'Belts' && finding.record === record;
      const { listed, count } = groups.list(every, scope, record);
      const own = whole.listed.filter(({ all }) => all.some(isOwn));
      expect(count).toBe(whole.count);
      expect(listed.slice(own.length)).toEqual(whole.listed.filter((one) => !own.includes(one)));
      const first = listed.slice(0, own.length);
      expect(first.every(({ finding, all }) => isOwn(finding) && all[0] === finding)).toBe(true);
      expect(new Set(first.map(({ all }) => new Set(all)))).toEqual(new Set(own.map(({ all }) => new Set(all))));
      expect(groups.list(every, scope, record, 3).listed).toEqual(listed.slice(0, 3));
    }
  }
});

test('as long as a look of before will do, selecting another belt goes through no other findings', () => {
  const book = new Workbook(demoBook('metric'));
  const [groups, whole] = [groupsOf(book), scopeOf(book, undefined, '')];
  const { version } = groups;
  const before = groups.list(every, whole, undefined, 10, version);
  groups.put(3, []);
  groups.put(7, []);
  expect(groups.list(every, whole, undefined, 10, version)).toEqual(before);
  const other = groups.all().findLast(({ sheet }) => sheet === 'Belts')?.record ?? 0;
  expect(groups.list(every, whole, other, 10, version).listed[0]?.finding.record).toBe(other);
  expect(groups.list(every, whole, undefined).listed.some(({ finding }) => finding.record === 3)).toBe(false);
});

test('verdicts and areas follow each change of the book', () => {
  const book = new Workbook(demoBook('metric'));
  const overview = overviewOf(book);
  const [width, area] = [book.column('Belts', 'Width'), book.column('Belts', 'Area')];
  const steps: (() => void)[] = [
    () => book.edit([{ sheet: 'Belts', record: 4, column: width, content: null }]),
    () => book.edit([{ sheet: 'Belts', record: 5, column: area, content: 'Nowhere yet' }]),
    () => book.addRecords('Belts', 2, [['New']]),
    () => book.removeRecords('Belts', 0, 3),
    () => book.addRecords('Belts', 1),
    () => void book.undo(),
  ];
  for (const step of steps) {
    const { version } = overview;
    step();
    expect(overview.version).not.toBe(version);
    expect(overview.counts()).toEqual(verdictCounts(book));
    const areas = book.sheet('Belts').rows.map((_, record) => String(book.read('Belts', record, 'Area') ?? ''));
    expect(overview.areas().toSorted()).toEqual([...new Set(areas)].filter((name) => name !== '').toSorted());
    expect(overview.recordsIn('').length).toBe(overview.belts);
  }
});

test('a search finds the same in slices, and follows what is typed meanwhile', async () => {
  const book = new Workbook(demoBook('metric'));
  const search = { text: 'b', matchCase: false, sheet: 'Belts' };
  const entered = (): unknown =>
    foundCells(
      book.state,
      search,
      (sheet) => book.columns(sheet).length,
      (place) => {
        const value = book.value(place);
        return typeof value === 'string' ? value : '';
      },
    ).filter((place) => typeof book.content(place) === 'string');
  const running = new TextSearch(book, search, () => undefined);
  const found = (): unknown => running.places.filter((place) => typeof book.content(place) === 'string');
  book.edit([{ sheet: 'Belts', record: 3, column: 0, content: 'bbb' }]);
  await vi.waitFor(() => expect(running.complete).toBe(true));
  expect(found()).toEqual(entered());
  book.edit([
    { sheet: 'Belts', record: 9, column: 0, content: 'nothing' },
    { sheet: 'Belts', record: 2, column: 0, content: 'B again' },
  ]);
  expect(found()).toEqual(entered());
  book.addRecords('Belts', 0, [['Bee']]);
  await vi.waitFor(() => expect(running.complete).toBe(true));
  expect(found()).toEqual(entered());
  running.end();
});

test('names are gone through once until one of them changes', () => {
  const book = new Workbook(demoBook('metric'));
  let times = 0;
  const memory = new NamingMemory((of, sheet, column) => {
    times += 1;
    return of.sheet(sheet).rows.map((_, record) => of.value({ sheet, record, column }));
  });
  const names = (): unknown => memory.of(book, 'Belts', 0);
  const width = book.column('Belts', 'Width');
  names();
  for (const content of [700, 800, 900]) {
    book.edit([{ sheet: 'Belts', record: 1, column: width, content }]);
    names();
  }
  expect(times).toBe(1);
  book.edit([{ sheet: 'Belts', record: 1, column: 0, content: 'Another' }]);
  expect(names()).toContain('Another');
  expect(times).toBe(2);
  book.edit([{ sheet: 'Belts', record: 1, column: 0, content: '="By"&" formula"' }]);
  names();
  names();
  expect(times).toBe(4);
});

test.each([
  ['asc', [-2, 0, 10, 'text', null]],
  ['desc', [10, 0, -2, 'text', null]],
])('numbers are in order (%s), and what is none stands behind them', (order, wanted) => {
  expect(['text', 10, null, -2, 0].toSorted(numbersCompared(order))).toEqual(wanted);
});
