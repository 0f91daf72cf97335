import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { curesOf, findings, verdictCounts } from '../../src/checks/findings.ts';
import { previewedCures } from '../../src/page/cure-preview.ts';
import { overviewOf } from '../../src/page/belt-overview.ts';
import { FindingGroups, type ListedFinding } from '../../src/page/finding-groups.ts';
import { scopeOf } from '../../src/page/findings-list.ts';
import type { Finding } from '../../src/records/finding.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Which findings are listed, in what order, and what their cures would change. */

const book = new Workbook(demoBook('metric'));
const found = findings(book);
const every = { verdict: undefined, check: '' };
const whole = scopeOf(book, undefined, '');

/** All findings, put in as the page does. */
function grouped(all: readonly Finding[]): FindingGroups {
  const groups = new FindingGroups();
  for (const record of new Set(all.map((finding) => finding.record)))
    groups.put(
      record,
      all.filter((finding) => finding.sheet === belts.name && finding.record === record),
    );
  groups.putOthers(all.filter(({ sheet }) => sheet !== belts.name));
  return groups;
}

const listedFindings = (
  all: readonly Finding[],
  ...asked: Parameters<FindingGroups['list']>
): readonly ListedFinding[] => grouped(all).list(...asked).listed;

test('the selected belt’s come first, then the worst', () => {
  const selected = found.find(({ verdict }) => verdict === 'tight')?.record;
  const listed = listedFindings(found, every, whole, selected);
  const own = listed.findIndex(({ finding }) => finding.record !== selected);
  expect(own).toBeGreaterThan(0);
  expect(listed.slice(own).some(({ finding }) => finding.record === selected)).toBe(false);
  const order = ['fails', 'not known', 'tight', 'compare'];
  const ranks = listed.slice(own).map(({ finding }) => order.indexOf(finding.verdict));
  expect(ranks).toEqual(ranks.toSorted((one, other) => one - other));
});

test('the same of many belts is told once, with all of them', () => {
  const bare = new Workbook(demoBook('metric'));
  const column = bare.column('Belts', 'Take-up travel');
  const records = [...bare.sheet('Belts').rows.keys()].slice(0, 9);
  bare.edit(records.map((record) => ({ sheet: 'Belts', record, column, content: 'soon' })));
  const all = findings(bare);
  const listed = listedFindings(all, { verdict: 'not known', check: 'take-up' }, scopeOf(bare, undefined, ''), 4);
  const told = listed.find(({ all: of }) => of.length === 9);
  expect(told?.finding.record).toBe(4);
  expect(listed.flatMap(({ all: of }) => of)).toHaveLength(
    all.filter(({ verdict, check }) => verdict === 'not known' && check === 'take-up').length,
  );
});

test('an area and a filter leave their belts, and the counts are of these', () => {
  expect(overviewOf(book).areas()).toContain('Salt shed');
  expect(whole.counts).toEqual(verdictCounts(book));
  const area = scopeOf(book, undefined, 'Salt shed');
  expect([area.records.size, area.of]).toEqual([6, 36]);
  const both = scopeOf(book, [0, 1, 6, 7], 'Salt shed');
  expect([...book.sheet('Belts').rows.keys()].filter((record) => both.records.has(record))).toEqual([6, 7]);
  expect(Object.values(both.counts).reduce((sum, count) => sum + count, 0)).toBe(2);
  const listed = listedFindings(found, every, both, undefined);
  expect(listed.every(({ finding }) => finding.sheet === belts.name && both.records.has(finding.record))).toBe(true);
});

test('what a cure is said to change is what it changes', () => {
  const failing = found.filter(({ verdict, sheet }) => verdict === 'fails' && sheet === belts.name);
  let tried = 0;
  for (const finding of failing) {
    expect(curesOf(book, finding.record, finding.check).map(({ text }) => text)).toEqual(finding.cures);
    const [cure] = previewedCures(book, finding).filter(({ edits }) => edits.length > 0);
    if (cure === undefined) continue;
    const verdict = cure.follows.find(({ header }) => header === 'Verdict')?.after;
    const before = String(book.read('Belts', finding.record, 'Verdict'));
    book.edit(cure.edits);
    expect(book.read('Belts', finding.record, 'Verdict')).toBe(verdict ?? before);
    book.undo();
    tried += 1;
  }
  expect(tried).toBeGreaterThan(3);
});
