import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { testFolder } from './lists.ts';
import { book, ran, ready } from './program.ts';

// Each call is a process, and other tests run beside these; the first may have to build the program.
vi.setConfig({ testTimeout: 60_000 });
beforeAll(ready, 120_000);

/** The pieces of the built program, each loaded when it is needed. */
const builtParts = fileURLToPath(new URL('../../dist/cli/assets', import.meta.url));

/** The files that a process loaded, from what Node writes about its coverage. */
const scriptsIn = (coverage: string): string[] =>
  (JSON.parse(coverage) as { readonly result: readonly { readonly url: string }[] }).result.flatMap(({ url }) =>
    url.startsWith('file:') ? [fileURLToPath(url)] : [],
  );

describe('one formula', () => {
  test('prints its value with all its digits', async () => {
    const { code, out, err } = await ran(['formula', '=SKEWLENGTH(650,45)']);
    expect({ code, out, err }).toEqual({ code: 0, out: `${650 / Math.cos(Math.PI / 4)}\n`, err: '' });
  });

  test('needs no equals sign, and may begin with a minus', async () => {
    expect(await ran(['formula', 'PACKS(126,50)'])).toMatchObject({ code: 0, out: '3\n' });
    expect(await ran(['formula', '-2+1/3'])).toMatchObject({ code: 0, out: `${-2 + 1 / 3}\n` });
  });

  test('prints an error as code, space, message, and answers 1', async () => {
    const { code, out, err } = await ran(['formula', '=SKEWLENGTH(650,90)']);
    expect(code).toBe(1);
    expect(out).toMatch(/^#NUM! SKEWLENGTH: skew must be from 0 to 60; 90 was given\..*"90 degrees".*\n$/);
    expect(err).toBe('');
    expect(await ran(['formula', '=SUM(1,2'])).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^#ERROR! the formula ends too early/),
    });
    expect(await ran(['formula', '=1/0'])).toMatchObject({ code: 1, out: expect.stringMatching(/^#DIV\/0! /) });
  });

  test('prints a spill a row a line, tabs between columns', async () => {
    expect(await ran(['formula', '=PLATESPOTS(400,0,120,90,10)'])).toMatchObject({ code: 0, out: '80\n200\n320\n' });
    expect(await ran(['formula', '=HOLESPOTS(100,0,60,50,10,20,30,2)'])).toMatchObject({
      code: 0,
      out: '-20\t35\n-20\t65\n20\t35\n20\t65\n',
    });
  });

  test("knows the book's named values, in either unit system", async () => {
    expect(await ran(['formula', '=Gravity*2'])).toMatchObject({ out: '19.62\n' });
    expect(await ran(['formula', '--units', 'us', '=ShortPerLong'])).toMatchObject({ out: '12\n' });
    expect(await ran(['formula', '=ShortPerLong', '--units=us'])).toMatchObject({ out: '12\n' });
  });

  test.each([
    [['formula'], /needs FORMULA/],
    [['formula', ''], /needs FORMULA/],
    [['formula', '=SUM(1', '2)'], /unexpected argument "2\)".*quotes/],
    [['formula', '--unit', 'us', '=1'], /no option --unit; it has --book, --units/],
    [['formula', '--units', 'imperial', '=1'], /--units must be one of metric, us; "imperial"/],
    [['formula', '=1', '--units'], /--units needs a value/],
    [['formula', '--units', 'us', '--units', 'us', '=1'], /--units is given twice; give it once/],
    [['compute', '=1'], /no command compute\. Commands: formula, calc, check/],
    [['help', 'NOSUCH'], /no command or function NOSUCH/],
    [['check'], /needs IN\.xlsx/],
    [['check', '-q', 'a.xlsx'], /no option -q/],
    [['calc', 'a.xlsx'], /needs OUT\.xlsx/],
  ])('refuses %j on standard error with exit code 2', async (args, message) => {
    const { code, out, err } = await ran(args);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(message);
  });
});

describe('formulas from standard input', () => {
  const asked = async (input: string): Promise<string[]> => {
    const { code, out, err } = await ran(['formula', '-'], { input });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    return out.split('\n');
  };

  test('one value a line, whatever the lines are', async () => {
    expect(
      await asked(
        '=1/3\n\nPLATESPOTS(400,0,120,90,10)\r\n  =0.1+0.2  ' +
          '\n=HOLESPOTS(100,0,60,50,10,20,30,2)\n="a"&CHAR(10)&"b"\n=TRUE()\n=FOO(1)\n=1=1',
      ),
    ).toEqual([
      '0.3333333333333333',
      '',
      '{80;200;320}',
      '0.30000000000000004',
      '{-20,35;-20,65;20,35;20,65}',
      'a\\nb',
      'TRUE',
      expect.stringMatching(/^#NAME\? /),
      'TRUE',
      '',
    ]);
    expect(await asked('=A1\n=Strips!B7\n')).toEqual(['0', expect.stringMatching(/^#REF! /), '']);
    expect(await asked('')).toEqual(['']);
    expect(await asked('\n')).toEqual(['', '']);
    expect(await asked('\uFEFF=2*3\n')).toEqual(['6', '']);
  });

  test("every function's example gives the value it documents", async () => {
    const answers = await asked(functions.map(({ example }) => `${example[0]}\n`).join(''));
    functions.forEach(({ example: [formula, value] }, index) => {
      const answer = answers[index] ?? '';
      if (typeof value === 'number') expect(Math.abs(Number(answer) / value - 1), formula).toBeLessThan(1e-12);
      else
        expect(answer, formula).toBe(
          typeof value === 'string' ? value : `{${value.map((row) => row.join(',')).join(';')}}`,
        );
    });
  });

  test('twenty thousand lines in one engine, in order', async () => {
    const count = 20_000;
    // A process a line would take more than an hour.
    const { out } = await ran(['formula', '-'], {
      input: Array.from({ length: count }, (_, index) => `=SKEWLOSS(${index + 1},45)+1\n`).join(''),
    });
    const answers = out.split('\n');
    expect(answers).toHaveLength(count + 1);
    for (const index of [0, 1, 777, count - 1]) expect(Number(answers[index])).toBeCloseTo(index + 2, 8);
  }, 120_000);

  test('an answer comes before the next formula is asked', async () => {
    const child = spawn(process.execPath, [...book, 'formula', '-']);
    const answer = (): Promise<string> =>
      new Promise((resolve) => child.stdout.once('data', (piece: Buffer) => resolve(piece.toString())));
    child.stdin.write('=1+1\n');
    expect(await answer()).toBe('2\n');
    child.stdin.write('=2+2\n');
    expect(await answer()).toBe('4\n');
    child.stdin.end();
    expect(await new Promise((resolve) => child.once('close', resolve))).toBe(0);
  }, 30_000);

  test('a reader that stops early ends it quietly', async () => {
    const child = spawn(process.execPath, [...book, 'formula', '-']);
    let err = '';
    child.stderr.on('data', (piece: Buffer) => (err += piece.toString()));
    child.stdout.destroy();
    child.stdin.on('error', () => undefined);
    child.stdin.end(Array.from({ length: 50_000 }, () => '=REPT("x",200)\n').join(''));
    await new Promise((resolve) => child.once('close', resolve));
    expect(err).toBe('');
  }, 60_000);
});

describe('help', () => {
  test('without a command, with help, --help and -h', async () => {
    const { code, out } = await ran([]);
    expect(code).toBe(0);
    for (const word of ['formula', 'calc', 'check']) expect(out).toContain(`  ${word} `);
    for (const args of [['help'], ['--help'], ['-h']]) expect(await ran(args)).toMatchObject({ code: 0, out });
  });

  test('on a command, in both ways of asking', async () => {
    const { out } = await ran(['help', 'calc']);
    expect(out).toContain('--units metric|us');
    expect(await ran(['calc', '--help'])).toMatchObject({ code: 0, out });
  });

  test('on a function, from its definition', async () => {
    const { code, out } = await ran(['help', 'platecount']);
    expect(code).toBe(0);
    expect(out).toContain('PLATECOUNT(width, skew, pitch, plate, edge)');
    expect(out).toContain('from 0 to 60');
    expect(out).toMatch(/Example: =PLATECOUNT\(650,45,42,38,12\) is 21/);
    expect(out).toContain('Source: ');
  });

  test('lists every function, those of spreadsheets too', async () => {
    const { out } = await ran(['help', 'functions']);
    for (const { signature } of functions) expect(out).toContain(signature);
    expect(out).toContain('SUMIFS(summed, range, criterion, …)');
  });

  test('on a function of spreadsheets, and on one that there is not', async () => {
    expect((await ran(['help', 'sumifs'])).out).toMatch(/^SUMIFS\(summed, range, criterion, …\)\n/);
    expect((await ran(['help', 'INDIRECT'])).out).toMatch(/^There is no function INDIRECT here: .*Use INDEX/);
  });

  test('says name and version, whose it is, its licence and that there is no warranty', async () => {
    expect((await ran(['--version'])).out).toMatch(
      /^Skewbook \d+\.\d+\.\d+\nCopyright \(C\) 2026 the Skewbook developers\n.*GNU GPL version 3.*\n.*\n.*NO WARRANTY/,
    );
  });
});

describe("the formula engine's licence key", () => {
  const keyed = (key: string): ReturnType<typeof ran> =>
    ran(['formula', '=PACKS(126,50)'], { environment: { SKEWBOOK_HYPERFORMULA_KEY: key } });

  test.each(['', '   ', 'gpl-v3'])('%j counts as not set, or as the licence that is used then', async (key) => {
    expect(await keyed(key)).toMatchObject({ code: 0, out: '3\n', err: '' });
  });

  test.each(['xx', 'a1b2c-d3e4f-a1b2c-d3e4f-a1b2c', 'edited prose [abc123]'])(
    'that the engine refuses is one sentence and exit code 2: %j',
    async (key) => {
      const { code, out, err } = await keyed(key);
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(/^SKEWBOOK_HYPERFORMULA_KEY holds a key that .* refuses: [^.\n]*\.\n$/);
    },
  );
});

test('a formula loads its own part of the program, and nothing that reads files, draws or solves', async () => {
  const folder = await testFolder();
  try {
    const { out } = await ran(['formula', '=SKEWLENGTH(650,45)'], { environment: { NODE_V8_COVERAGE: folder } });
    expect(Number(out)).toBeCloseTo(919.2388155425117, 9);
    const sizes = (paths: readonly string[]): number => paths.reduce((sum, path) => sum + statSync(path).size, 0);
    const loaded = readdirSync(folder).flatMap((name) => scriptsIn(readFileSync(join(folder, name), 'utf8')));
    const parts = readdirSync(builtParts).map((name) => join(builtParts, name));
    expect(loaded.length).toBeGreaterThan(2);
    expect(sizes(loaded.filter((path) => parts.includes(path))) / sizes(parts)).toBeLessThan(0.45);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
