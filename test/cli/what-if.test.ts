import { readFileSync, rmSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { demoFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(`${folder}/fleet.xlsx`);
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

  test('refuses what the book does not have and what a cell may not hold', async () => {
    const said = async (set: string): Promise<string> => {
      const { code, out, err } = await ran(['check', 'fleet.xlsx', '--set', set], { folder });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      return err;
    };
    expect(await said('Q3:Skeww=30')).toContain('The sheet Belts has no column "Skeww". Did you mean Skew');
    expect(await said('Z9:Skew=30')).toContain('There is no belt "Z9".');
    expect(await said('TightMargn=0.1')).toContain('There is no named value "TightMargn". Did you mean TightMargin');
    expect(await said('Q3:Skew=95')).toContain('Skew is 95°');
    expect(await said('Q3:Width=wide')).toContain('Width of Q3: "wide" was not understood');
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
