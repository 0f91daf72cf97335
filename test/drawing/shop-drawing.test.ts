import { PDFDocument, StandardFonts } from '@cantoo/pdf-lib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DrawnStanding } from '../../src/drawing/drawing-warnings.ts';
import { holeTable } from '../../src/drawing/hole-table.ts';
import { onPaper } from '../../src/drawing/paper.ts';
import { paperSvg } from '../../src/drawing/paper-svg.ts';
import { shopDrawing } from '../../src/drawing/shop-drawing.ts';
import { textWidth } from '../../src/drawing/text-width.ts';
import { rowsOf } from '../evaluation.ts';
import { drawn, inUnit, joints, large, near, seriesIn, small, strips, sound } from './joints.ts';
import { collisions, overlap, textsOf } from './overlap.ts';

const sizes = [
  { width: 277, height: 190 },
  { width: 259, height: 195 },
] as const;
const hands = ['right', 'left'] as const;
const grid = [300, 400, 500, 650, 800, 1000, 1200, 1600, 2000, 2400, 3200].flatMap((width, row) =>
  [0, 1, 5, 10, 15, 22, 30, 45, 52, 60].flatMap((skew, column) =>
    [small, large].map((series, index) => ({
      width,
      skew,
      series,
      hand: hands[(row + column + index) % 2] ?? 'right',
    })),
  ),
);

