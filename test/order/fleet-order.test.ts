import { describe, expect, test, vi } from 'vitest';
import { itemKey } from '../../src/order/search/order-list.ts';
import { verdictOf } from '../../src/functions/checks.ts';
import { newJointChecks } from '../../sheets/belts/check-columns.ts';
import { fleet } from '../bench/fleet.ts';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { itemText } from '../../src/order/items.ts';
import { feasibleFleet, fleetSeries, seriesChanges, seriesEdits, triedSkews } from '../../src/order/fleet-series.ts';
import { fleetShelf, played } from '../../src/order/shelf-lines.ts';
import { fleetComparison } from '../../src/order/square-or-skew.ts';
import { cutItems } from '../../src/order/fleet-cutting.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { serialOf } from '../../src/units/dates.ts';
import type { Content } from '../../src/formula/values.ts';
import { columnOf, cutAt, editsOf } from '../workbook/books.ts';

vi.setConfig({ testTimeout: 120_000 });

const demo = (): Workbook => new Workbook(demoBook('metric'));

/** The demo with the named cells set. */
function demoWith(
  cells: readonly (readonly [sheet: string, key: string, header: string, content: Content])[],
): Workbook {
  const book = demo();
  for (const [sheet, key, header, content] of cells) {
    const record = book.sheet(sheet).rows.findIndex((row) => row.cells[0] === key);
    expect(record, key).toBeGreaterThanOrEqual(0);
    book.edit([{ sheet, record, column: columnOf(book, sheet, header), content }]);
  }
  return book;
}

const line = (order: ReturnType<typeof fleetOrder>, kind: string, name: string) =>
  order.lines.find(({ item }) => item.kind === kind && item.name === name);

describe('which joints', () => {
  test('a period takes those due up to its day, overdue ones in the month of the review date', () => {
    const book = demo();
    const until = serialOf(2027, 6, 30) ?? 0;
    const { joints } = fleetOrder(book, { which: 'due', until });
    expect(joints.belts.length).toBeGreaterThan(0);
    for (const { due, month, belt } of joints.belts) {
      expect(due, belt).toBeLessThanOrEqual(until);
      expect(month >= '2026-11' && month <= '2027-06', `${belt} ${month}`).toBe(true);
    }
    const all = fleetOrder(book, { which: 'all' }).joints.belts.filter(({ due }) => due !== undefined && due <= until);
    expect(joints.belts.map(({ belt }) => belt)).toEqual(all.map(({ belt }) => belt));
    expect(joints.leftOut.find(({ belt }) => belt === 'K5')?.reason).toBe(
      'the date when its joint is due is not known',
    );
  });

  test('a plate series may be called by a number, as suppliers do', () => {
    const series = demo()
      .sheet('Plate series')
      .rows.findIndex(({ cells }) => cells[0] === 'Heron');
    const book = demoWith([['Belts', 'Q5', 'Plate series', 200]]);
    book.edit([{ sheet: 'Plate series', record: series, column: 0, content: 200 }]);
    const { belts, leftOut } = fleetOrder(book, { which: 'all' }).joints;
    expect(leftOut.filter(({ belt }) => belt === 'Q5')).toEqual([]);
    expect(belts.find(({ belt }) => belt === 'Q5')?.needs.map(({ item }) => item.name)).toContain('200');
    const change = { belt: 'Q1', record: 0, from: { series: 'Plover', skew: 0 }, to: { series: '200', skew: 0 } };
    expect(seriesEdits(book, [change]).map(({ content }) => content)).toEqual([200]);
  });

  test('belts that fail are told with the checks, and taken when asked for; their age does not count', () => {
    const [cautious, all] = [
      fleetOrder(demo(), { which: 'all' }),
      fleetOrder(demo(), { which: 'all' }, { failing: true }),
    ];
    expect(cautious.joints.leftOut.find(({ belt }) => belt === 'L4')).toMatchObject({
      reason: 'its joint fails: thickness',
      column: 'Thickness check',
    });
    expect(all.joints.leftOut).toEqual([]);
    expect(all.joints.belts).toHaveLength(36);
    const aged = cautious.joints.belts.map(({ record }) => verdictOf(demo().read('Belts', record, 'Age check')));
    expect(aged).toContain('fails');
  });

  test('an insert takes belt of its own construction and width, and a joint at either end', () => {
    const book = demoWith([
      ['Belts', 'Q2', 'Insert', 12],
      ['Shelf', 'S6', 'Kind', 'belt'],
      ['Shelf', 'S6', 'Item', 'EP 630/4 6+2'],
      ['Shelf', 'S6', 'Size', 1200],
    ]);
    const order = fleetOrder(book, { which: 'belts', records: [1] });
    const [belt] = order.joints.belts;
    expect(belt?.joints).toBe(2);
    const piece = order.lines.find(({ item }) => item.kind === 'belt');
    expect(piece?.item).toEqual({ kind: 'belt', name: 'EP 630/4 6+2', length: 1200 });
    // 12 m, and for each of two joints what the skew takes, 1200 mm at 45 degrees, and the trim of 100 mm on either
    // end.
    expect(piece?.need).toBeCloseTo(12 + 2 * (1.2 + 2 * 0.1), 9);
    expect(piece?.need).toBe(book.read('Belts', 1, 'Insert to order'));
    expect(piece?.shelf).toBe(18);
    const cut = cutItems(book, order).find(({ item }) => item.kind === 'belt');
    expect(cut?.question).toMatchObject({
      pieces: [{ belt: 'Q2', length: piece?.need, quantity: 1 }],
      shelf: [
        { name: 'S6', length: 18, quantity: 1, source: 'shelf' },
        { name: 'S6', length: 18, quantity: 1, source: 'on order' },
      ],
      sold: [],
    });
  });
});

