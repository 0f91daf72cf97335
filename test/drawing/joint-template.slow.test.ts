import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { isRefused } from '../../src/drawing/joint-dxf.ts';
import { jointTemplate, templatePapers, type TemplateOptions } from '../../src/drawing/joint-template.ts';
import { paperPdf } from '../../src/drawing/paper-pdf.ts';
import { type JointGeometry } from '../../src/drawing/joint.ts';
import { jointGeometry } from '../../src/drawing/joint-geometry.ts';
import { type PaperSize, paperSizes, templateTiling, type Tiling } from '../../src/drawing/template-tiles.ts';
import { drawn, inUnit, large, seriesIn, small, sound } from './joints.ts';
import { collisions } from './overlap.ts';
import { type PrintedPage, printedPages, type PrintedPoint } from './pdf-operators.ts';

const folder = mkdtempSync(join(tmpdir(), 'skewbook-template-'));
afterAll(() => rmSync(folder, { recursive: true }));

const roomy = { ...large, leastEdge: 60 };

async function template(joint: JointGeometry, options: TemplateOptions): Promise<Uint8Array> {
  const bytes = await jointTemplate(joint, options);
  if (isRefused(bytes)) throw new Error(bytes.refused);
  return bytes;
}

/** Middles of the crosses on a page: two lines of 6 mm that halve each other. */
function crosses({ segments }: PrintedPage): PrintedPoint[] {
  const arms = segments
    .filter(({ from, to }) => Math.abs(Math.hypot(to.x - from.x, to.y - from.y) - 6) < 1e-6)
    .map(({ from, to }) => ({ x: (from.x + to.x) / 2, y: (from.y + to.y) / 2, level: Math.abs(from.y - to.y) < 1e-6 }));
  return arms
    .filter(({ level }) => level)
    .flatMap(({ x, y }) =>
      arms.some((other) => !other.level && Math.hypot(other.x - x, other.y - y) < 1e-6) ? [{ x, y }] : [],
    );
}

/** Where each page of one row lies when its left crosses are laid on the right ones of the page before. */
function laidOut(pages: readonly PrintedPage[]): PrintedPoint[] {
  const places: PrintedPoint[] = [{ x: 0, y: 0 }];
  pages.slice(1).forEach((page, index) => {
    const before = pages[index];
    const place = places[index];
    if (before === undefined || place === undefined) throw new Error('no page before');
    const right = crosses(before)
      .filter(({ x }) => x > before.width / 2)
      .toSorted((one, other) => one.y - other.y);
    const left = crosses(page)
      .filter(({ x }) => x < page.width / 2)
      .toSorted((one, other) => one.y - other.y);
    const [upperRight, lowerRight] = right;
    const [upperLeft, lowerLeft] = left;
    if (upperRight === undefined || lowerRight === undefined || upperLeft === undefined || lowerLeft === undefined)
      throw new Error('crosses are missing');
    expect(lowerRight.y - upperRight.y).toBeCloseTo(lowerLeft.y - upperLeft.y, 6);
    places.push({ x: place.x + upperRight.x - upperLeft.x, y: place.y + upperRight.y - upperLeft.y });
  });
  return places;
}

/** Holes as they come to lie on the belt, those on two sheets once. */
function taped(pages: readonly PrintedPage[]): PrintedPoint[] {
  const places = laidOut(pages);
  const all = pages.flatMap(({ circles }, page) =>
    circles.map(({ x, y }) => ({ x: x + (places[page]?.x ?? 0), y: y + (places[page]?.y ?? 0) })),
  );
  return all.filter(
    (one, index) => !all.slice(0, index).some((other) => Math.hypot(other.x - one.x, other.y - one.y) < 0.5),
  );
}