describe('the shop drawing', () => {
  it('warns in bold of a joint that does not fit and of invented figures', () => {
    const joint = drawn({ width: 650, skew: 45, series: small });
    const said = (standing: DrawnStanding): { readonly bold: string; readonly all: string } => {
      const texts = shopDrawing(joint, { ...standing, unit: 'mm', belt: 'Q1' }).marks.flatMap((mark) =>
        mark.type === 'text' ? [mark] : [],
      );
      const words = (marks: typeof texts): string => marks.map(({ text }) => text).join(' ');
      return { bold: words(texts.filter(({ bold }) => bold === true)), all: words(texts) };
    };
    expect(said({ worst: 'fails', invented: true }).bold).toContain(
      'Checks: FAILS. Do not use until the planner has released it. Invented figures: not for real work.',
    );
    expect(said({ worst: 'not known', invented: false }).bold).toContain('Checks: NOT KNOWN. Do not use');
    const sure = said(sound).all;
    expect(sure).not.toMatch(/checks:|invented/i);
    expect(sure).toContain("Do not scale: work to figured dimensions. Check against the plate supplier's template");
  });

  it.each(['mm', 'in'] as const)(
    'has no label over another, over a plate or off the paper: every common width and skew, in %s',
    (unit) => {
      const wrong = grid.flatMap(({ width, skew, hand, series }, index) => {
        const joint = drawn({
          width: inUnit(unit, width),
          skew,
          hand,
          series: seriesIn(unit, series),
          strips: { overhang: inUnit(unit, strips.overhang), below: 1, above: 2 },
        });
        return collisions(
          shopDrawing(joint, {
            unit,
            belt: 'Q1',
            series: 'invented',
            worst: 'fails',
            invented: true,
            ...sizes[Math.floor(index / 2) % 2],
          }),
        ).map((text) => `${width} mm, ${skew}°, ${hand}, pitch ${series.pitch}: ${text}`);
      });
      expect(wrong).toEqual([]);
    },
  );

  it('has none over another whatever the plates', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        expect(collisions(shopDrawing(drawn(inputs), { ...sound, unit, belt: 'Q1' }))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('finds texts that do lie over each other', () => {
    const square = [
      { x: 0, y: 0 },
      { x: 2, y: 0 },
      { x: 2, y: 2 },
      { x: 0, y: 2 },
    ];
    expect(
      overlap(
        square,
        square.map(({ x, y }) => ({ x: x + 1.9, y: y + 1.9 })),
      ),
    ).toBe(true);
    expect(
      overlap(
        square,
        square.map(({ x, y }) => ({ x: x + 2.1, y })),
      ),
    ).toBe(false);
    expect(
      overlap(square, [
        { x: 3, y: 0 },
        { x: 5, y: 2 },
        { x: 3, y: 4 },
        { x: 2.5, y: 3.5 },
      ]),
    ).toBe(false);
  });

  it('draws every hole at the spot of HOLESPOTS and of the hole table, unrounded, in both views', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        const {
          width,
          skew,
          hand,
          series: { pitch, plate, leastEdge, holeBack, holeGap, perSide, punch },
        } = inputs;
        const joint = drawn(inputs);
        const text = paperSvg(shopDrawing(joint, { ...sound, unit, belt: 'Q1' }));
        expect(text).not.toMatch(/NaN|undefined|Infinity/);
        const views = [...text.matchAll(/<g transform="matrix\(([^)]*)\)">([^]*?)<\/g>/g)].map(([, , inside = '']) =>
          [...inside.matchAll(/<circle class="hole"[^>]* cx="([^"]*)" cy="([^"]*)" r="([^"]*)"/g)].map((found) =>
            found.slice(1).map(Number),
          ),
        );
        const rows = rowsOf('HOLESPOTS', [width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide]);
        const table = holeTable(joint, unit);
        expect(views.map((circles) => circles.length)).toEqual([rows.length, Math.min(rows.length, 4 * perSide)]);
        for (const circles of views) {
          const wrong = circles.filter(([along = Number.NaN, across = Number.NaN, radius = Number.NaN], index) => {
            const [x, y] = rows[index] ?? [];
            const listed = table[index];
            const fromEdge = hand === 'left' ? width - across : across;
            return !(
              near(along, x) &&
              near(fromEdge, y) &&
              near(along, listed?.along.exact) &&
              near(fromEdge, listed?.across.exact) &&
              near(2 * radius, punch)
            );
          });
          expect(wrong).toEqual([]);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('turns its views and never mirrors them: what is on the left of the belt stays there', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        const text = paperSvg(shopDrawing(drawn(inputs), { ...sound, unit, belt: 'Q1' }));
        for (const [, numbers = ''] of text.matchAll(/matrix\(([^)]*)\)/g)) {
          const [a = 0, b = 0, c = 0, d = 0] = numbers.split(' ').map(Number);
          // On paper y counts downwards, so that a turn alone has a negative determinant; equal scales both ways,
          // square to each other.
          expect(a * d - b * c).toBeLessThan(0);
          expect(Math.hypot(a, b) / Math.hypot(c, d)).toBeCloseTo(1, 9);
          expect(Math.abs(a * c + b * d) / Math.abs(a * d - b * c)).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('writes tape measures in fractions of an inch, and says what stands in the way of plates', () => {
    const inches = textsOf(
      shopDrawing(
        drawn({ width: 36, skew: 45, series: seriesIn('in', large), strips: { overhang: 2.5, below: 1, above: 2 } }),
        { ...sound, unit: 'in', belt: 'Q1' },
      ),
    ).map(({ text }) => text);
    expect(inches).toEqual(
      expect.arrayContaining([
        'cut 50 15/16 in',
        'offset 36 in',
        'both diagonals 50 15/16 in',
        '3 strips, each 53 7/16 in',
        'pitch 2.795 in',
        'skew 45°',
      ]),
    );
    const bare = textsOf(
      shopDrawing(drawn({ width: 30, skew: 0, series: large }), { ...sound, unit: 'mm', belt: '' }),
    ).map(({ text }) => text);
    expect(bare.join(' ')).toMatch(/No plates are drawn: plate must fit on the cut/);
    expect(bare).toContain('Belt without a name: layout of the joint');
  });

  it('names both belt ends in the enlarged corner, the trailing one on its own side of the cut', () => {
    for (const hand of hands) {
      const joint = drawn({ width: 650, skew: 30, hand, series: small });
      const marks = shopDrawing(joint, { ...sound, unit: 'mm', belt: 'Q1' }).marks;
      const texts = marks.flatMap((mark) => (mark.type === 'text' ? [mark] : []));
      const of = (words: string): number => texts.filter(({ text }) => text === words).at(-1)?.at.y ?? Number.NaN;
      expect(texts.filter(({ text }) => text === 'trailing end')).toHaveLength(2);
      expect(Math.sign(of('leading end') - of('trailing end')), hand).toBe(hand === 'right' ? 1 : -1);
    }
  });

  it('writes beside a plate its number, as the tables do', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        const joint = drawn(inputs);
        const { marks } = shopDrawing(joint, { ...sound, unit, belt: 'Q1' });
        const plan = marks.find((mark) => mark.type === 'view');
        if (plan?.type !== 'view') throw new Error('no plan');
        const centres = joint.plates.map(({ number, centre }) => ({ number, at: onPaper(plan.matrix, centre) }));
        const numbers = marks.flatMap((mark) =>
          mark.type === 'text' && /^\d+$/.test(mark.text) && mark.anchor === 'middle' ? [mark] : [],
        );
        expect(numbers.length).toBeGreaterThan(0);
        for (const { text, at } of numbers) {
          const [nearestOne] = centres.toSorted(
            (one, other) =>
              Math.hypot(one.at.x - at.x, one.at.y - at.y) - Math.hypot(other.at.x - at.x, other.at.y - at.y),
          );
          expect(text).toBe(String(nearestOne?.number));
        }
      }),
      { numRuns: 40 },
    );
  });

  it('says a plan larger than the joint as such', () => {
    const kinds = (width: number): string[] =>
      textsOf(shopDrawing(drawn({ width, skew: 0, series: small }), { ...sound, unit: 'mm', belt: 'Q1' })).map(
        ({ text }) => text,
      );
    expect(kinds(650).find((text) => text.includes('plan'))).toMatch(/^square, plan 1 : \d/);
    expect(kinds(45).find((text) => text.includes('plan'))).toMatch(/^square, plan [\d.]+ : 1$/);
  });

  it('shows the edge of the belt where a plate as drawn reaches over it', () => {
    const text = paperSvg(
      shopDrawing(drawn({ width: 1200, skew: 60, series: small }), { ...sound, unit: 'mm', belt: 'Q1' }),
    );
    for (const [, inside = ''] of text.matchAll(/<g transform="matrix[^>]*>([^]*?)<\/g>/g)) {
      expect(inside.lastIndexOf('class="belt-edge"')).toBeGreaterThan(inside.lastIndexOf('class="plate"'));
    }
  });

  it('keeps a belt name from being read as markup, and a long one on the paper', () => {
    const paper = shopDrawing(drawn({ width: 650, skew: 45, series: small }), {
      unit: 'mm',
      ...sound,
      belt: `<script>"&${'long '.repeat(60)}`,
    });
    expect(paperSvg(paper)).toContain('Belt &lt;script&gt;&quot;&amp;long');
    expect(paperSvg(paper)).not.toContain('<script');
    expect(collisions(paper)).toEqual([]);
  });

  it('is black, white and grey', () => {
    const text = paperSvg(
      shopDrawing(drawn({ width: 650, skew: 45, series: small, strips }), { ...sound, unit: 'mm', belt: 'Q1' }),
    );
    const colours = [...text.matchAll(/#([0-9a-f]{6})/g)].map(([, colour = '']) => colour);
    expect(colours.length).toBeGreaterThan(100);
    expect(colours.filter((colour) => colour.slice(0, 2).repeat(3) !== colour)).toEqual([]);
  });

  it('knows how wide its letters are, as the face itself has them', async () => {
    const file = await PDFDocument.create();
    const [plain, bold] = [
      await file.embedFont(StandardFonts.Helvetica),
      await file.embedFont(StandardFonts.HelveticaBold),
    ];
    for (let code = 32; code < 127; code += 1) {
      const letter = String.fromCodePoint(code);
      expect(textWidth(letter, 1000), letter).toBeGreaterThanOrEqual(plain.widthOfTextAtSize(letter, 1000) - 1e-9);
      expect(textWidth(letter, 1000), letter).toBeLessThanOrEqual(plain.widthOfTextAtSize(letter, 1000) + 1e-9);
    }
    const words = 'Belt Q1: layout of the joint';
    expect(textWidth(words, 10, true)).toBeGreaterThanOrEqual(bold.widthOfTextAtSize(words, 10));
  });
});