describe('what a book says', () => {
  test('a book without suppliers, offers and shelf is ordered for at the prices of its series and strips', () => {
    const full = demoBook('metric');
    const empty = emptyBook('metric');
    const bare = new Workbook({
      ...full,
      sheets: full.sheets.map((sheet) =>
        ['Suppliers', 'Offers', 'Shelf'].includes(sheet.name)
          ? (empty.sheets.find(({ name }) => name === sheet.name) ?? sheet)
          : sheet,
      ),
    });
    const order = fleetOrder(bare, { which: 'all' });
    expect(order.remarks).toEqual([]);
    expect(order.offered.suppliers.map(({ name }) => name).toSorted()).toEqual([
      'Invented Supplier A',
      'Invented Supplier B',
      'Invented Supplier C',
    ]);
    const heron = order.offered.offers.find(({ item }) => item.kind === 'plates' && item.name === 'Heron');
    expect(heron).toMatchObject({ supplier: 'Invented Supplier B', pack: 24, breaks: [{ from: 1, price: 99.66 }] });
    expect(line(order, 'plates', 'Heron')?.shelf).toBe(0);
    expect(fleetShelf(bare, order).unlisted.length).toBeGreaterThan(20);
  });

  test('an offer replaces what the series says only for its own supplier, in that currency', () => {
    const order = fleetOrder(demo(), { which: 'all' });
    const of = (kind: string, name: string) =>
      order.offered.offers
        .filter(({ item }) => item.kind === kind && item.name === name)
        .map(({ supplier, breaks }) => [supplier, breaks[0]?.price]);
    expect(of('plates', 'Plover')).toEqual([
      ['Invented Supplier A', 58.56],
      ['Invented Trader D', 2490],
    ]);
    expect(of('strip', 'Marram')).toEqual([
      ['Invented Trader D', 5690],
      ['Invented Supplier B', 130.51],
    ]);
  });

  test.each([
    [
      'Offers',
      'A-PLO-48',
      'Kind',
      null,
      'Kind is empty, so the row is left out: enter one of plates, bolts, strip, punch, consumable, belt',
    ],
    [
      'Offers',
      'A-PLO-48',
      'Price',
      null,
      'Price is empty, so the minimum is 5 packs: enter the price of one pack, or that number in Minimum packs',
    ],
    ['Offers', 'A-PLO-48', 'Pieces in pack', null, 'Pieces in pack is empty, so the offer is left out'],
    ['Offers', 'A-PLO-48', 'Break 3', 4, 'Break 3 is 4, not more than the break before it, so it is left out'],
    ['Offers', 'A-PLO-48', 'Price 2', null, 'Price 2 is empty, so the break is left out'],
    [
      'Suppliers',
      'Invented Trader D',
      'Exchange rate',
      null,
      'Exchange rate is empty, so nothing is bought from Invented Trader D: enter the value of one SEK in EUR',
    ],
    [
      'Shelf',
      'S1',
      'Length each',
      null,
      'Length each is empty, so the bin is left out: enter the length of one roll or offcut',
    ],
    ['Shelf', 'B1', 'Size', null, 'Size is empty, so the row is left out: each size of bolts is an item of its own'],
  ] as const)('a wrong cell is told with its place: %s %s %s', (sheet, key, header, content, message) => {
    const book = demoWith([[sheet, key, header, content]]);
    const { remarks } = fleetOrder(book, { which: 'all' });
    const told = remarks.find((remark) => remark.message === message);
    expect(told, remarks.map((remark) => remark.message).join('\n')).toMatchObject({ sheet, column: header });
    expect(told?.record).toBe(book.sheet(sheet).rows.findIndex((row) => row.cells[0] === key));
  });

  test('an assumption that is no number refuses the order and names its cell', () => {
    expect(() => fleetOrder(demoWith([['Assumptions', 'PlateAllowance', 'Value', 'much']]), { which: 'all' })).toThrow(
      /^must be a number; Assumptions!B\d+: /,
    );
  });

  test('names count alike in any case, and sizes that were converted are the same', () => {
    const order = fleetOrder(new Workbook(demoBook('us')), { which: 'all' });
    const bolts = order.lines.find(({ item }) => item.kind === 'bolts' && item.name === 'Plover');
    expect(bolts?.shelf).toBe(210);
    expect(itemText(bolts?.item ?? { kind: 'bolts', name: '' }, 'us')).toBe('bolts Plover 1.3 in');
    const lower = fleetOrder(demoWith([['Shelf', 'P5', 'Item', 'heron']]), { which: 'all' });
    expect(line(lower, 'plates', 'Heron')?.shelf).toBe(52);
  });
});

