import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import DxfParser, {
  type ICircleEntity,
  type IDxf,
  type ILineEntity,
  type ILwpolylineEntity,
  type ITextEntity,
} from 'dxf-parser';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isRefused, jointDxf, type JointFileOptions } from '../../src/drawing/joint-dxf.ts';
import { holeTable } from '../../src/drawing/hole-table.ts';
import { type JointGeometry } from '../../src/drawing/joint.ts';
import { jointGeometry } from '../../src/drawing/joint-geometry.ts';
import { rowsOf } from '../evaluation.ts';
import { drawn, joints, large, near, small, strips, sound } from './joints.ts';

const mm = { ...sound, unit: 'mm', belt: 'Q1' } as const satisfies JointFileOptions;

async function written(joint: JointGeometry, options: JointFileOptions = mm): Promise<string> {
  const text = await jointDxf(joint, options);
  if (isRefused(text)) throw new Error(text.refused);
  return text;
}

function read(text: string): IDxf {
  const file = new DxfParser().parseSync(text);
  if (file === null) throw new Error('the file could not be read');
  return file;
}

const onLayer = <Entity>({ entities }: IDxf, layer: string): Entity[] =>
  entities.filter((entity) => entity.layer === layer) as Entity[];

describe('the DXF', () => {
  it('has its holes where HOLESPOTS and the hole table have them, read back by another library', async () => {
    await fc.assert(
      fc.asyncProperty(joints, async ({ unit, inputs }) => {
        const {
          width,
          skew,
          hand,
          series: { pitch, plate, leastEdge, holeBack, holeGap, perSide, punch },
        } = inputs;
        const joint = drawn(inputs);
        fc.pre(joint.patternFaults.length === 0);
        const file = read(await written(joint, { ...sound, unit, belt: 'Q1' }));
        const circles = onLayer<ICircleEntity>(file, 'holes');
        const rows = rowsOf('HOLESPOTS', [width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide]);
        const table = holeTable(joint, unit);
        expect(circles).toHaveLength(rows.length);
        expect(circles.every(({ type }) => type === 'CIRCLE')).toBe(true);
        const wrong = circles.filter(({ center: { x, y }, radius }, index) => {
          const [along = Number.NaN, across = Number.NaN] = rows[index] ?? [];
          const listed = table[index];
          const fromEdge = hand === 'left' ? width - y : y;
          return !(
            near(x, along) &&
            near(fromEdge, across) &&
            near(x, listed?.along.exact) &&
            near(fromEdge, listed?.across.exact) &&
            radius === punch / 2
          );
        });
        expect(wrong).toEqual([]);
        // Not one digit is lost.
        expect(circles.map(({ center: { x, y } }) => ({ along: x, across: y }))).toEqual(
          joint.holes.map(({ at }) => at),
        );
      }),
      { numRuns: 40 },
    );
  });

  it('has cut, edges and plates at their lengths on their layers, and the unit it says', async () => {
    const joint = drawn({ width: 650, skew: 45, hand: 'left', series: large, strips });
    const file = read(await written(joint));
    expect(file.header['$INSUNITS']).toBe(4);
    expect(file.header['$LASTSAVEDBY']).toBe('Skewbook');
    expect(Object.keys(file.tables.layer.layers).toSorted()).toEqual(['0', 'belt', 'cut', 'holes', 'plates', 'text']);
    expect([...new Set(file.entities.map(({ layer }) => layer))].toSorted()).toEqual([
      'belt',
      'cut',
      'holes',
      'plates',
      'text',
    ]);
    const cuts = onLayer<ILineEntity>(file, 'cut');
    expect(cuts.map(({ vertices }) => vertices.map(({ x, y }) => [x, y]))).toEqual([
      [
        [0, 650],
        [joint.offset, 0],
      ],
    ]);
    const plates = onLayer<ILwpolylineEntity>(file, 'plates');
    expect(plates.map(({ vertices }) => vertices.map(({ x, y }) => ({ along: x, across: y })))).toEqual(
      joint.plates.map(({ corners }) => corners),
    );
    expect(plates.every(({ shape }) => shape)).toBe(true);
    const edges = onLayer<ILineEntity>(file, 'belt').map(({ vertices: [from, to] }) => [
      from?.y,
      to?.y,
      Number(Math.abs((to?.x ?? 0) - (from?.x ?? 0)).toFixed(9)),
    ]);
    expect(edges).toEqual([
      [650, 650, 650],
      [0, 0, 1300],
      [650, 650, 1300],
      [0, 0, 650],
    ]);
    const words = onLayer<ITextEntity>(file, 'text').flatMap(({ type, text }) => (type === 'TEXT' ? [text] : []));
    expect(words).toEqual(
      expect.arrayContaining([
        'cut length: 919 mm',
        'punch size (hole diameter): 11.8 mm',
        expect.stringMatching(/^Joint of belt Q1, 1:1 in mm.*left-hand skew$/),
      ]),
    );
  });

  it('warns of a joint that does not fit and of invented figures, and of nothing else', async () => {
    const joint = drawn({ width: 650, skew: 45, series: small });
    const words = async (options: Partial<JointFileOptions>): Promise<string> =>
      onLayer<ITextEntity>(read(await written(joint, { ...mm, ...options })), 'text')
        .flatMap(({ type, text }) => (type === 'TEXT' ? [text] : []))
        .join('\n');
    expect(await words({ worst: 'fails', invented: true })).toMatch(
      /^CHECKS: FAILS\. DO NOT USE UNTIL THE PLANNER HAS RELEASED IT\.\nINVENTED FIGURES: NOT FOR REAL WORK.\nJoint of/,
    );
    expect(await words({ worst: 'not known' })).toMatch(/^CHECKS: NOT KNOWN\. DO NOT USE/);
    expect(await words({ worst: 'tight' })).toMatch(/^CHECKS: TIGHT\./);
    const sure = await words({});
    expect(sure).not.toMatch(/checks|invented/i);
    expect(sure).toContain("Check against the plate supplier's template before you drill. Do not scale");
  });

  it('declares inches where the book has them', async () => {
    const inches = { pitch: 2.8, plate: 2.5, leastEdge: 0.8, holeBack: 1.3, holeGap: 1.1, perSide: 2, punch: 0.5 };
    expect(
      read(await written(drawn({ width: 36, skew: 22, series: inches }), { ...sound, unit: 'in', belt: 'Q1' })).header[
        '$INSUNITS'
      ],
    ).toBe(1);
  });

  it('gives the same text for the same joint, whatever was written before', async () => {
    const joint = drawn({ width: 650, skew: 45, series: small });
    const first = await written(joint);
    await written(drawn({ width: 1200, skew: 0, series: large }));
    const [again, atOnce] = await Promise.all([written(joint), written(joint)]);
    expect(again).toBe(first);
    expect(atOnce).toBe(first);
  });

  it('lets no name of a belt break the file', async () => {
    const file = read(
      await written(drawn({ width: 650, skew: 45, series: small }), {
        ...sound,
        unit: 'mm',
        belt: 'Q1\n0\nEOF\r\n%%c ü',
      }),
    );
    expect(onLayer<ITextEntity>(file, 'text').find(({ type }) => type === 'TEXT')?.text).toContain('Q1 0 EOF  % %c ü');
    expect(onLayer<ICircleEntity>(file, 'holes').length).toBeGreaterThan(0);
  });

  it('refuses what would mislead whoever cuts by it, with the reason', async () => {
    const refusal = async (joint: JointGeometry | string, options: JointFileOptions = mm): Promise<string> => {
      const outcome = await jointDxf(joint, options);
      return isRefused(outcome) ? outcome.refused : 'written';
    };
    expect(await refusal(jointGeometry({ width: 650, skew: 61 }))).toMatch(
      /cannot be drawn: skew must be from 0 to 60; 61 was given/,
    );
    expect(await refusal(drawn({ width: 650, skew: 45 }))).toMatch(/no plate series/);
    expect(await refusal(drawn({ width: 30, skew: 0, series: large }))).toMatch(
      /No plates are drawn: plate must fit on the cut/,
    );
    expect(await refusal(drawn({ width: 650, skew: 0, series: { ...large, holeGap: 0 } }))).toMatch(
      /No holes are drawn/,
    );
    expect(await refusal(drawn({ width: 400, skew: 60, series: large }))).toMatch(
      /2 holes lie on or beyond the belt's edge.*cut alone/,
    );
    const { punch, ...unpunched } = large;
    expect(punch).toBe(11.8);
    expect(await refusal(drawn({ width: 650, skew: 45, series: unpunched }))).toMatch(
      /no diameter: enter the plate series' punch size/,
    );
    expect(await refusal(drawn({ width: 650, skew: 45, series: small, strips: { ...strips, overhang: -1 } }))).toBe(
      'written',
    );
    const alone = read(await written(drawn({ width: 30, skew: 0, series: large }), { ...mm, cutOnly: true }));
    expect([...new Set(alone.entities.map(({ layer }) => layer))].toSorted()).toEqual(['belt', 'cut', 'text']);
  });

  it('opens in another drawing program', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'skewbook-dxf-'));
    try {
      const file = join(folder, 'joint.dxf');
      writeFileSync(file, await written(drawn({ width: 650, skew: 45, series: small })));
      execFileSync(
        'soffice',
        [
          `-env:UserInstallation=${pathToFileURL(join(folder, 'profile')).href}`,
          '--headless',
          '--convert-to',
          'pdf',
          '--outdir',
          folder,
          file,
        ],
        { stdio: 'pipe', timeout: 90_000 },
      );
      expect(execFileSync('pdftotext', [join(folder, 'joint.pdf'), '-'], { encoding: 'utf8' })).toContain(
        'cut length: 919 mm',
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  }, 100_000);
});
