import type { Tone } from '../picture.ts';

/**
 * Colours of pictures: the page's custom properties where they are set, otherwise the same as the page's light ones, so
 * that one text serves on screen, on paper and in a file. test/pictures/drawn-picture.test.ts holds them to the page's.
 *
 * For tests: they are compared.
 */
export const printed = {
  surface: '#fbfaf7',
  line: '#cfccc2',
  edge: '#86827a',
  ink: '#20262a',
  soft: '#555b5e',
  accent: '#1f5a66',
  fits: '#2a6135',
  tight: '#7a4f00',
  fails: '#a3262a',
  unknown: '#574b7d',
} as const;

type Ink = keyof typeof printed;

export const ink = (name: Ink): string => `var(--${name},${printed[name]})`;

const inks: Readonly<Record<Tone, Ink>> = {
  fits: 'fits',
  tight: 'tight',
  fails: 'fails',
  'not known': 'unknown',
  plain: 'accent',
  over: 'fails',
};

export const toneInk = (tone: Tone): string => ink(inks[tone]);

/** Lines, each told from the others by its dashes too. */
export const lineLooks: readonly { readonly ink: Ink; readonly dash: string | undefined }[] = [
  { ink: 'accent', dash: undefined },
  { ink: 'fails', dash: '6 3' },
  { ink: 'tight', dash: '2 3' },
  { ink: 'unknown', dash: '9 3 2 3' },
  { ink: 'fits', dash: '4 2 1 2 1 2' },
  { ink: 'ink', dash: '12 4' },
];

/** A picture's text with fixed colours, for programs that know no custom properties. */
export const inFixedColours = (svg: string): string => svg.replaceAll(/var\(--\w+,(#[0-9a-f]+)\)/g, '$1');
