import { describe, expect, it } from 'vitest';
import { beltPulleys, cheapest, ownJoint, type SeriesSkews, seriesSkews } from '../../src/advice/belt-skews.ts';
import { seriesNames } from '../../src/advice/skew-question.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { newJointChecks } from '../../sheets/belts/check-columns.ts';
import { verdictOf } from '../../src/functions/checks.ts';
import { bookOf, cutAt, editsOf, soundBelt } from '../workbook/books.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** The advisor's answers against the book itself, edited as a user would and read cell by cell. */

const answers = (book: Workbook, record: number): SeriesSkews[] => {
  const pulleys = beltPulleys(book, record);
  return seriesNames(book).map((series) => seriesSkews(book, record, String(series), pulleys));
};

/** What the checks say, age aside, when skew and series are entered. */
function entered(
  book: Workbook,
  opened: Workbook,
  record: number,
  skew: number,
  series: string,
): { readonly passes: boolean; readonly read: (header: BeltHeader) => unknown } {
  // The joint in place is that of the book as it was opened: its skew is what another one replaces.
  book.edit([
    { sheet: 'Belts', record, column: book.column('Belts', 'Plate series'), content: series },
    ...editsOf(book, record, cutAt(opened, record, skew)),
  ]);
  return {
    passes: newJointChecks.every(({ header }) =>
      ['fits', 'tight'].includes(verdictOf(book.read('Belts', record, header))),
    ),
    read: (header) => book.read('Belts', record, header),
  };
}

const tenths = Array.from({ length: 601 }, (_, index) => index / 10);

describe.each(['metric', 'us'] as const)('the advice for the demo, %s', (units) => {
  const book = new Workbook(demoBook(units));
  const records = [2, 12, 21, 30];

  it.each(records)(
    'belt %i: the least skew passes, a tenth less does not, and its figures are those of the cells',
    (record) => {
      const all = answers(book, record);
      const trial = new Workbook(demoBook(units));
      for (const { series, least, passes } of all) {
        expect(passes.length === 0).toBe(least === undefined);
        expect(passes[0]?.from).toBe(least?.skew);
        for (const { from, to } of passes)
          for (let skew = Math.ceil(from * 2) / 2; skew <= to; skew += 0.5)
            expect(entered(trial, book, record, skew, series).passes, `${series} at ${skew}`).toBe(true);
        if (least === undefined) {
          for (let skew = 0; skew <= 60; skew += 0.5)
            expect(entered(trial, book, record, skew, series).passes, `${series} at ${skew}`).toBe(false);
          continue;
        }
        if (least.skew > 0)
          expect(entered(trial, book, record, least.skew - 0.1, series).passes, `${series} below ${least.skew}`).toBe(
            false,
          );
        const square = entered(trial, book, record, 0, series).read('Plates');
        const at = entered(trial, book, record, least.skew, series);
        expect(at.passes, `${series} at ${least.skew}`).toBe(true);
        expect(least.figures.Plates).toBe(at.read('Plates'));
        expect(least.figures['Joint cost']).toBe(at.read('Joint cost'));
        expect(least.extra.Plates).toBe(Number(at.read('Plates')) - Number(square));
      }
      trial.destroy();
    },
  );

  it('changes nothing', () => {
    const { state } = book;
    answers(book, 0);
    expect(book.state).toBe(state);
    expect(book.undoable).toBeUndefined();
  });
});

describe('one belt of invented figures', () => {
  const belt = { ...soundBelt, 'Carcass thickness': 2, 'Smallest pulley': 280, 'Head pulley': 630, 'Tail pulley': 280 };
  const book = new Workbook(bookOf({ belts: [belt] }));
  const [plover, heron] = answers(book, 0);

  it('needs the least skew that a search in tenths finds', () => {
    const trial = new Workbook(bookOf({ belts: [belt] }));
    expect(plover?.least?.skew).toBeGreaterThan(0);
    expect(plover?.least?.skew).toBe(tenths.find((skew) => entered(trial, book, 0, skew, 'Plover').passes));
  });

  it('says why the square joint does not do, and what no skew cures', () => {
    expect(plover?.hindrances).toContainEqual({
      check: 'pulley',
      verdict: 'fails',
      where: expect.stringMatching(/^below \d/) as string,
      always: false,
    });
    expect(heron?.least).toBeUndefined();
    expect(heron?.hindrances.filter(({ always }) => always).map(({ check }) => check)).toContain('thickness');
  });

  it('marks pulleys of one size once, and the skew from which each will do', () => {
    const pulleys = beltPulleys(book, 0);
    expect(pulleys).toEqual([
      { name: 'Smallest, Tail', diameter: 280, measured: 280 },
      { name: 'Head', diameter: 630, measured: 630 },
    ]);
    const { pulleys: marks = [], curve = [] } = plover ?? {};
    expect(marks.map(({ name, from }) => ({ name, from }))).toEqual([
      { name: 'Smallest, Tail', from: expect.any(Number) as number },
      { name: 'Head', from: 0 },
    ]);
    const from = marks[0]?.from ?? 0;
    const at = (skew: number): number =>
      Number(
        book.whatIf('Belts', 0, { Skew: skew, 'Plate series': 'Plover' })[book.column('Belts', 'Joint minimum pulley')],
      );
    expect(at(from)).toBeLessThanOrEqual(280);
    expect(at(from - 0.1)).toBeGreaterThan(280);
    expect(curve[0]).toEqual({ skew: 0, pulley: 315 });
  });

  it('leaves out the age of the joint that is there now', () => {
    const old = new Workbook(bookOf({ belts: [{ ...soundBelt, 'Joint life': 10 }] }));
    expect(old.read('Belts', 0, 'Age check')).toBe('fails');
    expect(answers(old, 0)[0]?.least).toBeDefined();
  });

  it('does not pass what is not known', () => {
    const unknown = new Workbook(bookOf({ belts: [{ ...soundBelt, 'Take-up travel': null }] }));
    const [first] = answers(unknown, 0);
    expect(first?.least).toBeUndefined();
    expect(first?.hindrances).toContainEqual({
      check: 'take-up',
      verdict: 'not known',
      where: 'at every skew',
      always: true,
    });
  });

  it('knows the cheapest of those that pass, and the belt’s own joint', () => {
    expect(cheapest(answers(book, 0))).toBe('Plover');
    expect(ownJoint(book, 0)).toEqual({ skew: 45, series: 'Plover' });
  });
});
