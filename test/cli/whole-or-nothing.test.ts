import { execFileSync, spawn, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, onTestFinished, test, vi } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { killedRuns } from './killed-runs.ts';
import { listFile } from './lists.ts';
import { book, ran, ready } from './program.ts';

/** Whatever happens to a run or to its disk: the output is whole or as it was, and nothing else is left. */

vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'whole-'));
  await listFile(at('list.xlsx'), { Belts: [['Belt', 'Width (mm)', 'Thickness (mm)'], ...rows(3)] });
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const rows = (count: number): (string | number)[][] =>
  Array.from({ length: count }, (_, index) => [`B${index + 1}`, 500 + 100 * index, 10]);

/** Runs under a shell's limit on the size of files, in kilobytes. */
const limited = (
  kilobytes: number,
  args: readonly string[],
): { readonly status: number | null; readonly err: string } => {
  const { status, stderr } = spawnSync(
    'bash',
    ['-c', `ulimit -f ${kilobytes}; exec "$@"`, 'bash', process.execPath, ...book, ...args],
    { encoding: 'utf8' },
  );
  return { status, err: stderr };
};

test('a file that can not be written to its end is not there, and the one before it stays', () => {
  writeFileSync(at('kept.xlsx'), 'kept');
  const before = readdirSync(folder).toSorted();
  for (const name of ['kept.xlsx', 'new.xlsx']) {
    const { status, err } = limited(8, ['calc', at('list.xlsx'), at(name)]);
    expect(err).toBe(`${at(name)} could not be written: it would be larger than this disk allows.\n`);
    expect(status).toBe(2);
  }
  expect(readdirSync(folder).toSorted()).toEqual(before);
  expect(readFileSync(at('kept.xlsx'), 'utf8')).toBe('kept');
});

/** A disk of 64 kB at a folder; false where this user may not make one. */
function smallDisk(place: string): boolean {
  mkdirSync(place);
  const { status } = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', place]);
  onTestFinished(() => {
    if (status === 0) execFileSync('umount', [place]);
    rmSync(place, { recursive: true, force: true });
  });
  return status === 0;
}

test('nor is one on a disk that is full', async ({ skip }) => {
  const disk = at('disk');
  if (!smallDisk(disk)) skip('a small disk can be put at a folder by root only; the limit on files stands in for it');
  writeFileSync(join(disk, 'kept.xlsx'), 'kept');
  const { code, err } = await ran(['calc', at('list.xlsx'), join(disk, 'kept.xlsx')]);
  expect(err).toBe(`${join(disk, 'kept.xlsx')} could not be written: the disk is full.\n`);
  expect(code).toBe(2);
  expect(readdirSync(disk)).toEqual(['kept.xlsx']);
  expect(readFileSync(join(disk, 'kept.xlsx'), 'utf8')).toBe('kept');
});

