import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import { beltPath } from '../../src/advice/belt-path.ts';
import { verdictOf } from '../../src/functions/checks.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, type Cells, loopOf, randomParts, soundBelt } from './books.ts';
import type { PulleyHeader } from '../../sheets/index.ts';

/** The pulleys of a belt: the way around them, their tensions, both checks, and what of it the belt's record takes. */

const loaded: Cells = { ...soundBelt, Capacity: 200 };
const pulley = (book: Workbook, name: string, header: PulleyHeader): unknown => {
  const record = book.sheet('Pulleys').rows.findIndex((_, place) => book.read('Pulleys', place, 'Pulley') === name);
  return book.read('Pulleys', record, header);
};
const bookWith = (pulleys: readonly Cells[], belts: readonly Cells[] = [loaded]): Workbook =>
  new Workbook(bookOf({ belts, pulleys }));
const changed = (name: string, cells: Cells): Cells[] =>
  loopOf('B1').map((item) => (item['Pulley'] === name ? { ...item, ...cells } : item));

describe('the loop', () => {
  const book = bookWith(loopOf('B1'));
  const way = beltPath(
    loopOf('B1').map((item, index) => ({
      name: String(item['Pulley']),
      x: Number(item['x']) * 1000,
      y: Number(item['y']) * 1000,
      diameter: Number(item['Diameter']),
      turn: Number(book.read('Pulleys', index, 'Turn')) === 1 ? 1 : -1,
    })),
    9.8,
  );

  test('has the length of the belt path, worked out apart, to 1e-9', () => {
    expect(book.read('Belts', 0, 'Loop from')).toBe('pulleys');
    expect(Math.abs((Number(book.read('Belts', 0, 'Loop length')) * 1000) / way.length - 1)).toBeLessThan(1e-9);
    for (const [index, { wrap, reverse }] of way.pulleys.entries()) {
      expect(Number(book.read('Pulleys', index, 'Wrap angle used'))).toBeCloseTo(wrap, 7);
      expect(book.read('Pulleys', index, 'Reverse bend')).toBe(reverse ? 'yes' : 'no');
    }
  });

  test('is the same in US customary units', () => {
    const us = new Workbook(bookOf({ belts: [loaded], pulleys: loopOf('B1') }));
    us.convert('us');
    expect(Number(us.read('Belts', 0, 'Loop length')) * 0.3048).toBeCloseTo(
      Number(book.read('Belts', 0, 'Loop length')),
      9,
    );
    expect(us.read('Belts', 0, 'Verdict')).toBe(book.read('Belts', 0, 'Verdict'));
  });

  test('falls back on centres, head and tail pulley when a place is missing', () => {
    const open = bookWith(changed('snub', { x: null }));
    expect(open.read('Belts', 0, 'Loop from')).toBe('centres');
    expect(open.read('Belts', 0, 'Loop length')).toBe(bookWith([]).read('Belts', 0, 'Loop length'));
  });
});

