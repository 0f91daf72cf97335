import {
  chmodSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { findings } from '../../src/checks/findings.ts';
import { visibleLine, visibleText } from '../../src/cli/visible-text.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { hostileBook } from '../outputs/hostile-book.ts';
import { listFile } from './lists.ts';
import { ran, ready } from './program.ts';

/** What the command line writes: no text of a list commands the terminal, and a target is replaced or left, whole. */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'harmless-'));
  await listFile(at('list.xlsx'), {
    Belts: [
      ['Belt', 'Width (mm)', 'Thickness (mm)', 'Plies'],
      ['\u009b31mRed \u202egnorw\nB9: all fits', 800, 12, 3],
    ],
  });
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('controls are shown, not obeyed', () => {
  expect(visibleText('a\u001b[31mb\tc\n')).toBe('a\u241b[31mb\tc\n');
  expect(visibleText('\u009b2J\u202e\u007f')).toBe('\\u009b2J\\u202e\u2421');
  expect(visibleLine('one\ntwo')).toBe('one\u240atwo');
  expect(visibleText('Förderband 7, 傾斜 😀')).toBe('Förderband 7, 傾斜 😀');
});

test('no text of a list reaches the terminal as a command or as a line of its own', async () => {
  for (const args of [
    ['check', at('list.xlsx')],
    ['calc', at('list.xlsx'), at('out.xlsx')],
  ]) {
    const { out, err } = await ran(args);
    if (args[0] === 'check') expect(out).toContain('\\u009b31mRed \\u202egnorw\u240aB9');
    expect(out + err).not.toMatch(/[\u001b\u0080-\u009f\u202e]/);
    expect(out.split('\n').filter((line) => line.startsWith('B9'))).toEqual([]);
  }
});

describe('nor does any of a book, in the answer to', () => {
  const names = new Map<string, string>();

  beforeAll(async () => {
    const book = new Workbook(hostileBook());
    writeFileSync(at('hostile.xlsx'), (await exportedBook(book, findings(book))).bytes);
    for (const part of ['ENDSEC', 'END:VEVENT'])
      names.set(
        part,
        String(
          book
            .sheet(belts.name)
            .rows.map((_, record) => book.read(belts.name, record, belts.key))
            .find((one) => String(one).includes(part)),
        ),
      );
  });

  const forged = /^(?:END:VEVENT|ENDSEC|EOF|BEGIN:VEVENT|ATTACH|DESCRIPTION|Wrote none|\s+0$)/;
  const obeyed = /(?![\n\t])[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/u;

  test.each([
    ['check', []],
    ['calc', ['out.xlsx']],
    ['order', ['order.xlsx', '--failing', '--seconds', '2']],
    ['outage', ['plan.ics', '--failing', '--past-due', '--step', '60', '--seconds', '2']],
    ['explain', ['ENDSEC', 'Verdict']],
    ['advise', ['ENDSEC']],
    ['card', ['END:VEVENT', 'card.dxf', '--cut-only']],
    ['card', ['cards.pdf', '--all']],
    ['card', ['none\nWrote none', 'card.pdf']],
  ])('%s %j', async (command, words) => {
    const { code, out, err } = await ran([command, 'hostile.xlsx', ...words.map((word) => names.get(word) ?? word)], {
      folder,
    });
    expect(words.includes('none\nWrote none') ? [2] : [0, 1], err).toContain(code);
    expect(out + err).not.toMatch(obeyed);
    if (command === 'advise') expect(out).toContain('\u240aENDSEC\u240a');
    expect(`${out}${err}`.split('\n').filter((line) => forged.test(line))).toEqual([]);
  });
});

describe('a target that can not be replaced is left as it was', () => {
  const calc = async (name: string): Promise<{ readonly code: number | null; readonly err: string }> => {
    const before = readdirSync(folder).toSorted();
    const { code, err } = await ran(['calc', at('list.xlsx'), at(name)]);
    expect(readdirSync(folder).toSorted()).toEqual(before);
    return { code, err };
  };

  test('a file that may only be read', async () => {
    writeFileSync(at('kept.xlsx'), 'kept');
    chmodSync(at('kept.xlsx'), 0o444);
    const { code, err } = await calc('kept.xlsx');
    expect([code, err]).toEqual([2, expect.stringContaining('is read-only')]);
    expect(readFileSync(at('kept.xlsx'), 'utf8')).toBe('kept');
  });

  test('a link to nothing', async () => {
    symlinkSync(at('gone.xlsx'), at('dangling.xlsx'));
    const { code, err } = await calc('dangling.xlsx');
    expect([code, err]).toEqual([2, expect.stringContaining('a link to a file that is not there')]);
    expect(existsSync(at('gone.xlsx'))).toBe(false);
  });

  test('a name longer than a name may be', async () => {
    const { code, err } = await calc(`${'n'.repeat(300)}.xlsx`);
    expect([code, err]).toEqual([2, expect.stringContaining('its name is too long')]);
  });
});

test('a name of 255 characters is written', async () => {
  const name = `${'n'.repeat(250)}.xlsx`;
  expect((await ran(['calc', at('list.xlsx'), at(name)])).code).toBe(0);
  expect(existsSync(at(name))).toBe(true);
});
