import { rmSync } from 'node:fs';
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

describe('advise', () => {
  test('prints the least skew of every series that passes, what it costs, and why others do not', async () => {
    const { code, out, err } = await ran(['advise', 'fleet.xlsx', 'q3', '--date', '2026-11-25'], { folder });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Q3, now 45°, Lapwing\nSeries +Minimum skew +Verdict +Plates +Strip per joint \(mm\) /);
    expect(out).toMatch(/\nLapwing +\d+(?:\.\d)?° +tight: larger tension, take-up +\d+ \(\+\d+\)/);
    expect(out).toMatch(/\nGannet: no skew passes; pulley and thickness fail at every skew\.\n/);
    expect(out).toMatch(/Head 630 mm at any skew/);
  });

  test('refuses a belt that the list does not have', async () => {
    const { code, out, err } = await ran(['advise', 'fleet.xlsx', 'Z 99'], { folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain('fleet.xlsx has no belt "Z 99".');
  });
});
