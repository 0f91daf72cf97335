import { describe, expect, test } from 'vitest';
import { drawnFigures, drawsFor, failingChances, figureDraws } from '../../src/pictures/failing-chances.ts';
import {
  asItIs,
  type SweepAsked,
  type SweptFigure,
  sweptFigure,
  sweptPicture,
} from '../../src/pictures/swept-figure.ts';
import { evenSteps } from '../../src/pictures/tried-values.ts';
import { type MapAsked, mapPicture, verdictMap } from '../../src/pictures/verdict-map.ts';
import { Belt } from '../../src/records/belt.ts';
import { simulated } from '../../src/what-if/simulation.ts';
import { proposedTolerance } from '../../src/what-if/tolerance.ts';
import { ChangeRefused, typedChange } from '../../src/what-if/typed-change.ts';
import { withVariant } from '../../src/what-if/variants.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Pictures of what would be, against books in which it is. */

const demo = new Workbook(demoBook('metric'));
const record = demo.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3');

function finished<Answer>(steps: Generator<number, Answer>): { readonly answer: Answer; readonly shares: number[] } {
  const shares: number[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done === true) return { answer: step.value, shares };
    shares.push(step.value);
  }
}

const sweep = (
  book: Workbook,
  asked: Partial<SweepAsked> = {},
): { readonly answer: SweptFigure; readonly shares: number[] } =>
  finished(
    sweptFigure(book, {
      record,
      header: 'Joint minimum pulley',
      range: { by: 'Skew', from: '', to: '' },
      variants: [],
      ...asked,
    }),
  );