describe.each([
  { unit: 'mm', paper: 'A4', hand: 'right', skew: 45 },
  { unit: 'in', paper: 'Letter', hand: 'left', skew: 22 },
  { unit: 'mm', paper: 'A3', hand: 'left', skew: 60 },
  { unit: 'in', paper: 'A4', hand: 'right', skew: 0 },
] as const)(
  'the template of a $hand-hand joint at $skew degrees, in $unit on $paper',
  ({ unit, paper, hand, skew }) => {
    const joint = drawn({ width: inUnit(unit, 800), skew, hand, series: seriesIn(unit, roomy) });
    const options = { worst: 'fails', invented: true, unit, belt: 'Q1', paper } as const;

    it('has every hole at its true distance from every other when the sheets are laid cross on cross', async () => {
      const pages = await printedPages(await template(joint, options));
      expect(pages.length).toBeGreaterThan(1);
      const holes = taped(pages);
      expect(holes).toHaveLength(joint.holes.length);
      // No one sheet has them all.
      expect(Math.max(...pages.map(({ circles }) => circles.length))).toBeLessThan(joint.holes.length);
      for (const { diameter } of pages.flatMap(({ circles }) => circles)) expect(diameter).toBeCloseTo(roomy.punch, 6);
      const scale = unit === 'mm' ? 1 : 25.4;
      // Which printed hole is which follows from nothing on the sheets: all distances are compared, the greatest across
      // all sheets included.
      const distances = (spots: readonly (readonly [number, number])[]): number[] =>
        spots
          .flatMap(([x, y], index) =>
            spots.slice(index + 1).map(([otherX, otherY]) => Math.hypot(x - otherX, y - otherY)),
          )
          .toSorted((one, other) => one - other);
      const [paperOnes, beltOnes] = [
        distances(holes.map(({ x, y }) => [x, y])),
        distances(joint.holes.map(({ at }) => [at.along * scale, at.across * scale])),
      ];
      expect(
        Math.max(...paperOnes.map((distance, index) => Math.abs(distance - (beltOnes[index] ?? Number.NaN)))),
      ).toBeLessThan(0.01);
      expect(Math.max(...paperOnes)).toBeGreaterThan(paperSizes[paper].width);
    });

    it('shows the belt from above, not from below', async () => {
      const pages = await printedPages(await template(joint, options));
      const [page] = pages;
      const circles = page?.circles.slice(0, 4) ?? [];
      // Three holes of the first plate go round the same way on paper as on the belt; y counts downwards on paper.
      const round = (spots: readonly (readonly [number, number])[]): number => {
        const [[x = 0, y = 0] = [], [x2 = 0, y2 = 0] = [], [x3 = 0, y3 = 0] = []] = spots;
        return Math.sign((x2 - x) * (y3 - y) - (x3 - x) * (y2 - y));
      };
      expect(round(circles.slice(0, 3).map(({ x, y }) => [x, -y]))).toBe(
        round(joint.holes.slice(0, 3).map(({ at }) => [at.along, at.across])),
      );
    });

    it('has a scale bar of its length on every sheet, says to measure it, and warns on every sheet', async () => {
      const bytes = await template(joint, options);
      const length = unit === 'mm' ? 100 : 101.6;
      const pages = await printedPages(bytes);
      for (const { segments, width, height } of pages) {
        expect(
          segments.filter(
            ({ from, to }) => Math.abs(Math.abs(to.x - from.x) - length) < 1e-6 && Math.abs(to.y - from.y) < 1e-6,
          ),
        ).toHaveLength(1);
        expect(width).toBeCloseTo(paperSizes[paper].width, 6);
        expect(height).toBeCloseTo(paperSizes[paper].height, 6);
      }
      const file = join(folder, `${unit}-${paper}.pdf`);
      writeFileSync(file, bytes);
      const texts = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
      expect(texts).toHaveLength(pages.length);
      texts.forEach((text, index) => {
        expect(text).toMatch(/Print at 100 %\. Measure the scale bar: it must be (100 mm|4 in) long/);
        expect(text).toContain('Checks: FAILS. Do not use until the planner has released it.');
        expect(text).toContain('Invented figures: not for real work.');
        expect(text).toContain("Check against the plate supplier's template before you drill.");
        expect(text).toContain(`Sheet A${index + 1}, ${index + 1} of ${texts.length}`);
      });
      expect(texts[0]).toContain('marked corner');
      expect(texts[0]).toContain('on A2');
      expect(texts[1]).toContain('on A1');
    });

    it('has no label over another or off the paper', () => {
      const papers = templatePapers(joint, options);
      if (isRefusedPapers(papers)) throw new Error(papers.refused);
      expect(
        papers.flatMap((one) => collisions({ ...one, marks: one.marks.filter(({ type }) => type === 'text') })),
      ).toEqual([]);
    });
  },
);

