import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import DxfParser from 'dxf-parser';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { readBook } from '../../src/xlsx/read/read.ts';
import { demoFile, demoRows, listFile, testFolder } from './lists.ts';
import { ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';

beforeAll(async () => {
  folder = await testFolder();
  await demoFile(`${folder}/fleet.xlsx`);
  const [head = [], ...rows] = demoRows({}, (name) => ['Q1', 'Q2'].includes(name));
  const width = head.indexOf('Width (mm)');
  await listFile(`${folder}/gaps.xlsx`, {
    Fleet: [
      head,
      ...rows.map((row, index) => row.map((cell, column) => (index === 1 && column === width ? null : cell))),
    ],
  });
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const card = (...args: readonly string[]): ReturnType<typeof ran> => ran(['card', ...args], { folder });
const pages = (file: string): string =>
  execFileSync('pdftotext', ['-layout', `${folder}/${file}`, '-'], { encoding: 'utf8', maxBuffer: 1e8 });

describe('card', () => {
  test('writes the cards of the belts that are named, on one sheet each', async () => {
    expect(await card('fleet.xlsx', 'some.pdf', '--belt', 'q2', '--belt', 'Q1', '--short')).toMatchObject({
      code: 0,
      out: 'Wrote some.pdf from fleet.xlsx: 2 job cards.\n',
    });
    expect(pages('some.pdf')).toMatch(/Belt Q2[^]*page 1 of 2[^]*page 2 of 2[^]*Belt Q1[^]*page 1 of 2/);
    expect((await card('fleet.xlsx', 'none.pdf', '--belt', 'Q1', '--belt', 'X9')).err).toContain('no belt "X9"');
    expect(existsSync(`${folder}/none.pdf`)).toBe(false);
    expect((await card('fleet.xlsx', 'all.pdf', '--all', '--belt', 'Q1')).code).toBe(2);
    expect((await card('fleet.xlsx', 'Q1', 'q1.dxf', '--short')).code).toBe(2);
  });

  test('writes the card as PDF and .xlsx, the drawing as SVG, cut and holes as DXF, the template', async () => {
    expect(await card('fleet.xlsx', 'q1', 'q1.pdf')).toMatchObject({
      code: 0,
      err: '',
      out: 'Wrote q1.pdf from fleet.xlsx: job card of belt Q1.\n',
    });
    expect(pages('q1.pdf')).toMatch(/Belt Q1[^]*Cautions, before step 1[^]*Read and check/);
    expect(await card('fleet.xlsx', 'Q1', 'q1.xlsx')).toMatchObject({ code: 0 });
    const [sheet] = readBook(new Uint8Array(readFileSync(`${folder}/q1.xlsx`))).sheets;
    const texts = [...(sheet?.rows.values() ?? [])].flat().map(({ value }) => String(value));
    expect(texts).toContain('Belt Q1');
    expect(texts.some((text) => text.startsWith('Isolate and try\nHOLD POINT'))).toBe(true);
    expect(await card('fleet.xlsx', 'Q1', 'q1.svg')).toMatchObject({ code: 0 });
    expect(readFileSync(`${folder}/q1.svg`, 'utf8').match(/class="plate"/g)?.length).toBeGreaterThan(30);
    expect(await card('fleet.xlsx', 'Q1', 'q1.dxf')).toMatchObject({ code: 0 });
    const entities = new DxfParser().parseSync(readFileSync(`${folder}/q1.dxf`, 'utf8'))?.entities ?? [];
    expect(entities.filter(({ layer }) => layer === 'holes')).toHaveLength(62);
    expect(await card('fleet.xlsx', 'Q1', 'cut.dxf', '--cut-only')).toMatchObject({ code: 0 });
    expect(
      (new DxfParser().parseSync(readFileSync(`${folder}/cut.dxf`, 'utf8'))?.entities ?? []).filter(
        ({ layer }) => layer === 'holes',
      ),
    ).toHaveLength(0);
    expect(await card('fleet.xlsx', 'Q1', 'template.pdf', '--template', '--paper', 'a3')).toMatchObject({ code: 0 });
    expect(execFileSync('pdfinfo', [`${folder}/template.pdf`], { encoding: 'utf8' })).toMatch(
      /Page size: +1190\.\d+ x 841\.\d+ pts \(A3\)/,
    );
  });

  test('writes all belts at once, on the paper of the book or the one asked for', async () => {
    const few = demoRows({}, (name) => ['Q1', 'Q2', 'S1', 'C2'].includes(name));
    await listFile(`${folder}/few.xlsx`, { Fleet: few });
    const series = ['--all', '--series', 'fleet.xlsx'];
    expect((await card('few.xlsx', 'all.pdf', ...series, '--units', 'us')).out).toMatch(
      /Wrote all\.pdf from few\.xlsx: 4 job cards\./,
    );
    expect(execFileSync('pdfinfo', [`${folder}/all.pdf`], { encoding: 'utf8' })).toContain('(letter)');
    expect(pages('all.pdf').match(/Cautions, before step 1/g)).toHaveLength(4);
    expect(await card('few.xlsx', 'all.xlsx', ...series)).toMatchObject({ code: 0 });
    expect(readBook(new Uint8Array(readFileSync(`${folder}/all.xlsx`))).sheets).toHaveLength(4);
  });

  test('refuses a joint that can not be drawn, with file, sheet and cell, and writes nothing', async () => {
    for (const output of ['bad.pdf', 'bad.svg', 'bad.dxf', 'bad.xlsx']) {
      const { code, out, err } = await card('gaps.xlsx', 'Q2', output, '--series', 'fleet.xlsx');
      expect({ code, out }).toEqual({ code: 1, out: '' });
      expect(err).toMatch(
        /^bad\.\w+ was not written\. Belt Q2 \(gaps\.xlsx, Fleet![A-Z]+3\): The joint cannot be drawn: /,
      );
      expect(err).toMatch(/: enter Width as a number\.\n$/);
      expect(existsSync(`${folder}/${output}`)).toBe(false);
    }
    const all = await card('gaps.xlsx', 'some.pdf', '--all', '--series', 'fleet.xlsx');
    expect(all.code).toBe(1);
    expect(all.out).toContain('1 job card');
    expect(all.err).toContain('No card of belt Q2 (gaps.xlsx, Fleet!');
    expect(await card('gaps.xlsx', 'Q1', 'nothing.dxf')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining(
        'No plates are drawn: "Whimbrel" is not in the sheet Plate series. ' +
          'Choose another series, or enter this one. Without plates there is no hole pattern.',
      ) as unknown,
    });
  });

  test('never writes over its input, and replaces another file only when the new one is whole', async () => {
    const before = readFileSync(`${folder}/fleet.xlsx`);
    expect(await card('fleet.xlsx', 'Q1', 'fleet.xlsx')).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringContaining('it is the same file as the input fleet.xlsx') as unknown,
    });
    expect(readFileSync(`${folder}/fleet.xlsx`).equals(before)).toBe(true);
    writeFileSync(`${folder}/old.dxf`, 'old');
    expect((await card('gaps.xlsx', 'Q2', 'old.dxf', '--series', 'fleet.xlsx')).code).toBe(1);
    expect(readFileSync(`${folder}/old.dxf`, 'utf8')).toBe('old');
    expect((await card('fleet.xlsx', 'Q1', 'old.dxf')).out).toContain('replacing the existing file');
  });

  test.each([
    [['fleet.xlsx', 'Q1', 'q1.txt'], 'must end in .pdf, .xlsx, .svg, .dxf'],
    [['fleet.xlsx', 'q1.pdf'], 'needs the name of a belt'],
    [['fleet.xlsx', 'Q1', 'q1.pdf', '--all'], '"Q1" is one argument too many'],
    [['fleet.xlsx', 'q1.svg', '--all'], '--all writes one .pdf or .xlsx of cards'],
    [['fleet.xlsx', 'Q1', 'q1.svg', '--template'], '--template writes a .pdf'],
    [['fleet.xlsx', 'Q1', 'q1.pdf', '--paper', 'A3'], 'A3 is for --template'],
    [['fleet.xlsx', 'Q1', 'q1.svg', '--paper', 'A4'], '--paper applies to a .pdf'],
    [['fleet.xlsx', 'Q1', 'q1.pdf', '--cut-only'], '--cut-only applies to a .dxf'],
    [['fleet.xlsx', 'Z 99', 'q1.pdf'], 'fleet.xlsx has no belt "Z 99"'],
  ])('%j: exit code 2 and a message', async (args, message) => {
    expect(await card(...args)).toMatchObject({ code: 2, out: '', err: expect.stringContaining(message) as unknown });
  });
});
