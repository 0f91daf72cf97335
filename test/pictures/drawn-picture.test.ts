import { describe, expect, test } from 'vitest';
import { beltDots } from '../../src/pictures/belt-dots.ts';
import { beltColumnNamed } from '../../src/pictures/belt-figures.ts';
import { inFixedColours, printed } from '../../src/pictures/drawing/colours.ts';
import { drawnPicture, pictureFile } from '../../src/pictures/drawing/drawn-picture.ts';
import { expectedFailing, verdictsByArea } from '../../src/pictures/fleet-areas.ts';
import { jointsDue, spendDue } from '../../src/pictures/fleet-due.ts';
import { beltHistogram, drawnHistogram, pulleyUsed, ratingUsed } from '../../src/pictures/histogram.ts';
import type { Picture } from '../../src/pictures/picture.ts';
import { sweptPicture } from '../../src/pictures/swept-figure.ts';
import { mapPicture } from '../../src/pictures/verdict-map.ts';
import { type Colour, colour } from '../../src/page/palette.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Pictures as SVG: every part once, with its words; nothing that is no number; colours of the page. */

const size = { width: 420, height: 250 };

function pictures(book: Workbook): Picture[] {
  const column = (header: string) => {
    const found = beltColumnNamed(book, header);
    if (found === undefined) throw new Error(`there is no column ${header}`);
    return found;
  };
  const chances = new Map(book.sheet('Belts').rows.map((_, record) => [record, 0.5] as const));
  return [
    verdictsByArea(book),
    jointsDue(book),
    spendDue(book),
    ratingUsed(book),
    pulleyUsed(book),
    expectedFailing(book, chances, 100),
    beltHistogram(book, column('Width')),
    beltHistogram(book, column('Due')),
    drawnHistogram(book, column('Working tension'), { name: 'B', record: 0 }, { figures: [1, 2, 3], draws: 4 }),
    beltDots(book, column('Width'), column('Due')),
    beltDots(book, column('Area'), column('Verdict')),
  ];
}

const tried = (name: string, values: readonly (number | string)[], chosen: boolean) => ({
  name,
  label: name,
  kind: 'angle' as const,
  values,
  chosen,
  words: values.map(String),
  present: values[1],
});

/** Pictures of what would be, from made up figures. */
const supposed = (book: Workbook): Picture[] => [
  ...[true, false].map((chosen) =>
    sweptPicture(book, {
      asked: { record: 0, header: 'Cut length', range: { by: 'Skew', from: '', to: '' }, variants: [] },
      tried: tried('Skew', chosen ? ['a', 'b', 'c'] : [0, 10, 20], chosen),
      lines: [
        { name: 'book as it is', figures: [1, null, 3] },
        { name: 'a <variant> & more', figures: [2, 2, 2] },
      ],
      refused: [],
    }),
  ),
  mapPicture(book, {
    asked: {
      record: 0,
      header: 'Verdict',
      across: { by: 'Skew', from: '', to: '' },
      upward: { by: 'Width', from: '', to: '' },
    },
    across: tried('Skew', [0, 10], false),
    upward: tried('Width', [1, 2], false),
    cells: [
      [
        { verdict: 'fits', because: [] },
        { verdict: 'fails', because: ['pulley'] },
      ],
      [
        { verdict: 'tight', because: ['edge'] },
        { verdict: 'not known', because: [] },
      ],
    ],
  }),
];

function expectWhole(picture: Picture, svg: string): void {
  const parts = [...svg.matchAll(/data-part="(\d+)"/g)].map(([, place]) => Number(place));
  expect(
    parts.toSorted((one, other) => one - other),
    picture.title,
  ).toEqual([...picture.parts.keys()]);
  expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  expect([...svg.matchAll(/tabindex="0"/g)]).toHaveLength(picture.parts.length === 0 ? 0 : 1);
  expect([...svg.matchAll(/role="button"/g)]).toHaveLength(picture.parts.length);
}

describe('pictures', () => {
  test.each(['demo', 'empty', 'one belt'] as const)('of a book are whole: %s', (which) => {
    const state = which === 'empty' ? emptyBook('us') : demoBook('metric');
    const book = new Workbook(
      which === 'one belt'
        ? {
            ...state,
            sheets: state.sheets.map((sheet) =>
              sheet.name === 'Belts' ? { ...sheet, rows: sheet.rows.slice(0, 1) } : sheet,
            ),
          }
        : state,
    );
    for (const picture of [...pictures(book), ...(which === 'empty' ? [] : supposed(book))]) {
      expectWhole(picture, drawnPicture(picture, size));
      const file = pictureFile(picture, size, 'Tern Quay');
      expect(file).not.toContain('var(');
      expect(file).not.toMatch(/<(variant)>|data-part|tabindex/);
      expect(file.match(/<svg/g)).toHaveLength(2);
    }
  });

  test('have the colours of the page', () => {
    for (const [name, value] of Object.entries(printed)) expect(value, name).toBe(colour(name as Colour, 'light'));
    expect(inFixedColours('<g fill="var(--fits,#2a6135)"/>')).toBe('<g fill="#2a6135"/>');
  });
});
