import { describe, expect, it } from 'vitest';
import { reportLines } from '../../src/xlsx/report-text.ts';
import { date, formula } from './grid.ts';
import { imported, list } from './imported.ts';

describe('the report of an import', () => {
  const { report } = imported(
    [
      list(
        [
          ['Conveyor register'],
          ['Belt', 'Belt width [in]', 'Thk', 'Pulley dia', 'Skew', 'Installed', 'Plates', 'Use'],
          ['C1', 36, '≈ 1/2', 20, 90, '14.05.2023', 20, formula('D3/B3', 0.5)],
          ['C2', '42 in', '5/8', 24, '45-50', date(45000), 22, formula('Rates!A1', 3)],
          ['Total', 78],
        ],
        { name: 'Plant' },
      ),
      list([['Name', 'Phone'], ['A', '1']], { name: 'Contacts' }),
      list([['x']], { name: 'Old', hidden: true }),
    ],
    { map: [{ header: 'Plates', to: 'ignore' }], fill: [{ column: 'Skive', value: '0' }] },
  );
  const text = reportLines(report).join('\n');

  it.each([
    ['the units and why', /Units of the book: US customary \(most columns of the list are US customary\)/],
    ['each list, where it was found', /Sheet "Plant": 2 records of Belts, header in row 2/],
    ['each column, what it is taken for, in which unit, how sure', /B "Belt width \[in\]" is Width \(unit in; 95 % sure: also called "belt width"\)/],
    ['columns that stay the user\'s own, and what they might be', /D "Pulley dia" is kept as your own column, 2 cells \(no column of ours is called so; it might be Smallest pulley or Head pulley or Tail pulley\)/],
    ['columns that are left out', /G "Plates" is left out, as chosen \(2 cells\)/],
    ['formulas kept and not', /H "Use" is kept as your own column.*1 formula kept; of 1 formula only the value \(H4: it refers to Rates!A1\)/],
    ['rows that are no records', /row 1 is no record but a title: Conveyor register[^]*row 5 is no record but a total: Total \| 78/],
    ['sheets that are kept', /Sheet "Contacts": kept as your own sheet/],
    ['hidden sheets', /Sheet "Old" \(hidden in the file\): kept as your own sheet/],
    ['what was not understood: sheet, column, cell, text, why, what is allowed', /Not understood[^]*Plant, Skew, E4 "45-50": a range is given, not one value\. Allowed: a number/],
    ['why a bare 90 is no skew', /Plant, Skew, E3 "90": Skew counts from the square line/],
    ['what was noticed', /Noticed:\n {2}Plant, Thickness, C3 "≈ 1\/2": the list says approximately/],
    ['what was assumed', /Assumed:[^]*Thk: no unit is named; "in" is assumed[^]*Plate series: the file has none[^]*Skive: 2 blank cells filled with 0, as chosen/],
  ])('names %s', (_, pattern) => expect(text).toMatch(pattern));

  it('counts cells with the same reason beyond the first few', () => {
    const many = imported(list([['Belt', 'Width (mm)', 'Lift (m)'], ...Array.from({ length: 20 }, (_, index) => [`C${index}`, 800, index < 12 ? 'steep' : 1])]));
    expect(reportLines(many.report).filter((line) => line.includes('steep'))).toEqual([expect.stringMatching(/C2 "steep", C3 "steep", C4 "steep", C5 "steep", C6 "steep" and 7 more: it does not begin with a number/)]);
  });
});
