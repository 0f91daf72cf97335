import { execFileSync } from 'node:child_process';
import { linkSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { findingsJsonSection } from '../../src/reference/findings-json.ts';
import { writeWhole } from '../../src/cli/output-file.ts';
import { FileError } from '../../src/cli/usage-error.ts';
import type { RawBook, RawCell } from '../../src/xlsx/read/raw-book.ts';
import { positionName } from '../../src/xlsx/read/cell-address.ts';
import { readLimits } from '../../src/xlsx/read/read-limits.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { demoBelts, demoFile, demoRows, listFile, otherProgramsFile, type Row, testFolder } from './lists.ts';
import { book, ran, ready } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 180_000 });

let folder = '';
const at = (name: string): string => join(folder, name);

/** A line, and after it, as the last one, whom to ask. */
const endAsking = (line: RegExp): RegExp =>
  new RegExp(String.raw`${line.source}\nAsk the plate supplier or a competent engineer before .*\n$`);

/** A list under a plant's own headers, with its own order and a title above. */
const ownHeaders = {
  Belt: 'Conveyor no.',
  Width: 'Belt width [mm]',
  'Smallest pulley': 'Pulley min dia (mm)',
  Construction: 'Belt type',
  Installed: 'Date fitted',
};

beforeAll(async () => {
  folder = await testFolder();
  const rows = demoRows(ownHeaders);
  const width = rows[0]?.length ?? 0;
  await otherProgramsFile(at('fleet.xlsx'), [
    ['Conveyor list 2026', ...Array.from({ length: width - 1 }, () => null)],
    ...rows,
  ]);
  await demoFile(at('plates.xlsx'));
  await demoFile(at('us.xlsx'), 'us');
  await ready();
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const opened = (name: string): RawBook => readBook(readFileSync(at(name)), readLimits, true);

/** Cells of a written sheet by record and header. */
function column(book: RawBook, sheet: string, header: string): (RawCell | undefined)[] {
  const found = book.sheets.find(({ name }) => name === sheet);
  const place = found?.rows
    .get(1)
    ?.find(({ value }) => value === header || String(value).startsWith(`${header} (`))?.column;
  expect(place, `${sheet}.${header}`).toBeDefined();
  return Array.from({ length: (found?.lastRow ?? 1) - 1 }, (_, index) =>
    found?.rows.get(index + 2)?.find((cell) => cell.column === place),
  );
}

/** The fields of a tree as the reference names them: "findings[].given.value". */
function fieldsOf(tree: unknown, before = ''): string[] {
  if (Array.isArray(tree)) return tree.flatMap((item) => fieldsOf(item, `${before}[]`));
  if (typeof tree !== 'object' || tree === null) return [];
  return Object.entries(tree).flatMap(([name, value]) => {
    const field = before === '' ? name : `${before}.${name}`;
    return [field, ...fieldsOf(value, field)];
  });
}

describe('calc', () => {
  test("writes a full book from another program's list, and says what it made of it", async () => {
    const before = { bytes: readFileSync(at('fleet.xlsx')), time: statSync(at('fleet.xlsx')).mtimeMs };
    const { code, out, err } = await ran(
      ['calc', 'fleet.xlsx', 'book.xlsx', '--series', 'plates.xlsx', '--date', '2026-11-25'],
      { folder },
    );
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(/^Read fleet\.xlsx \(metric: /);
    expect(out).toMatch(/fleet\.xlsx, sheet "fleet": 36 records of Belts, headers in row 2/);
    expect(out).toMatch(/A "Conveyor no\." -> Belt/);
    expect(out).toMatch(/"Pulley min dia \(mm\)" -> Smallest pulley \(in mm/);
    expect(out).toMatch(/skipped: row 1 \(title: Conveyor list 2026\)/);
    expect(out).toContain('All cells were understood.');
    expect(out).toMatch(/Plate series: not in the file; the 10 of plates\.xlsx are kept, which are invented/);
    expect(out).not.toContain('Exported differently');
    expect(out).toContain('Joint age is counted to 2026-11-25 (as given).');
    expect(out).toMatch(
      /36 belts: 19 fit, 4 tight, 10 fail, 3 not known\. Methods to compare: \d+ belts\. \d+ findings, in the sheet /,
    );
    expect(out).toMatch(endAsking(/Wrote book\.xlsx\./));
    expect(readFileSync(at('fleet.xlsx')).equals(before.bytes)).toBe(true);
    expect(statSync(at('fleet.xlsx')).mtimeMs).toBe(before.time);
    const book = opened('book.xlsx');
    expect(book.sheets.map(({ name }) => name)).toEqual(
      expect.arrayContaining(['Belts', 'Plate series', 'Strips', 'Assumptions', 'Units', 'Findings', 'Functions']),
    );
    const verdicts = column(book, 'Belts', 'Verdict');
    expect(verdicts.filter((cell) => cell?.value === 'fits')).toHaveLength(19);
    expect(verdicts.every((cell) => cell?.formula !== undefined)).toBe(true);
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('another program works the book out to the same values, and every error in it is explained', async () => {
    const [ours, theirs] = [opened('book.xlsx'), await recalculated(readFileSync(at('book.xlsx')))];
    const shown = (cell: RawCell | undefined): unknown =>
      cell?.error ?? (cell?.value === '' ? null : (cell?.value ?? null));
    const agree = (one: unknown, other: unknown): boolean =>
      typeof one === 'number' && typeof other === 'number'
        ? Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other))
        : one === other || (isError(one) && isError(other));
    const isError = (value: unknown): boolean => typeof value === 'string' && value.startsWith('#');
    // Working columns stand in the file without values of their own.
    const isWorking = ({ formula, value, error }: RawCell): boolean =>
      formula !== undefined && value === null && error === undefined;
    let formulas = 0;
    const differing: string[] = [];
    const erring = new Set<number>();
    for (const { name, rows } of ours.sheets) {
      const other = theirs.sheets.find((sheet) => sheet.name === name);
      for (const [row, cells] of rows) {
        for (const cell of cells) {
          if (isWorking(cell)) continue;
          const there = other?.rows.get(row)?.find(({ column: position }) => position === cell.column);
          if (cell.formula !== undefined) formulas += 1;
          if (cell.error !== undefined && name === 'Belts') erring.add(row - 2);
          if (!agree(shown(cell), shown(there)))
            differing.push(`${name}!${positionName(cell)}: ${String(shown(cell))} here, ${String(shown(there))} there`);
        }
      }
    }
    expect(differing).toEqual([]);
    expect(formulas).toBeGreaterThan(36 * belts.columns.filter(isComputed).length);
    expect(erring.size).toBeGreaterThan(0);
    const records = column(ours, 'Belts', 'Belt').map((cell) => cell?.value);
    const [named, verdicts] = [column(ours, 'Findings', 'Record'), column(ours, 'Findings', 'Verdict')];
    const explained = new Set(
      named.flatMap((cell, index) => (verdicts[index]?.value === 'not known' ? [cell?.value] : [])),
    );
    expect([...erring].filter((record) => !explained.has(records[record]))).toEqual([]);
  });

  test('--units turns the book, whatever the list is in', async () => {
    const { code, out } = await ran(
      ['calc', 'fleet.xlsx', 'turned.xlsx', '--units', 'us', '--series', 'plates.xlsx', '--date=2026-11-25'],
      { folder },
    );
    expect(code).toBe(0);
    expect(out).toMatch(/36 belts: 19 fit, 4 tight, 10 fail, 3 not known/);
    const widths = column(opened('turned.xlsx'), 'Belts', 'Width');
    expect(Number(widths[0]?.value)).toBeCloseTo(1200 / 25.4, 9);
    expect(column(opened('turned.xlsx'), 'Plate series', 'Pitch')[0]?.value).toBeCloseTo(27.5 / 25.4, 9);
  });

  test('a book of ours comes out as it went in, with its own day', async () => {
    const { code, out } = await ran(['calc', 'us.xlsx', 'again.xlsx'], { folder });
    expect(code).toBe(0);
    expect(out).toContain("Joint age is counted to 2026-11-25 (the book's review date).");
    expect(out).toMatch(/36 belts: 19 fit, 4 tight, 10 fail, 3 not known/);
    for (const header of ['Width', 'Verdict', 'Plates', 'Working tension']) {
      expect(column(opened('again.xlsx'), 'Belts', header).map((cell) => cell?.value)).toEqual(
        column(opened('us.xlsx'), 'Belts', header).map((cell) => cell?.value),
      );
    }
  });

  test('without series says where they are to come from', async () => {
    const { code, out } = await ran(['calc', 'fleet.xlsx', 'bare.xlsx'], { folder });
    expect(code).toBe(0);
    expect(out).toMatch(/no plate series.*--series/);
    expect(out).toMatch(/36 belts: 0 fit, 0 tight/);
  });

  test('replaces a file that is there, and says so', async () => {
    writeFileSync(at('old.xlsx'), 'old');
    const { code, out } = await ran(['calc', 'fleet.xlsx', 'old.xlsx'], { folder });
    expect(code).toBe(0);
    expect(out).toMatch(endAsking(/Wrote old\.xlsx, replacing the existing file\./));
    expect(opened('old.xlsx').sheets.length).toBeGreaterThan(4);
  });

  test.each([
    ['under its own name', () => 'fleet.xlsx'],
    ['under another spelling of its path', () => join('..', folder.split('/').at(-1) ?? '', '.', 'fleet.xlsx')],
    [
      'through a symbolic link',
      () => {
        symlinkSync(at('fleet.xlsx'), at('link.xlsx'));
        return 'link.xlsx';
      },
    ],
    [
      'through a hard link',
      () => {
        linkSync(at('fleet.xlsx'), at('hard.xlsx'));
        return 'hard.xlsx';
      },
    ],
    ['as the other book', () => 'plates.xlsx'],
  ])('refuses to write over its input, %s', async (_, output) => {
    const before = readFileSync(at('fleet.xlsx'));
    const plates = readFileSync(at('plates.xlsx'));
    const { code, out, err } = await ran(['calc', 'fleet.xlsx', output(), '--series', 'plates.xlsx'], { folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/is the same file as the input (fleet|plates)\.xlsx, which is never changed/);
    expect(readFileSync(at('fleet.xlsx')).equals(before)).toBe(true);
    expect(readFileSync(at('plates.xlsx')).equals(plates)).toBe(true);
  });

  test.each([
    ['out.csv', /out\.csv could not be written: .*end in \.xlsx/],
    ['nowhere/out.xlsx', /nowhere\/out\.xlsx could not be written: there is no folder nowhere/],
    ['folder.xlsx', /folder\.xlsx could not be written: it is a folder/],
  ])('refuses the output %s before any work', async (output, message) => {
    mkdirSync(at('folder.xlsx'), { recursive: true });
    const { code, out, err } = await ran(['calc', 'fleet.xlsx', output], { folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(message);
  });

  test('a disk that takes only part of the book leaves the old one as it was', () => {
    writeFileSync(at('kept.xlsx'), 'the book of last year');
    // Files of at most 8 kB, as on a full disk.
    expect(() =>
      execFileSync(
        'bash',
        ['-c', 'ulimit -f 8; exec "$0" "$@"', process.execPath, ...book, 'calc', 'fleet.xlsx', 'kept.xlsx'],
        { cwd: folder, stdio: 'pipe' },
      ),
    ).toThrow(/kept\.xlsx could not be written/);
    expect(readFileSync(at('kept.xlsx'), 'utf8')).toBe('the book of last year');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  test('a file is put in place in one step, also through a link', () => {
    writeFileSync(at('real.xlsx'), 'old');
    symlinkSync(at('real.xlsx'), at('pointer.xlsx'));
    writeWhole(at('pointer.xlsx'), new TextEncoder().encode('new'));
    expect(readFileSync(at('real.xlsx'), 'utf8')).toBe('new');
    expect(() => writeWhole(at('missing/file.xlsx'), new Uint8Array(3))).toThrow(FileError);
  });
});

describe('what can not be used', () => {
  beforeAll(async () => {
    writeFileSync(at('text.xlsx'), '<html><body><table><tr><td>Belt</td></tr></table></body></html>');
    writeFileSync(at('cut.xlsx'), readFileSync(at('fleet.xlsx')).subarray(0, 3000));
    writeFileSync(at('empty.xlsx'), '');
    await listFile(at('other.xlsx'), {
      Invoices: [
        ['Number', 'Customer', 'Amount'],
        [1, 'A', 20],
        [2, 'B', 30],
      ],
    });
  });

  test.each([
    ['absent.xlsx', /absent\.xlsx could not be read: there is no such file/],
    ['.', /could not be read: it is a folder/],
    ['text.xlsx', /text\.xlsx could not be used: /],
    ['cut.xlsx', /cut\.xlsx could not be used: /],
    ['empty.xlsx', /empty\.xlsx could not be used: .*empty/],
    ['other.xlsx', /other\.xlsx could not be used: /],
    ['fleet.xlsx/inside', /could not be read: a part of its path is a file/],
  ])('%s: exit code 2 and a message with its name, from check, check --json and calc', async (input, message) => {
    for (const args of [
      ['check', input],
      ['check', '--json', input],
      ['calc', input, 'never.xlsx'],
    ]) {
      const { code, out, err } = await ran(args, { folder });
      expect({ code, out }).toEqual({ code: 2, out: '' });
      expect(err).toMatch(message);
      expect(err).not.toMatch(/\n\s+at /);
    }
    expect(readdirSync(folder)).not.toContain('never.xlsx');
  });

  test('a pipe is no file', () => {
    expect(() =>
      execFileSync('bash', ['-c', '"$0" "$@" check <(cat fleet.xlsx)', process.execPath, ...book], {
        cwd: folder,
        stdio: 'pipe',
      }),
    ).toThrow(/not a file on disk/);
  });

  test.each([
    [['--map', 'Belt width'], /--map takes two names with "=" between them; "Belt width"/],
    [['--map', 'Nothing like it=Width'], /Nothing like it/],
    [['--map', 'Belt width [mm]=Nonsense'], /Nonsense/],
    [['--fill', 'Colour=red'], /Colour/],
    [['--fill', 'Skew=steep'], /Skew.*steep/],
    [['--sheet', 'Other'], /Other/],
    [['--header-row', '0'], /--header-row must be a row number, 1 or more; "0"/],
    [['--date', '2026-02-30'], /--date must be a date/],
    [['--date', '25.11.2026'], /--date must be a date/],
    [['--decimal', 'dot'], /--decimal must be one of point, comma; "dot"/],
    [['--series', 'absent.xlsx'], /absent\.xlsx could not be read/],
  ])('the choice %j is refused with what is wrong', async (choice, message) => {
    const { code, out, err } = await ran(['check', 'fleet.xlsx', ...choice], { folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(message);
    expect(err).not.toMatch(/\n\s+at /);
  });
});

describe('check', () => {
  test('exit code 1 when belts fail; every line names the file, sheet and cell of the list', async () => {
    const { code, out, err } = await ran(['check', 'fleet.xlsx', '--series', 'plates.xlsx', '--date', '2026-11-25'], {
      folder,
    });
    expect({ code, err }).toEqual({ code: 1, err: '' });
    // C3 is the 23rd belt, below a title and the headers; the list's tenth column is the smallest pulley.
    expect(out).toMatch(/^FAILS C3, pulley: The smallest pulley, 630 mm, .*\(fleet\.xlsx, fleet!J25\)$/m);
    expect(out).toMatch(/^ {2}cure: /m);
    expect(out).toMatch(
      endAsking(/fleet\.xlsx: 36 belts: 19 fit, 4 tight, 10 fail, 3 not known\. Methods to compare: \d+ belts\./),
    );
  });

  test('exit code 0 when none fails', async () => {
    const fine = demoBelts('fits', 'tight');
    await listFile(at('fine.xlsx'), { Belts: demoRows({}, (name) => fine.has(name)) });
    const { code, out } = await ran(['check', 'fine.xlsx', '--series', 'plates.xlsx', '--date', '2026-11-25'], {
      folder,
    });
    expect(out).toMatch(endAsking(/23 belts: 19 fit, 4 tight, 0 fail, 0 not known\. Methods to compare: \d+ belts\./));
    expect(code).toBe(0);
  });

  test('--json prints one object of the documented shape and nothing else', async () => {
    const { code, out, err } = await ran(
      ['check', '--json', 'fleet.xlsx', '--series', 'plates.xlsx', '--date', '2026-11-25'],
      { folder },
    );
    expect({ code, err }).toEqual({ code: 1, err: '' });
    const told: unknown = JSON.parse(out);
    const figure = { label: expect.any(String), kind: expect.any(String), unit: expect.any(String) };
    expect(told).toMatchObject({
      file: 'fleet.xlsx',
      units: 'metric',
      reviewDate: '2026-11-25',
      counts: { belts: 36, fits: 19, tight: 4, fails: 10, 'not known': 3 },
      findings: expect.arrayContaining([
        expect.objectContaining({
          sheet: 'Belts',
          record: 22,
          name: 'C3',
          check: 'pulley',
          verdict: 'fails',
          column: 'Smallest pulley',
          cell: 'Belts!J24',
          place: 'fleet.xlsx, fleet!J25',
          message: expect.stringContaining('630 mm'),
          given: { ...figure, value: 630, unit: 'mm' },
          limit: expect.objectContaining({ ...figure, unit: 'mm' }),
          cures: expect.arrayContaining([expect.any(String)]),
        }),
      ]),
      notUnderstood: [],
    });
  });

  test('--json prints the fields that the reference lists, and no others', async () => {
    await listFile(at('wide.xlsx'), {
      Fleet: [
        ['Belt', 'Belt width (mm)', 'Skew'],
        ['A', 'wide', 0],
      ],
    });
    const inputs = [['fleet.xlsx', '--series', 'plates.xlsx'], ['wide.xlsx']];
    const printed = await Promise.all(inputs.map((input) => ran(['check', '--json', ...input], { folder })));
    const seen = new Set(printed.flatMap(({ out }) => fieldsOf(JSON.parse(out))));
    const listed = findingsJsonSection().groups.flatMap(({ entries }) =>
      entries.map(({ name }) => name.replaceAll('`', '')),
    );
    expect([...seen].toSorted()).toEqual(listed.toSorted());
  });

  test('bad cells are told with their place, what is wrong and what is allowed', async () => {
    const bad: Row[] = [
      ['Belt', 'Belt width (mm)', 'Skew', 'Plate series'],
      ['A', 650, 45, 'Plover'],
      ['B', 'wide', 0, 'Plover'],
      ['C', -650, 0, 'Plover'],
      ['D', 650, 90, 'Plover'],
      ['E', 650, 0, 'Nowhere'],
      ['A', 800, 0, 'Plover'],
    ];
    await listFile(at('bad.xlsx'), { Fleet: bad });
    const { out } = await ran(['check', 'bad.xlsx', '--series', 'plates.xlsx'], { folder });
    expect(out).toMatch(/bad\.xlsx, Fleet!B3, Width: "wide" was not understood: .*allowed: /);
    expect(out).toMatch(/Width.*-650.*\(bad\.xlsx, Fleet!B4\)/);
    expect(out).toMatch(/90.*(square|edge)/);
    expect(out).toMatch(/Fleet!C5/);
    expect(out).toMatch(/"?Nowhere"?.*\(bad\.xlsx, Fleet!D6\)/);
    expect(out).toMatch(/\bA\b.*(twice|already|also|same|own).*\(bad\.xlsx, Fleet!A[27]\)/);
  });

  test('a figure of the plate series that is missing is told where the list has it', async () => {
    const plates = [
      ['Series', 'Minimum thickness (mm)', 'Tension rating (N/mm)'],
      ['Dunlin', 4, 20],
      ['Plover', 6, null],
    ];
    const fleet = [
      ['Belt', 'Width (mm)', 'Skew', 'Plate series', 'Known tension (N/mm)'],
      ['A', 650, 45, 'Plover', 10],
    ];
    await listFile(at('own-plates.xlsx'), { Fleet: fleet, Plates: plates });
    const { out } = await ran(['check', 'own-plates.xlsx'], { folder });
    expect(out).toMatch(/NOT KNOWN A, tension: .*Tension rating is empty.*\(own-plates\.xlsx, Plates!C3\)/);
    expect(out).toContain('cure: Tension rating of Plover: ');
  });

  test('choices are heeded: a column by name, blanks filled, skews from the edge', async () => {
    await listFile(at('odd.xlsx'), {
      Notes: [['nothing here']],
      Fleet: [
        ['Belt', 'Wd', 'Angle of joint'],
        ['A', 650, 90],
        ['B', 800, 45],
      ],
      Spare: [
        ['Belt', 'Width (mm)', 'Skew'],
        ['Z', 500, 0],
      ],
    });
    const { code, out } = await ran(
      [
        'calc',
        'odd.xlsx',
        'odd-book.xlsx',
        '--sheet',
        'Fleet',
        '--header-row',
        '1',
        '--map',
        'Wd=Width',
        '--map',
        'Angle of joint=Skew',
        '--skew-from',
        'edge',
        '--fill',
        'Plate series=Plover',
        '--series',
        'plates.xlsx',
      ],
      { folder },
    );
    expect({ code, out }).toMatchObject({ code: 0 });
    const book = opened('odd-book.xlsx');
    expect(column(book, 'Belts', 'Width').map((cell) => cell?.value)).toEqual([650, 800]);
    expect(column(book, 'Belts', 'Skew').map((cell) => cell?.value)).toEqual([0, 45]);
    expect(column(book, 'Belts', 'Plate series').map((cell) => cell?.value)).toEqual(['Plover', 'Plover']);
    expect(book.sheets.map(({ name }) => name)).toContain('Spare');
  });

  test('--date moves the ages of joints', async () => {
    const aged = async (date: string): Promise<string> =>
      (await ran(['check', 'fleet.xlsx', '--series', 'plates.xlsx', '--date', date], { folder })).out;
    expect(await aged('2026-11-25')).not.toMatch(/FAILS C1, age/);
    expect(await aged('2028-11-25')).toMatch(/FAILS C1, age/);
  });
});
