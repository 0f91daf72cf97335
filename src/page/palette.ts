/**
 * The page's colours, each once: a pair for the light and the dark scheme. They become CSS custom properties, the
 * grid's theme and the drawing's strokes. A colour that is new is named in test/page/palette.test.ts by what it is read
 * on, where the contrast of each is computed.
 *
 * For tests: both schemes are measured.
 */
export type Scheme = 'light' | 'dark';

type Pair = readonly [light: string, dark: string];

const pairs = {
  /** Behind everything. */
  ground: ['#ebe9e3', '#16191b'],
  /** Panels, bars and input cells. */
  surface: ['#fbfaf7', '#1e2326'],
  /** Computed cells and headers. */
  shade: ['#f0efe9', '#262c2f'],
  /** Headers of the selected row and column, pressed buttons. */
  strong: ['#dcdad1', '#394145'],
  line: ['#cfccc2', '#3d4549'],
  /** Borders of controls, which must be seen. */
  edge: ['#86827a', '#7f898d'],
  ink: ['#20262a', '#e7e5df'],
  soft: ['#555b5e', '#aeb4b3'],
  accent: ['#1f5a66', '#86c3cd'],
  onAccent: ['#ffffff', '#10201f'],
  selected: ['#d8e6e6', '#22444b'],
  fits: ['#2a6135', '#8fca98'],
  tight: ['#7a4f00', '#e3b566'],
  fails: ['#a3262a', '#f59a92'],
  unknown: ['#574b7d', '#bcb0e6'],
  /** The belt, the plates and the lines of the drawing. */
  belt: ['#dddcd6', '#3a3f42'],
  plate: ['#b9c9c7', '#4c666a'],
  /** What a formula refers to, in the order of its text. */
  referred1: ['#1d4fa3', '#8ab4f8'],
  referred2: ['#8a2a7c', '#e79bdc'],
  referred3: ['#2f6114', '#9fd07f'],
  referred4: ['#8f4300', '#f0ae6d'],
} as const satisfies Record<string, Pair>;

/** For tests: contrast is measured. */
export type Colour = keyof typeof pairs;

/** For tests: contrast is measured. */
export const colour = (name: Colour, scheme: Scheme): string => pairs[name][scheme === 'light' ? 0 : 1];

/** Both values, light first, as the grid's theme takes them. */
export const bothSchemes = (name: Colour): [string, string] => [...pairs[name]];

/** The custom properties of both schemes: `data-scheme` on the root decides, else the system does. */
export function paletteStyle(): string {
  const names = Object.keys(pairs) as Colour[];
  const properties = (scheme: Scheme): string => names.map((name) => `--${name}:${colour(name, scheme)};`).join('');
  return [
    `:root{color-scheme:light;${properties('light')}}`,
    `:root[data-scheme=dark]{color-scheme:dark;${properties('dark')}}`,
    `@media print{:root:root{color-scheme:light;${properties('light')}}}`,
  ].join('\n');
}
