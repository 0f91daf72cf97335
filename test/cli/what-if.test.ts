import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import { typedChange } from '../../src/what-if/typed-change.ts';
import { withVariant } from '../../src/what-if/variants.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { demoFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(`${folder}/fleet.xlsx`);
  const book = new Workbook(demoBook('metric'));
  const steeper = typedChange(book, 'Q3:Skew=30');
  book.replace(withVariant(book, 'less skew', steeper), 'keep');
  writeFileSync(`${folder}/variants.xlsx`, (await exportedBook(book, findings(book))).bytes);
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('--set', () => {
  test('supposes values in the book that was read, says so, and leaves the list as it is', async () => {
    const before = readFileSync(`${folder}/fleet.xlsx`);
    const set = ['--set', 'q3:skew=30', '--set', 'TightMargin=12%'];
    const [explained, checked] = await Promise.all([
      ran(['explain', 'fleet.xlsx', 'Q3', 'Cut length', '--digits', '2', ...set], { folder }),
      ran(['check', 'fleet.xlsx', '--json', ...set], { folder }),
    ]);
    expect(explained).toMatchObject({ code: 0, err: '' });
    expect(explained.out).toContain('Supposed: Skew of Q3: 30° instead of 45°.\n');
    // 1000 mm of belt at 30 degrees: 1000/cos 30 = 1154.70.
    expect(explained.out).toMatch(/\nCut length = 1154\.7 mm {2}\[/);
    expect(JSON.parse(checked.out)).toMatchObject({
      supposed: [
        'Supposed: Skew of Q3: 30° instead of 45°.',
        expect.stringMatching(/^Supposed: TightMargin: 0\.12 instead of 0\.\d+\.$/),
      ],
    });
    expect(readFileSync(`${folder}/fleet.xlsx`).equals(before)).toBe(true);
  });

  test('refuses what the book does not have', async () => {
    const { code, out, err } = await ran(['check', 'fleet.xlsx', '--set', 'Q3:Skeww=30'], { folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('--set: The sheet Belts has no column "Skeww". Did you mean Skew');
  });
});

describe('formula --book', () => {
  test("answers by the book's named values, cells and columns", async () => {
    const { code, out, err } = await ran(['formula', '-', '--book', 'fleet.xlsx'], {
      folder,
      input: '=COUNTA(Belts[Belt])\n=TightMargin\n=Belts!A2\n=[Belt]\n',
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out.split('\n').slice(0, 3)).toEqual(['36', '0.05', 'Q1']);
  });
});

describe('solve', () => {
  const solve = (...args: readonly string[]): ReturnType<typeof ran> =>
    ran(['solve', 'fleet.xlsx', ...args], { folder });

  test('prints the values that meet a goal, for one belt and for all', async () => {
    const [one, all] = await Promise.all([
      solve('q3', 'Joint minimum pulley<=310', '--by', 'Skew', '--step', '1'),
      solve('*', 'Cut length<=1.2 m', '--by', 'skew'),
    ]);
    expect(one).toMatchObject({ code: 0, err: '' });
    expect(one.out).toMatch(
      /\n {2}Skew: Joint minimum pulley at most 310 mm with \d+° to 60° \(exactly from \d+\.\d+°\)/,
    );
    expect(all.code).toBe(1);
    expect(all.out.match(/: Cut length at most 1200 mm\? Now/g)).toHaveLength(36);
  });

  test('without an input tries every one, the nearest first', async () => {
    const { code, out, err } = await solve('Q3', 'Take-up check=fits');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/\n {2}Take-up travel: /);
  });

  test('refuses a goal or an input that there is not', async () => {
    expect((await solve('Q3', 'Verdict', '--by', 'Skeww')).err).toContain('Did you mean Skew');
    expect((await solve('Q3', 'Verdict', '--from', '3')).err).toContain('--from, --to and --step need --by');
  });
});

test('effects and chance print what a belt depends on and how sure it is', async () => {
  const [figure, check, chance] = await Promise.all([
    ran(['effects', 'fleet.xlsx', 'Q3', 'Cut length', '--tolerance', 'Skew=2'], { folder }),
    ran(['effects', 'fleet.xlsx', 'Q3', 'Pulley check'], { folder }),
    ran(
      [
        'chance',
        'fleet.xlsx',
        'Q3',
        '--column',
        'Cut length',
        '--draws',
        '200',
        '--correlation',
        'width~StripOverhang=0.5',
      ],
      { folder },
    ),
  ]);
  expect([figure.err, check.err, chance.err]).toEqual(['', '', '']);
  // The cut of 1000 mm at 43 and at 47 degrees, and 45 degrees in radians times their tangent.
  expect(figure.out).toMatch(/\nSkew +45° +43° to 47° +1367\.3 mm to 1466\.3 mm +\+0\.79 %\n/);
  expect(check.out).toMatch(/\nSmallest pulley +500 mm +311\.0625 mm +tight +\d/);
  expect(chance.out).toMatch(/^Belt Q3 passes in /);
  expect(chance.out).toMatch(/\n {2}Cut length: 13\d\d(?:\.\d)? mm to 14\d\d(?:\.\d)? mm in 90 of 100/);
});

describe('variants', () => {
  test('kept in a book are compared, written as differences, and supposed by name', async () => {
    const [compared, explained] = await Promise.all([
      ran(['variants', 'variants.xlsx', 'differences.xlsx'], { folder }),
      ran(['explain', 'variants.xlsx', 'Q3', 'Cut length', '--variant', 'LESS skew'], { folder }),
    ]);
    expect([compared.err, explained.err]).toEqual(['', '']);
    expect(compared.out).toMatch(/^less skew: Q3:Skew=30\.\n {2}Belts that differ: Q3\.\n/);
    expect(compared.out).toMatch(/\nWrote differences\.xlsx\.\n$/);
    const written = readBook(readFileSync(`${folder}/differences.xlsx`));
    expect(written.sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Variants', 'Differences']));
    expect(explained.out).toMatch(/^Supposed: variant less skew\.\nCut length = 1154\.7/);
  });

  test('that a book does not have are told with what to enter', async () => {
    const { code, err } = await ran(['variants', 'fleet.xlsx'], { folder });
    expect(code).toBe(2);
    expect(err).toContain('The book has no variants. Enter them in a sheet Variants');
  });
});

describe('picture', () => {
  test('writes what was asked as a drawing, and says what it shows', async () => {
    const [sweep, refused] = await Promise.all([
      ran(
        [
          'picture',
          'variants.xlsx',
          'sweep',
          'Cut length',
          'sweep.svg',
          '--belt',
          'q3',
          '--by',
          'Width',
          '--from=0.8 m',
          '--to=1200',
          '--beside=less skew',
        ],
        { folder },
      ),
      ran(['picture', 'fleet.xlsx', 'map', 'Skew', 'map.svg', '--belt', 'Q3', '--by', 'Skew', '--by', 'Width'], {
        folder,
      }),
    ]);
    expect(sweep).toMatchObject({ code: 0, err: '' });
    expect(sweep.out).toMatch(/^Cut length \(mm\) of Q3 over Width \(mm\)\.\n {2}121 values, from 800 to 1200;/);
    const text = readFileSync(`${folder}/sweep.svg`, 'utf8');
    expect(text).toMatch(/^<svg [^]*less skew[^]*<\/svg>$/);
    expect(text).not.toMatch(/var\(|NaN/);
    expect(refused).toMatchObject({ code: 2, out: '' });
    expect(refused.err).toContain('Skew is no check: name Verdict or a check');
  });
});