describe('the shelf', () => {
  test('use adds up belt by belt; service played lies about that asked; what no joint takes is dead stock', () => {
    const book = demo();
    const shelf = fleetShelf(book, fleetOrder(book, { which: 'all' }));
    for (const one of shelf.lines) {
      expect(one.sources.reduce((sum, { planned }) => sum + planned, 0)).toBeCloseTo(one.planned, 9);
      const result = played(one);
      if (one.use === 'unused') expect(result).toBeUndefined();
      // Whole joints can't be halved: a point may give more than is asked, never less than its interval says.
      else expect(result?.interval?.[1] ?? 0, itemText(one.item, 'metric')).toBeGreaterThanOrEqual(one.service - 0.01);
    }
    expect(shelf.lines.filter(({ dead }) => dead).map(({ bin }) => bin)).toEqual(['P11']);
    // Both fail a check, L4 that of its thickness, and run on longer Plover bolts today.
    const longer = shelf.lines.find(({ bin }) => bin === 'B2');
    expect(longer?.sources.map(({ belt }) => belt)).toEqual(['Q6', 'L4']);
    // A share of a punch can't be seen on the shelf.
    const punches = shelf.lines.filter(({ item }) => item.kind === 'punch' || item.kind === 'consumable');
    expect(punches.length).toBeGreaterThan(3);
    for (const { reorderPoint } of punches) expect(Number.isInteger(reorderPoint)).toBe(true);
    const heron = shelf.lines.find(({ item }) => itemKey(item) === itemKey({ kind: 'plates', name: 'Heron' }));
    expect(heron?.sources.map(({ belt }) => belt)).toEqual(['Q4', 'Q5', 'C2', 'C3', 'K2', 'L1']);
    // Q4: 2 joints, 3600 h a year, 14000 h of life.
    const plates = Number(book.read('Belts', 3, 'Plates'));
    expect(heron?.sources[0]?.planned).toBeCloseTo(((2 * 3600) / 14000) * plates, 9);
    expect(heron?.sources[0]?.unplanned).toBeCloseTo(0.1 * ((2 * 3600) / 14000) * plates, 9);
  });
});