test('an answer that goes nowhere is told', () => {
  const full = openSync('/dev/full', 'w');
  const { status, stderr } = spawnSync(process.execPath, [...book, 'check', at('list.xlsx')], {
    stdio: ['ignore', full, 'pipe'],
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([2, 'The answer could not be written: the disk is full.\n']);
});

test('a reader that stops early changes neither the exit code nor the file', () => {
  const exports = new URL('../../exports/tern-quay-metric.xlsx', import.meta.url).pathname;
  const piped = (args: string): string =>
    execFileSync('bash', ['-c', `${args} | head -c 1 >/dev/null; echo "\${PIPESTATUS[0]}"`, 'bash'], {
      encoding: 'utf8',
    }).trim();
  const command = [process.execPath, ...book].map((word) => `'${word}'`).join(' ');
  // Belts of the demo fail.
  expect(piped(`${command} check '${exports}'`)).toBe('1');
  expect(piped(`${command} calc '${exports}' '${at('piped.xlsx')}'`)).toBe('0');
  expect(readBook(readFileSync(at('piped.xlsx'))).sheets.length).toBeGreaterThan(5);
  expect(piped(`${command} formula - < <(yes =1+1)`)).toBe('0');
});

describe('names whose bytes are no UTF-8', () => {
  const odd = (text: string): Buffer => Buffer.from(join(folder, text), 'latin1');
  /** With a shell, since a name handed over as a text becomes UTF-8. */
  const called = (words: string): { readonly status: number | null; readonly err: string } => {
    const command = [process.execPath, ...book].map((word) => `'${word}'`).join(' ');
    const { status, stderr } = spawnSync('bash', ['-c', `cd '${folder}'; ${command} ${words}`], { encoding: 'utf8' });
    return { status, err: stderr };
  };

  test('are told when they are read, and make no file of another name', () => {
    copyFileSync(at('list.xlsx'), odd('list\xff.xlsx'));
    const before = readdirSync(Buffer.from(folder), { encoding: 'buffer' }).map((name) => name.toString('latin1'));
    for (const words of ["check $'list\\xff.xlsx'", "calc list.xlsx $'out\\xff.xlsx'"]) {
      const { status, err } = called(words);
      expect(err).toMatch(/^\S+ could not be (read|written): its name's bytes are not UTF-8: .*\.\n$/);
      expect(status).toBe(2);
    }
    const after = readdirSync(Buffer.from(folder), { encoding: 'buffer' }).map((name) => name.toString('latin1'));
    expect(after.toSorted()).toEqual(before.toSorted());
  });
});

test('runs onto one target at once leave one of their books, whole', async () => {
  const lists = await Promise.all(
    [1, 2, 3, 4].map((count) =>
      listFile(at(`list-${count}.xlsx`), { Belts: [['Belt', 'Width (mm)', 'Thickness (mm)'], ...rows(count)] }),
    ),
  );
  const before = readdirSync(folder);
  const codes = await Promise.all(lists.map(async (list) => (await ran(['calc', list, at('shared.xlsx')])).code));
  expect(codes).toEqual([0, 0, 0, 0]);
  expect(readdirSync(folder).toSorted()).toEqual([...before, 'shared.xlsx'].toSorted());
  const belts = readBook(readFileSync(at('shared.xlsx'))).sheets.find(({ name }) => name === 'Belts');
  expect([2, 3, 4, 5]).toContain(belts?.lastRow);
});

test('what a killed run has left is swept by the next, what a running one writes is not', async () => {
  const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
  const gone = spawnSync(process.execPath, ['-e', '0']).pid;
  const drafts = {
    left: `.book.${machine}.${gone}.1.part`,
    running: `.book.${machine}.${process.pid}.1.part`,
    elsewhere: `.book.00000000.${gone}.1.part`,
  };
  for (const name of Object.values(drafts)) writeFileSync(at(name), 'a part');
  expect((await ran(['calc', at('list.xlsx'), at('swept.xlsx')])).code).toBe(0);
  expect(Object.values(drafts).map((name) => existsSync(at(name)))).toEqual([false, true, true]);
  for (const name of Object.values(drafts)) rmSync(at(name), { force: true });
});

test('a run that is asked to end while it writes ends with the file whole', async () => {
  // The folder is watched for the draft: that is when the run writes.
  const target = at('asked.xlsx');
  const child = spawn(process.execPath, [...book, 'calc', at('list.xlsx'), target], { stdio: 'ignore' });
  const ended = new Promise<NodeJS.Signals | number | null>((resolve) =>
    child.on('close', (code, signal) => resolve(signal ?? code)),
  );
  const looking = setInterval(() => {
    if (readdirSync(folder).some((name) => name.includes(`.${child.pid}.`))) child.kill('SIGTERM');
  });
  const how = await ended;
  clearInterval(looking);
  expect([0, 143]).toContain(how);
  expect(readdirSync(folder).filter((name) => name.startsWith('.book'))).toEqual([]);
  if (how === 0) expect(readBook(readFileSync(target)).sheets.length).toBeGreaterThan(5);
});

test('runs that are killed at any moment leave the target as it was or whole', async () => {
  const { runs, wrong } = await killedRuns({ count: 3, seed: 20_261_126 });
  expect(wrong).toEqual([]);
  expect(runs).toBe(3);
});