describe('each pulley is checked at its own tension and group', () => {
  const book = bookWith(loopOf('B1'));

  test('head under the greatest steady tension, tail under that at the tail, the return side under its own', () => {
    const width = 800;
    expect(pulley(book, 'head', 'Tension')).toBe(book.read('Belts', 0, 'Steady tension'));
    expect(pulley(book, 'tail', 'Tension')).toBeCloseTo(
      Number(book.read('Belts', 0, 'Steady tail tension')) / width,
      12,
    );
    expect(Number(pulley(book, 'bend in', 'Tension'))).toBeLessThan(Number(pulley(book, 'head', 'Tension')));
    expect(pulley(bookWith(changed('tail', { 'Local tension': 7 })), 'tail', 'Tension')).toBe(7);
  });

  test('groups by kind and contact, unless entered', () => {
    expect(['head', 'tail', 'bend in', 'take-up'].map((name) => pulley(book, name, 'Group used'))).toEqual([
      'A',
      'B',
      'B',
      'B',
    ]);
    expect(pulley(book, 'snub', 'Group used')).toBe(Number(pulley(book, 'snub', 'Wrap angle used')) <= 30 ? 'C' : 'B');
    expect(pulley(bookWith(changed('tail', { Group: 'A' })), 'tail', 'Group used')).toBe('A');
  });

  describe('a tripper, listed between tail and head,', () => {
    const [tail, ...others] = loopOf('B1');
    const tripper = (x: number | null): Cells => ({
      Belt: 'B1',
      Pulley: 'tripper',
      'Pulley type': 'bend',
      x,
      y: x === null ? null : 5,
      Diameter: 500,
    });
    const withTripper = (x: number | null, belt: Cells = loaded, pulleys = [tail ?? {}, tripper(x), ...others]) =>
      bookWith(pulleys, [belt]);
    const [behindTail, beforeHead] = (['Steady tail tension', 'Steady head tension'] as const).map(
      (header) => Number(withTripper(0).read('Belts', 0, header)) / 800,
    );

    test.each([0, 0.25, 0.6, 1])('at %d of the way has the carrying run’s tension there, and group A', (share) => {
      const way = share * Math.sqrt(140 ** 2 - 4 ** 2);
      const found = withTripper(way);
      expect(pulley(found, 'tripper', 'Run side')).toBe('carrying run');
      expect(pulley(found, 'tripper', 'Tension from')).toBe('carrying run');
      expect(pulley(found, 'tripper', 'Group used')).toBe('A');
      const here = (behindTail ?? 0) * (1 - share) + (beforeHead ?? 0) * share;
      expect(Number(pulley(found, 'tripper', 'Tension'))).toBeCloseTo(here, 9);
      expect(pulley(found, 'bend in', 'Run side')).toBe('return run');
    });

    test('without a position has the larger of both ends, and by another method the maximum', () => {
      expect(Number(pulley(withTripper(null), 'tripper', 'Tension'))).toBeCloseTo(
        Math.max(behindTail ?? 0, beforeHead ?? 0),
        9,
      );
      const entered = withTripper(80, { ...loaded, 'Known tension': 30 });
      expect(pulley(entered, 'tripper', 'Tension from')).toBe('maximum');
      expect(pulley(entered, 'tripper', 'Tension')).toBe(30);
    });

    test('is found wherever the list begins', () => {
      const [head, ...behind] = others;
      const turned = withTripper(60, loaded, [head ?? {}, ...behind, tail ?? {}, tripper(60)]);
      expect(pulley(turned, 'tripper', 'Run side')).toBe('carrying run');
      expect(['head', 'tail', 'snub'].map((name) => pulley(turned, name, 'Run side'))).toEqual([
        'end',
        'end',
        'return run',
      ]);
      expect(pulley(turned, 'tripper', 'Tension')).toBe(pulley(withTripper(60), 'tripper', 'Tension'));
    });

    test('too small for that tension fails the carcass check, which on the return run it passes', () => {
      const heavy: Cells = { ...loaded, Capacity: 700, Lift: 20, 'Carcass thickness': 4.4 };
      const small = (item: Cells): Cells => ({ ...item, Diameter: 315 });
      const kept = others.map((item) => ({ ...item, Diameter: 1000 }));
      const carrying = withTripper(100, heavy, [{ ...tail, Diameter: 1000 }, small(tripper(100)), ...kept]);
      const returning = withTripper(100, heavy, [{ ...tail, Diameter: 1000 }, ...kept, small(tripper(100))]);
      expect(carrying.read('Belts', 0, 'Carcass check')).toBe('fails');
      expect(verdictOf(returning.read('Belts', 0, 'Carcass check'))).not.toBe('fails');
    });
  });

  test('a drive away from the head makes the return run tight, but for the take-up', () => {
    const away = bookWith(loopOf('B1'), [{ ...loaded, 'Drive place': 'tail' }]);
    expect(['tail', 'bend in', 'take-up'].map((name) => pulley(away, name, 'Tension from'))).toEqual([
      'maximum',
      'maximum',
      'take-up',
    ]);
    expect(['tail', 'bend in', 'take-up'].map((name) => pulley(away, name, 'Group used'))).toEqual(['A', 'A', 'B']);
    expect(Number(pulley(away, 'take-up', 'Tension'))).toBeCloseTo(
      Number(away.read('Belts', 0, 'Slack-side tension')) / 800,
      9,
    );
  });

  test('the carcass counts as fully used at its strength over CarcassSafety, not at the belt’s rating', () => {
    // EP 400: 400 / 8 = 50 N/mm. 30 N/mm is 60 % of that, 75 % of the rating of 40: one step less.
    const steps = (tension: number, cells: Cells = {}, named: Cells = {}): unknown =>
      new Workbook(bookOf({ belts: [{ ...loaded, 'Known tension': tension, ...cells }], named })).read(
        'Belts',
        0,
        'Carcass steps',
      );
    expect([30, 30.1].map((tension) => steps(tension))).toEqual([-1, 0]);
    expect(steps(30, {}, { CarcassSafety: 10 })).toBe(0);
    expect(steps(30, { Construction: 'EP belt' })).toBe(0);
  });

  test('the one that is smallest for its own need decides the belt’s carcass check', () => {
    const small = bookWith(changed('take-up', { Diameter: 200 }));
    expect(small.read('Belts', 0, 'Carcass check')).toBe('fails');
    expect(small.read('Belts', 0, 'Carcass critical pulley')).toBe(200);
    const finding = findings(small).find(({ check }) => check === 'carcass');
    expect(finding?.message).toContain('The take-up pulley, 200 mm');
    expect(finding?.cures.join(' ')).toContain('Fit a take-up pulley of');
  });

  test('a reverse bend counts for the joint by ReverseFactor', () => {
    const parts = { belts: [{ ...loaded, 'Smallest pulley': null }], pulleys: loopOf('B1') };
    expect(new Workbook(bookOf(parts)).read('Belts', 0, 'Critical pulley')).toBe(400);
    expect(
      new Workbook(bookOf({ ...parts, named: { ReverseFactor: 1.25 } })).read('Belts', 0, 'Critical pulley'),
    ).toBeCloseTo(320, 9);
  });

  test('a listed pulley without a diameter leaves both checks not known, and the finding names its cell', () => {
    const open = bookWith(changed('bend out', { Diameter: null }));
    expect([open.read('Belts', 0, 'Pulley check'), open.read('Belts', 0, 'Carcass check')]).toEqual([
      'not known',
      'not known',
    ]);
    expect(findings(open).find(({ check }) => check === 'pulley')?.cell).toBe('Pulleys!F6');
  });
});