describe('fewest series', () => {
  test('a joint is feasible exactly when the sheet itself says so once it is entered', async () => {
    const book = demo();
    const { joints, belts } = await feasibleFleet(book, { anySkew: true });
    const feasible = new Set(joints.map(({ belt, series, skew }) => `${belt} ${series} ${skew}`));
    const series = book.sheet('Plate series').rows.map(({ cells }) => String(cells[0]));
    const trial = demo();
    const seriesColumn = trial.column('Belts', 'Plate series');
    let compared = 0;
    for (const [place, name] of series.entries()) {
      // Every third skew for each series, another one for the next: all belts at once, entered as a user would.
      for (const skew of triedSkews.filter((_, index) => index % 3 === place % 3)) {
        trial.edit(
          belts.flatMap(({ record }) => [
            { sheet: 'Belts', record, column: seriesColumn, content: name },
            ...editsOf(trial, record, cutAt(book, record, skew)),
          ]),
        );
        for (const { name: belt, record } of belts) {
          const passes = newJointChecks.every(({ header }) =>
            ['fits', 'tight'].includes(verdictOf(trial.read('Belts', record, header))),
          );
          expect(feasible.has(`${belt} ${name} ${skew}`), `${belt}, ${name} at ${skew}`).toBe(passes);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(1000);
  });

  test('the choice is a proposal: nothing moves until it is applied, as one step that undo takes back', async () => {
    const book = demo();
    const before = book.state;
    const found = await feasibleFleet(book);
    const answer = await fleetSeries(book, found, await loadSolver());
    expect(book.state).toEqual(before);
    expect(answer.best?.proven).toBe(true);
    if (answer.best === undefined) throw new Error('no choice was found');
    const changes = seriesChanges(book, found, answer.best);
    expect(changes.length).toBeGreaterThan(0);
    book.edit(seriesEdits(book, changes), 'apply the fewest series');
    const unserved = new Set(answer.unserved);
    for (const { name, record } of found.belts) {
      if (unserved.has(name)) continue;
      expect(answer.best.series, name).toContain(book.read('Belts', record, 'Plate series'));
      const failing = newJointChecks.filter(
        ({ header }) => !['fits', 'tight'].includes(verdictOf(book.read('Belts', record, header))),
      );
      expect(failing, name).toEqual([]);
    }
    expect(seriesChanges(book, found, answer.best)).toEqual([]);
    book.undo();
    expect(book.state).toEqual(before);
    expect(answer.reasons.get('S6')).toBe('no series passes at 45° or more: carcass');
  });

  test('a belt keeps its skew or gets more, unless any is allowed', async () => {
    const book = demo();
    const [kept, any] = [await feasibleFleet(book), await feasibleFleet(book, { anySkew: true })];
    const own = new Map(kept.belts.map(({ name, record }) => [name, Number(book.read('Belts', record, 'Skew'))]));
    expect(kept.joints.filter(({ belt, skew }) => skew < (own.get(belt) ?? 0))).toEqual([]);
    const texts = (joints: typeof any.joints): string[] => joints.map((joint) => JSON.stringify(joint)).toSorted();
    expect(texts(kept.joints)).toEqual(texts(any.joints.filter(({ belt, skew }) => skew >= (own.get(belt) ?? 0))));
    expect(any.joints.length).toBeGreaterThan(kept.joints.length);
  });

  test('stops when it is told to', async () => {
    const signal = { aborted: false };
    const stopped = await feasibleFleet(new Workbook(fleet(300)), {
      signal,
      progress: () => {
        signal.aborted = true;
      },
    });
    expect(stopped.complete).toBe(false);
    expect(stopped.belts.length).toBeLessThan(300);
  });
});

test('square against skew: totals add up, and pulleys are charged where only they forbid a square joint', () => {
  const book = demo();
  const compared = fleetComparison(book);
  const sum = compared.rows.reduce((total, { square }) => total + square.total, 0);
  expect(compared.total.square.total).toBeCloseTo(sum, 6);
  expect(compared.rows.length + compared.apart.length).toBe(36);
  const charged = compared.rows.filter(({ square, skew }) => square.pulleys > 0 && skew.pulleys === 0);
  expect(charged.length).toBe(compared.pulleyChangesAvoided);
  expect(charged.length).toBeGreaterThan(0);
  // 6000 over 12 years at 6 %: 6000 * 0.06 / (1 - 1.06^-12).
  expect(charged[0]?.square.pulleys).toBeCloseTo(715.66, 2);
});

test('an order list of 1,000 belts reads no more of each belt than one of 36', () => {
  const readsABelt = (belts: number): number => {
    const book = new Workbook(fleet(belts));
    const reads = [vi.spyOn(book, 'value'), vi.spyOn(book, 'read'), vi.spyOn(book, 'column')];
    const { joints } = fleetOrder(book, { which: 'all' });
    expect(joints.belts.length + joints.leftOut.length).toBe(belts);
    return reads.reduce((sum, { mock }) => sum + mock.calls.length, 0) / belts;
  };
  const [few, many] = [readsABelt(36), readsABelt(1000)];
  expect(few).toBeGreaterThan(1);
  expect(many).toBeLessThan(few * 1.1);
});