describe('a figure over an input', () => {
  test('is what the book comes to with the value entered, in variants too', () => {
    const book = new Workbook(demoBook('metric'));
    book.replace(withVariant(book, 'wide', typedChange(book, 'Q3:Width=1200')), 'keep variant');
    book.replace(withVariant(book, 'broken', typedChange(book, 'Q3:Width=1300')), 'keep variant');
    const { answer, shares } = sweep(book, { header: 'Cut length', variants: ['wide', 'gone'] });
    expect(shares.at(-1)).toBeLessThanOrEqual(1);
    expect(answer.lines.map(({ name }) => name)).toEqual([asItIs, 'wide']);
    expect(answer.refused).toEqual([expect.stringContaining('gone')]);
    expect(answer.tried.values[0]).toBe(0);
    expect(answer.tried.values.at(-1)).toBe(60);
    const entered = new Workbook(demoBook('metric'));
    for (const [line, width] of [1000, 1200].entries())
      for (const place of [0, 17, 60, 120]) {
        const skew = Number(answer.tried.values[place]);
        entered.edit([
          { sheet: 'Belts', record, column: entered.column('Belts', 'Width'), content: width },
          ...new Belt(entered, record).editsAt(skew),
        ]);
        expect(answer.lines[line]?.figures[place]).toBe(entered.read('Belts', record, 'Cut length'));
        entered.undo();
      }
    const picture = sweptPicture(book, answer);
    expect(picture.present).toBe(45);
    expect(picture.parts).toHaveLength(2 * answer.tried.values.length);
    expect(picture.table.columns.map(({ header }) => header)).toEqual(['Skew (°)', asItIs, 'wide']);
  });

  test('goes through the names of a list, and leaves gaps where it is not known', () => {
    const series = sweep(demo, { range: { by: 'Plate series', from: '', to: '' } }).answer;
    expect(series.tried.words).toHaveLength(demo.sheet('Plate series').rows.length);
    expect(sweptPicture(demo, series).x.names).toEqual(series.tried.words);
    const unknown = sweptPicture(demo, {
      ...sweep(demo).answer,
      lines: [{ name: asItIs, figures: [1, 2, null, 4, null, null, 5] }],
    });
    expect(unknown.parts.map(({ run }) => run)).toEqual([0, 0, 1, 3]);
    expect(unknown.leftOut).toContain('3 values');
  });

  test('says why it cannot be asked', () => {
    expect(() => sweep(demo, { header: 'Verdict' })).toThrow(ChangeRefused);
    expect(() => sweep(demo, { range: { by: 'Skw', from: '', to: '' } })).toThrow(/Did you mean Skew/);
    expect(() => sweep(demo, { range: { by: 'Skew', from: '50', to: '10' } })).toThrow(/must end after/);
    expect(() => sweep(demo, { range: { by: 'Skew', from: 'steep', to: '' } })).toThrow(/Skew, from: "steep"/);
    const { tried } = sweep(demo, { range: { by: 'Smallest pulley', from: '0.3 m', to: '310' } }).answer;
    expect([tried.values[0], tried.values.at(-1)]).toEqual([300, 310]);
    const pulley = Number(demo.read('Belts', record, 'Smallest pulley'));
    const around = sweep(demo, { range: { by: 'Smallest pulley', from: '', to: '' } }).answer.tried.values;
    expect([around[0], around.at(-1)]).toEqual([pulley / 2, pulley * 2]);
  });

  test('is tried evenly, with both ends', () => {
    expect(evenSteps({ from: 0, to: 1, step: 0.25 }, 9)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    const many = evenSteps({ from: 0, to: 1000, step: 1 }, 11);
    expect(many).toEqual([0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000]);
  });
});

describe('a verdict over two inputs', () => {
  const asked: MapAsked = {
    record,
    header: 'Verdict',
    across: { by: 'Skew', from: '0', to: '60' },
    upward: { by: 'Smallest pulley', from: '200', to: '500' },
  };

  test('is what the book says with both entered, and names the checks', () => {
    const { answer } = finished(verdictMap(demo, asked));
    const picture = mapPicture(demo, answer);
    expect(new Set(picture.parts.map(({ verdict }) => verdict)).size).toBeGreaterThan(1);
    const entered = new Workbook(demoBook('metric'));
    for (const [x, y] of [
      [0, 0],
      [10, 3],
      [30, 12],
      [40, 24],
      [3, 24],
    ] as const) {
      entered.edit([
        ...new Belt(entered, record).editsAt(Number(answer.across.values[x])),
        {
          sheet: 'Belts',
          record,
          column: entered.column('Belts', 'Smallest pulley'),
          content: Number(answer.upward.values[y]),
        },
      ]);
      const verdict = entered.read('Belts', record, 'Verdict');
      expect(answer.cells[y]?.[x]?.verdict).toBe(verdict);
      const part = picture.parts.find((one) => one.x === x && one.y === y);
      expect(part?.says).toContain(`: ${String(verdict)}`);
      entered.undo();
    }
    expect(picture.table.rows[0]?.[0]).toBe(answer.upward.words.at(-1));
  });

  test('asks for two different inputs', () => {
    expect(() => finished(verdictMap(demo, { ...asked, upward: asked.across }))).toThrow(/two different inputs/);
  });
});

describe('draws', () => {
  test('of a belt are those of the simulation, and its chance to fail their share', () => {
    const book = new Workbook(emptyBook('metric'));
    expect(finished(failingChances(book)).answer.chances).toEqual([]);
    book.destroy();
    const figures = drawnFigures(demo, record, 'Working tension');
    expect(figures).toHaveLength(figureDraws);
    expect(figures).toEqual([...figures].sort((one, other) => one - other));
    const { failing } = simulated(demo, {
      records: [record],
      columns: [],
      draws: 100,
      seed: 1,
      tolerances: proposedTolerance,
    });
    const one = new Workbook({
      ...demo.state,
      sheets: demo.state.sheets.map((sheet) =>
        sheet.name === 'Belts' ? { ...sheet, rows: sheet.rows.slice(record, record + 1) } : sheet,
      ),
    });
    const found = finished(failingChances(one)).answer;
    expect(found.draws).toBe(drawsFor(1));
    expect(found.chances[0]?.[1]).toBeCloseTo(failing.reduce((sum, count) => sum + count, 0) / 100, 0);
  });

  test('are fewer of each belt the more belts there are', () => {
    expect([1, 36, 100, 1000, 0].map(drawsFor)).toEqual([500, 500, 200, 100, 500]);
  });
});