describe('what can’t be is told', () => {
  test.each<[string, Cells[], string]>([
    ['pulleys that overlap', changed('snub', { x: 0, y: 0.1 }), 'overlap'],
    ['a belt that crosses itself', changed('take-up', { y: 40 }), 'cross'],
  ])('%s', (_, pulleys, word) => {
    const found = findings(bookWith(pulleys)).filter(({ check }) => check === 'pulleys');
    expect(found.map(({ message }) => message).join(' ')).toContain(word);
    expect(found.map(({ message }) => message).join(' ')).not.toMatch(/pulley \d/);
  });

  test('pulleys of a belt that stand apart, two of one name, a belt that is not there', () => {
    const [tail, head, ...rest] = loopOf('B1');
    const book = bookWith([tail ?? {}, { ...head, Belt: 'B9' }, head ?? {}, { ...tail, Pulley: 'head' }, ...rest]);
    const messages = findings(book)
      .filter(({ sheet }) => sheet === 'Pulleys')
      .map(({ message }) => message)
      .join('\n');
    expect(messages).toContain('Belt names "B9"');
    expect(messages).toContain('is separated from the others of its belt');
    expect(messages).toContain('The name "head" is already used in row 4');
  });
});

test('edits in both sheets end where a book built anew begins', () => {
  const pulleyEdit = fc.record({
    sheet: fc.constant('Pulleys'),
    record: fc.nat({ max: 8 }),
    header: fc.constantFrom('x', 'y', 'Diameter', 'Belt', 'Pulley type', 'Belt side', 'Group'),
    content: fc.constantFrom('B1', 'B2', 'tail', 'carrying side', 'A', 300, 630, 1.5, null),
  });
  const beltEdit = fc.record({
    sheet: fc.constant('Belts'),
    record: fc.nat({ max: 2 }),
    header: fc.constantFrom('Belt', 'Width', 'Thickness', 'Capacity', 'Power', 'Skew', 'Construction'),
    content: fc.constantFrom('B1', 'B2', 650, 900, 45, 10, null, 'NN 500/4 4+2'),
  });
  fc.assert(
    fc.property(
      randomParts({ belts: 4, series: 0, named: 0 }, 3),
      fc.array(fc.oneof(pulleyEdit, beltEdit), { minLength: 1, maxLength: 6 }),
      (parts, edits) => {
        const book = new Workbook(bookOf({ ...parts, pulleys: [...loopOf('B1'), ...loopOf('B2', 90, -3)] }));
        for (const { sheet, record, header, content } of edits) {
          if (record < book.sheet(sheet).rows.length)
            book.edit([{ sheet, record, column: book.column(sheet, header), content }]);
        }
        const anew = new Workbook(book.state);
        for (const sheet of ['Belts', 'Pulleys']) {
          book.sheet(sheet).rows.forEach((_, record) =>
            book.columns(sheet).forEach(({ header }, column) => {
              const [one, other] = [book.value({ sheet, record, column }), anew.value({ sheet, record, column })];
              expect(String(one), `${sheet}, row ${record + 2}, ${header}`).toBe(String(other));
            }),
          );
        }
      },
    ),
    { numRuns: 40 },
  );
}, 120_000);

test('a what-if on a belt follows through its pulleys', () => {
  const book = bookWith(loopOf('B1'));
  const column = book.column('Belts', 'Carcass minimum pulley');
  const supposed = book.whatIf('Belts', 0, { 'Carcass thickness': 7 });
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Carcass thickness'), content: 7 }]);
  expect(supposed[column]).toBe(book.value({ sheet: 'Belts', record: 0, column }));
  for (const header of ['Verdict', 'Carcass check', 'Carcass critical pulley'] as const)
    expect(supposed[book.column('Belts', header)]).toBe(book.read('Belts', 0, header));
});
