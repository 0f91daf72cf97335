import { describe, expect, it } from 'vitest';
import { type Colour, colour, type Scheme } from '../../src/page/palette.ts';

/**
 * Contrast of two colours. Source: WCAG 2.2, relative luminance and contrast ratio; 1.4.3 asks for 4.5:1, 1.4.11 for
 * 3:1.
 */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5]
    .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [low = 0, high = 0] = [luminance(one), luminance(other)].toSorted((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

const text = [
  'ink',
  'soft',
  'accent',
  'fits',
  'tight',
  'fails',
  'unknown',
  'referred1',
  'referred2',
  'referred3',
  'referred4',
] as const satisfies readonly Colour[];
const papers = ['surface', 'shade', 'ground'] as const satisfies readonly Colour[];

/** What is read on what: 4.5:1 at least. */
const readable: readonly (readonly [ink: Colour, paper: Colour])[] = [
  ...papers.flatMap((paper) => text.map((ink) => [ink, paper] as const)),
  ['ink', 'strong'],
  ['ink', 'selected'],
  ['soft', 'selected'],
  ['fits', 'selected'],
  ['tight', 'selected'],
  ['fails', 'selected'],
  ['unknown', 'selected'],
  ['onAccent', 'accent'],
  ['ink', 'belt'],
  ['ink', 'plate'],
];

/** What must be seen but is not read: 3:1 at least. */
const visible: readonly (readonly [mark: Colour, paper: Colour])[] = papers.flatMap((paper) => [
  ['edge', paper] as const,
  ['accent', paper] as const,
]);

const schemes: readonly Scheme[] = ['light', 'dark'];

const tooLow = (pairs: readonly (readonly [Colour, Colour])[], least: number): string[] =>
  schemes.flatMap((scheme) =>
    pairs.flatMap(([ink, paper]) => {
      const found = contrast(colour(ink, scheme), colour(paper, scheme));
      return found < least ? [`${ink} on ${paper}, ${scheme}: ${found.toFixed(2)}`] : [];
    }),
  );

describe('the palette', () => {
  it('measures contrast as WCAG does', () => {
    expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 6);
    expect(contrast('#777777', '#ffffff')).toBeCloseTo(4.48, 2);
  });

  it('can be read: 4.5:1 for every text on every ground it stands on', () => expect(tooLow(readable, 4.5)).toEqual([]));

  it('can be seen: 3:1 for borders of controls and marks', () => expect(tooLow(visible, 3)).toEqual([]));
});