function tiled(joint: JointGeometry, paper: PaperSize): Tiling {
  const tiling = templateTiling(joint, 'mm', paper);
  if (typeof tiling === 'number') throw new Error(`${tiling} sheets`);
  return tiling;
}

const isRefusedPapers = (papers: ReturnType<typeof templatePapers>): papers is { readonly refused: string } =>
  'refused' in papers;

describe('the template', () => {
  it('is rastered at its size: the check line is 100 mm of dots long', async () => {
    const file = join(folder, 'rastered.pdf');
    writeFileSync(
      file,
      await template(drawn({ width: 400, skew: 0, series: small }), { ...sound, unit: 'mm', belt: 'Q1', paper: 'A4' }),
    );
    execFileSync('pdftoppm', ['-r', '300', '-gray', '-f', '1', '-l', '1', file, join(folder, 'page')]);
    const bytes = readFileSync(join(folder, 'page-1.pgm'));
    const [head = '', width = ''] = /^P5\s+(\d+)\s+\d+\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1')) ?? [];
    const row = Math.round(((210 - 15) / 25.4) * 300);
    const dots = [
      ...bytes.subarray(
        head.length + row * Number(width),
        head.length + row * Number(width) + Math.round((115 / 25.4) * 300),
      ),
    ];
    const [first, last] = [dots.findIndex((dot) => dot < 128), dots.findLastIndex((dot) => dot < 128)];
    expect(Math.abs(((last - first) / 300) * 25.4 - 100)).toBeLessThan(0.4);
  });

  it('prints every part of the joint on some sheet, and no sheet without a part', () => {
    const tall = drawn({ width: 800, skew: 60, series: { ...roomy, holeBack: 120, leastEdge: 300 } });
    const { tiles, rows, columns, matrix } = tiled(tall, 'A4');
    expect(rows).toBe(2);
    expect(tiles.length).toBeLessThan(rows * columns);
    for (const { at } of tall.holes) {
      const [x, y] = [
        matrix.a * at.along + matrix.c * at.across + matrix.e,
        matrix.b * at.along + matrix.d * at.across + matrix.f,
      ];
      expect(
        tiles.some(
          ({ shows }) => x > shows.x && x < shows.x + shows.width && y > shows.y && y < shows.y + shows.height,
        ),
      ).toBe(true);
    }
  });

  it('takes fewer sheets of larger paper', () => {
    const joint = drawn({ width: 1200, skew: 45, series: roomy });
    const counts = (['A4', 'Letter', 'A3'] as const).map((paper) => tiled(joint, paper).tiles.length);
    // The cut, the edges' lean and the margin around, 1833 mm, in steps of 265, 247.4 and 388 mm.
    expect(counts).toEqual([7, 8, 5]);
  });

  it('is the same bytes for the same joint', async () => {
    const joint = drawn({ width: 650, skew: 45, series: small });
    const options = { ...sound, unit: 'mm', belt: 'Q1', paper: 'A4' } as const;
    expect(Buffer.from(await template(joint, options)).equals(Buffer.from(await template(joint, options)))).toBe(true);
  });

  it('refuses what would mislead, and what no one would tape together', async () => {
    const refusal = async (joint: JointGeometry | string): Promise<string> => {
      const outcome = await jointTemplate(joint, { ...sound, unit: 'mm', belt: 'Q1', paper: 'A4' });
      return isRefused(outcome) ? outcome.refused : 'written';
    };
    expect(await refusal(drawn({ width: 30, skew: 0, series: large }))).toMatch(/No plates are drawn/);
    expect(await refusal(jointGeometry({ width: -1, skew: 0 }))).toMatch(/width must be more than 0/);
    expect(await refusal(drawn({ width: 60_000, skew: 0, series: roomy }))).toMatch(
      /takes \d+ sheets of A4; the maximum is 100/,
    );
  });

  it('writes names in letters that its fonts lack as question marks, not as an error', async () => {
    const bytes = await paperPdf(
      [
        {
          title: 'x',
          width: 100,
          height: 50,
          marks: [{ type: 'text', at: { x: 5, y: 10 }, text: 'Förderband 帯 Q1', size: 4, anchor: 'start', turned: 0 }],
        },
      ],
      'x',
    );
    const file = join(folder, 'letters.pdf');
    writeFileSync(file, bytes);
    expect(execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' })).toContain('Förderband ? Q1');
  });
});
