import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { demoFile, demoRows, listFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);
const due = ['--due', '2027-12-31', '--seconds', '6'];

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(at('plant.xlsx'));
  await listFile(at('list.xlsx'), { Fleet: demoRows({}, (name) => ['C1', 'K1', 'L4'].includes(name)) });
  await listFile(at('own.xlsx'), {
    Fleet: demoRows({}, (name) => ['C1', 'K1'].includes(name)),
    Crews: [
      ['Crew', 'People', 'Shift from', 'Shift to'],
      ['Ours', 4, 7, 19],
    ],
    Windows: [
      ['Window', 'Start', 'End'],
      ['Stop', '2026-12-05 06:00', '2026-12-06 20:00'],
    ],
    'Outage jobs': [
      ['Belt', 'After'],
      ['K1', 'C1'],
    ],
  });
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('writes a calendar that another library reads, with an event a job, and says the plan in lines', async () => {
  const before = readFileSync(at('plant.xlsx'));
  const { code, out, err } = await ran(['outage', 'plant.xlsx', 'plan.ics', ...due], { folder });
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out).toMatch(/^Left out: S6: its joint fails: carcass \(plant\.xlsx, Belts![A-Z]+13\)\.$/m);
  expect(out).toMatch(/^2027-01-0\d \d\d:\d0 to .*: K2, 7 h, Day crew and Hired crew \(New Year stop\)$/m);
  expect(out).toMatch(/^All 8 jobs planned, the last ends 2027-04-1/m);
  expect(out).toMatch(/^Lost production 3570 t, proven best\b[^\n]*\.$/m);
  expect(out).toMatch(/it does not authorise work/);
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(at('plan.ics'), 'utf8')));
  const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
  expect(events.map(({ summary }) => summary).toSorted()).toEqual(
    ['C1', 'C2', 'C5', 'C7', 'K1', 'K2', 'Q4', 'S5'].map((belt) => `Belt ${belt}: joint`),
  );
  expect(new Set(events.map(({ uid }) => uid)).size).toBe(8);
  expect(events.find(({ summary }) => summary.includes('K2'))?.duration.toSeconds()).toBe(7 * 3600);
  expect(readFileSync(at('plant.xlsx')).equals(before)).toBe(true);
  expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

test('writes a workbook and a picture; crews and windows can be chosen, and what does not fit is said', async () => {
  const few = await ran(
    [
      'outage',
      'plant.xlsx',
      'few.xlsx',
      ...due,
      '--window',
      'spring stop',
      '--crew',
      'Day crew',
      '--crew',
      'Night crew',
      '--aim',
      'earliest',
    ],
    { folder },
  );
  expect(few.code).toBe(1);
  expect(few.out).toMatch(/^Does not fit: C1: it is due by 2027-01-06 00:00; the earliest possible end is /m);
  expect(few.out).toMatch(/^Does not fit: K2: no window has 2 crews available for the /m);
  expect(few.out).toMatch(/^Does not fit: K1: it comes after K2, which does not fit\.$/m);
  expect(readBook(readFileSync(at('few.xlsx'))).sheets.map(({ name }) => name)).toEqual([
    'Outage plan',
    'Crew by crew',
    'Labour hours',
    'Areas shut down',
    'Not planned',
    'Check',
    'About',
  ]);
  const picture = await ran(['outage', 'plant.xlsx', 'plan.svg', ...due, '--by', 'area', '--past-due'], { folder });
  expect(picture.code).toBe(0);
  const parser = new SaxesParser();
  const texts: string[] = [];
  parser.on('text', (text) => texts.push(text.trim()));
  parser.write(readFileSync(at('plan.svg'), 'utf8')).close();
  expect(texts).toEqual(expect.arrayContaining(['Crusher', 'Stockyard', 'K2']));
});

test('a list takes crews and windows from another book, or from sheets of its own under their names', async () => {
  const other = await ran(['outage', 'list.xlsx', 'list.ics', '--series', 'plant.xlsx', '--seconds', '4'], { folder });
  expect(other.out).toMatch(
    /^Left out: L4: its joint fails: thickness \(list\.xlsx, Fleet, row 4, which has no Thickness check\)\.$/m,
  );
  expect(other.out).toMatch(/^All 2 jobs planned/m);
  const own = await ran(
    ['outage', 'own.xlsx', 'own.ics', '--series', 'plant.xlsx', '--date', '2026-11-25', '--seconds', '4'],
    { folder },
  );
  expect(own.out).toMatch(
    /^2026-12-05 \d\d:\d\d to .*: C1, [\d.]+ h, Ours \(Stop\)\n2026-12-0\d .*: K1, [\d.]+ h, Ours \(Stop\)$/m,
  );
  const none = await ran(['outage', 'list.xlsx', 'none.ics', '--date', '2026-11-25'], { folder });
  expect(none).toMatchObject({ code: 1, err: 'none.ics was not written: nothing is planned.\n' });
  expect(none.out).toMatch(/^No crew: enter one in the sheet Crews\.\nNo window: enter one in the sheet Windows\.$/m);
  expect(existsSync(at('none.ics'))).toBe(false);
});

test.each([
  [['outage', 'plant.xlsx', 'no.pdf'], /^no\.pdf could not be written: its name must end in \.ics, \.xlsx, \.svg/],
  [['outage', 'plant.xlsx', 'plant.xlsx'], /^plant\.xlsx could not be written: it is the same file as the input/],
  [
    ['outage', 'plant.xlsx', 'no.ics', '--crew', 'Nobody'],
    /^plant\.xlsx has no crew "Nobody"; it has Day crew, Night crew, Crusher fitters, Hired crew/,
  ],
  [
    ['outage', 'plant.xlsx', 'no.ics', '--window', 'Never'],
    /^plant\.xlsx has no window "Never"; it has New Year stop,/,
  ],
  [
    ['outage', 'plant.xlsx', 'no.ics', '--step', '0.5'],
    /^--step must be a whole number of minutes from 1 to 480; "0\.5" was given/,
  ],
  [
    ['outage', 'plant.xlsx', 'no.ics', '--aim', 'cheap'],
    /^--aim must be one of least-loss, earliest; "cheap" was given/,
  ],
  [['outage', 'plant.xlsx', 'no.ics', '--belt', 'Z9'], /^plant\.xlsx has no belt "Z9"/],
  [['outage', 'plant.xlsx', 'no.ics', '--step', '1'], /^No plan could be made for plant\.xlsx: step: /],
] as const)('%j is refused, and nothing is written', async (args, message) => {
  const { code, err } = await ran([...args], { folder });
  expect(code).toBe(2);
  expect(err).toMatch(message);
  expect(existsSync(at('no.ics'))).toBe(false);
});
