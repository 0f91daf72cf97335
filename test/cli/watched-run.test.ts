import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { watchedRun } from '../../src/cli/watched-run.ts';
import { listFile } from './lists.ts';
import { book, ready } from './program.ts';

/** A run that takes too long or too much is ended in words, and so is one that is asked to end. */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'watched-'));
  await listFile(join(folder, 'list.xlsx'), {
    Belts: [
      ['Belt', 'Width (mm)', 'Thickness (mm)'],
      ['B1', 800, 10],
    ],
  });
  await ready();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const begin = (mark: string): string =>
  `import { parentPort } from 'node:worker_threads'; parentPort.postMessage({ begun: 'reading list.xlsx'${mark} });`;
const begun = begin('');
const patience = { processor: 300, perMebi: 500, clock: 60_000, megabytes: 64 };

/** Runs a program of so many lines beside a watch of little patience. */
async function watched(program: string, most = patience): Promise<{ readonly code: number; readonly told: string }> {
  const path = join(folder, 'program.mjs');
  writeFileSync(path, program);
  let told = '';
  const code = await watchedRun(path, [], (text) => (told += text), most);
  return { code, told };
}

test('a step without end is ended, and its exit code is that of a refusal', async () => {
  const { code, told } = await watched(`${begun} for (;;);`);
  expect(told).toMatch(
    /^The command was stopped: reading list\.xlsx took more than 0\.3 s\. Nothing was written\. Delete sheets and rows/,
  );
  expect(code).toBe(2);
});

test('a large file is given more time', async () => {
  const { told } = await watched(`${begin(', bytes: 2.5 * 1024 * 1024')} for (;;);`);
  expect(told).toMatch(/^The command was stopped: reading list\.xlsx took more than 1\.6 s\./);
});

test('a step that stands still is ended in words', async () => {
  const { code, told } = await watched(`${begun} setInterval(() => undefined, 1000);`, { ...patience, clock: 900 });
  expect(told).toMatch(
    /^The command was stopped: reading list\.xlsx stood still for 0\.9 s, as when a disk does not answer\. Nothing was/,
  );
  expect(code).toBe(2);
});

test('one that is over may be followed by anything', async () => {
  const work = 'const end = process.cpuUsage().user + 600_000; while (process.cpuUsage().user < end);';
  expect(await watched(`${begun} parentPort.postMessage({ ended: true }); ${work} process.exitCode = 1;`)).toEqual({
    code: 1,
    told: '',
  });
});

test('memory without end is ended in words', async () => {
  const { code, told } = await watched(`${begun} const kept = []; for (;;) kept.push({ kept: [kept.length] });`, {
    ...patience,
    processor: 60_000,
  });
  expect(told).toMatch(/^The command was stopped: reading list\.xlsx takes more than 64 MB of memory\. Nothing was/);
  expect(code).toBe(2);
});

/** Asks a run to end after so long; how it ended, and what it said. */
async function asked(signal: NodeJS.Signals, milliseconds: number): Promise<readonly [number | null, string]> {
  const child = spawn(process.execPath, [...book, 'calc', 'list.xlsx', 'out.xlsx'], { cwd: folder });
  let told = '';
  child.stderr.on('data', (piece: Buffer) => (told += piece.toString('utf8')));
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  await Promise.race([ended, setTimeout(milliseconds)]);
  child.kill(signal);
  return [await ended, told];
}

test.each([
  ['SIGINT', 130],
  ['SIGTERM', 143],
] as const)('a run that is asked to end by %s says so, and nothing is left', async (signal, exit) => {
  const before = readdirSync(folder).toSorted();
  let heard: readonly [number | null, string] = [null, ''];
  // Before its program is loaded a run ends as any process does.
  for (let wait = 200; heard[0] === null && wait < 20_000; wait *= 1.4) heard = await asked(signal, wait);
  expect(heard).toEqual([exit, 'The command was stopped before its end, as asked. Nothing was written.\n']);
  expect(readdirSync(folder).toSorted()).toEqual(before);
});
