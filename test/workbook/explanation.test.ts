import { describe, expect, test } from 'vitest';
import { demoBook } from '../../src/workbook/demo.ts';
import { type Explanation, explained } from '../../src/workbook/explanation.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';

const book = new Workbook(demoBook('metric'));
const tree = (header: BeltHeader, record = 0): Explanation =>
  explained(book, { sheet: 'Belts', record, column: book.column('Belts', header) });
const all = (item: Explanation): Explanation[] => [item, ...item.parts.flatMap(all)];
const routes = (route: string): number =>
  book.sheet('Belts').rows.findIndex((_, record) => book.read('Belts', record, 'Tension from') === route);

describe('the tree of a value', () => {
  test('ends at what was entered, at named values and at empty cells', () => {
    for (const [column, { header, computed }] of book.columns('Belts').entries()) {
      if (!computed) continue;
      for (const leaf of all(explained(book, { sheet: 'Belts', record: 0, column })).filter(
        ({ parts, repeated }) => parts.length === 0 && !repeated,
      )) {
        expect(['entered', 'named value', 'empty'], `${header}: ${leaf.cell}`).toContain(leaf.origin);
      }
    }
  });

  test('follows only the route that the tension took', () => {
    const headers = (route: string): string[] =>
      all(tree('Working tension', routes(route))).map(({ header }) => header);
    expect(headers('entered')).toContain('Known tension');
    expect(headers('entered')).not.toContain('Effective tension');
    expect(headers('power')).toEqual(
      expect.arrayContaining(['Effective tension by power', 'Power', 'Speed', 'DriveEfficiency']),
    );
    expect(headers('power')).not.toContain('CarryIdlers');
    expect(headers('resistances')).toEqual(
      expect.arrayContaining(['CarryIdlers', 'RollingFriction', 'Lift', 'StartFactor']),
    );
  });

  test('names the functions with their sources, and the mark of a named value', () => {
    const items = all(tree('Working tension', routes('resistances')));
    const sources = items.flatMap((item) => item.sources);
    expect(sources.some((source) => source.startsWith('WRAPFACTOR: ') && source.includes('Euler'))).toBe(true);
    expect(items.find(({ header }) => header === 'RollingFriction')?.sources.join()).toContain('from memory');
  });

  test('an entered value has no source but its entry, whatever the declaration says of its column', () => {
    const items = all(tree('Cut length'));
    const skew = items.find(({ header }) => header === 'Skew');
    expect(skew?.origin).toBe('entered');
    expect(skew?.sources).toEqual([]);
  });

  test('shows the cell of the plate series that was looked up', () => {
    const cells = all(tree('Plates')).filter(({ place }) => place.sheet === 'Plate series');
    const series = String(book.read('Belts', 0, 'Plate series'));
    expect(cells.map(({ header }) => header)).toEqual(expect.arrayContaining(['Pitch', 'Plate width', 'Minimum edge']));
    for (const { place, value } of cells)
      expect(book.read('Plate series', place.record, 'Series')).toBe(value === series ? value : series);
  });

  test("follows a user's formula and says so", () => {
    const edited = new Workbook(demoBook('metric'));
    const place = { sheet: 'Belts', record: 1, column: edited.column('Belts', 'Skive depth') };
    edited.edit([{ ...place, content: '=F3*TightMargin' }]);
    const item = explained(edited, place);
    expect(item.origin).toBe('your formula');
    expect(item.parts.map(({ header }) => header)).toEqual(['Thickness', 'TightMargin']);
  });
});
