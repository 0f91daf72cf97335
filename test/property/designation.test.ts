import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Refusal } from '../../src/formula/define.ts';
import { carcassCodes, type Designation, readDesignation } from '../../src/functions/designation.ts';
import { valueOf } from '../evaluation.ts';
import { designations } from './arguments.ts';

/** Reading a belt's designation: both styles, what is missing, and what can be read in two ways. */

const read: readonly (readonly [string, Designation])[] = [
  ['EP 400/3 4+2', { material: 'EP', strength: 400, plies: 3, topCover: 4, bottomCover: 2 }],
  ['1000 EP 630/4 6/2 Y', { width: 1000, material: 'EP', strength: 630, plies: 4, topCover: 6, bottomCover: 2 }],
  ['NN 500/4', { material: 'NN', strength: 500, plies: 4 }],
  ['ST 1000 6+4', { material: 'St', strength: 1000, topCover: 6, bottomCover: 4 }],
  ['EP400/3 4+2 M24', { material: 'EP', strength: 400, plies: 3, topCover: 4, bottomCover: 2 }],
  ['St1250 8:6', { material: 'St', strength: 1250, topCover: 8, bottomCover: 6 }],
  ['ep 250 / 2 3 + 1,5', { material: 'EP', strength: 250, plies: 2, topCover: 3, bottomCover: 1.5 }],
  [
    'Belt 800 mm EP-500/4, 5+2 mm, oil resistant',
    { width: 800, material: 'EP', strength: 500, plies: 4, topCover: 5, bottomCover: 2 },
  ],
  ['EP 400/3 (4+2)', { material: 'EP', strength: 400, plies: 3, topCover: 4, bottomCover: 2 }],
  ['EP 400 4.5/1.5', { material: 'EP', strength: 400, topCover: 4.5, bottomCover: 1.5 }],
  ['EP 400/3 4+2 9.8', { material: 'EP', strength: 400, plies: 3, topCover: 4, bottomCover: 2 }],
  ['EP 400/3 fire resistant', { material: 'EP', strength: 400, plies: 3 }],
  ['EP 400/3 ply 4+2', { material: 'EP', strength: 400, plies: 3 }],
  ['EP 400 12 mm', { material: 'EP', strength: 400 }],
  ['St 1250 8 6', { material: 'St', strength: 1250 }],
  ['3 EP 400/3 x 1200', { material: 'EP', strength: 400, plies: 3 }],
  ['2 St 1250 x 1000', { material: 'St', strength: 1250 }],
];

test.each(read)('%s', (text, parts) => {
  expect(readDesignation(text)).toEqual(parts);
});

const refused: readonly (readonly [string, RegExp])[] = [
  ['', /must hold B, P, NN/],
  ['EPDM 400/3', /must hold B, P, NN/],
  ['conveyor belt 10 mm', /must hold B, P, NN/],
  ['EP', /must give a strength from 50 to 10000 N\/mm after EP/],
  ['EP 3', /must give a strength/],
  ['St 1.000 6+4', /must give a strength/],
  ['EP 20000/5', /must give a strength/],
  ['3 x EP 125', /a strength per ply is not read/],
  ['EP 150x3 4+2', /a strength per ply is not read/],
  ['EP 150 × 3', /a strength per ply is not read/],
  ['NN150*4 4+2', /a strength per ply is not read/],
  ['4 EP 160 6+2', /a strength per ply is not read/],
  ['4| EP 160 x 4', /a strength per ply is not read/],
  ['4 plies EP 160', /a strength per ply is not read/],
  ['1000 2-ply EP 200 4+2', /a strength per ply is not read/],
  ['EP 160 4 ply', /plies behind a slash/],
  ['EP 160 4ply 6+2', /plies behind a slash/],
  ['EP 150 (3)', /plies behind a slash/],
  ['NN 630 4 6+2', /plies behind a slash/],
  ['EP 200 per ply /2', /plies behind a slash/],
  ['3-ply conveyor belt EP 630', /plies behind a slash/],
  ['EP 200/ply', /plies behind a slash/],
  ['EP 400/0 4+2', /at least one ply/],
  ['EP 400/3+2', /must separate the plies from the covers/],
  ['EP 400/3/4+2', /must separate the plies from the covers/],
  ['EP 400/3 60+2', /covers of at most 50 mm/],
  ['EP 400/3 or NN 500/4', /must name one carcass/],
  ['B 1000 EP 400/3', /must name one carcass/],
];

test.each(refused)('%s is refused', (text, message) => {
  expect(() => readDesignation(text)).toThrow(Refusal);
  expect(() => readDesignation(text)).toThrow(message);
});

describe('any designation', () => {
  const figures = (max: number) => fc.integer({ min: 0, max: max * 2 }).map((halves) => halves / 2);
  const parts = fc.record({
    width: fc.option(fc.integer({ min: 300, max: 3200 }), { nil: undefined }),
    material: fc.constantFrom(...carcassCodes),
    strength: fc.integer({ min: 50, max: 7500 }),
    plies: fc.option(fc.integer({ min: 1, max: 12 }), { nil: undefined }),
    covers: fc.option(fc.tuple(figures(25), figures(25)), { nil: undefined }),
    grade: fc.option(fc.constantFrom('Y', 'X', 'M24', 'K', 'heat resistant'), { nil: undefined }),
    style: fc.record({
      mark: fc.constantFrom('+', '/', ':', ' + '),
      gap: fc.constantFrom(' ', '', '-'),
      lower: fc.boolean(),
      comma: fc.boolean(),
      unit: fc.constantFrom('', ' mm', 'mm'),
    }),
  });

  test('comes back as the parts that it was written from', () => {
    fc.assert(
      fc.property(parts, ({ width, material, strength, plies, covers, grade, style }) => {
        const figure = (value: number): string => (style.comma ? String(value).replace('.', ',') : String(value));
        const words = [
          ...(width === undefined ? [] : [`${width}${style.unit}`]),
          `${style.lower ? material.toLowerCase() : material}${style.gap}${strength}` +
            `${plies === undefined ? '' : `/${plies}`}`,
          ...(covers === undefined ? [] : [covers.map(figure).join(style.mark)]),
          ...(grade === undefined ? [] : [grade]),
        ];
        expect(readDesignation(words.join(' '))).toEqual({
          material,
          strength,
          ...(width === undefined ? {} : { width }),
          ...(plies === undefined ? {} : { plies }),
          ...(covers === undefined ? {} : { topCover: covers[0], bottomCover: covers[1] }),
        });
      }),
    );
  });

  test('names the carcass that CARCASSMATERIAL finds, and each figure its own function', () => {
    let answered = 0;
    fc.assert(
      fc.property(designations, (text) => {
        const quoted = `"${text}"`;
        let designation: Designation | undefined;
        try {
          designation = readDesignation(text);
        } catch (error) {
          expect(error).toBeInstanceOf(Refusal);
        }
        if (designation === undefined) return;
        answered += 1;
        expect(valueOf(`=CARCASSMATERIAL(${quoted})`)).toBe(designation.material);
        expect(valueOf(`=BELTSTRENGTH(${quoted})`)).toBe(designation.strength);
        const named: readonly (readonly [string, number | undefined])[] = [
          ['BELTPLIES', designation.plies],
          ['TOPCOVER', designation.topCover],
          ['BOTTOMCOVER', designation.bottomCover],
        ];
        for (const [name, value] of named) {
          expect(valueOf(`=${name}(${quoted})`), `${name} of ${text}`).toEqual(
            value ?? expect.objectContaining({ code: '#N/A' }),
          );
        }
      }),
      { numRuns: 1500 },
    );
    expect(answered).toBeGreaterThan(30);
  });
});
