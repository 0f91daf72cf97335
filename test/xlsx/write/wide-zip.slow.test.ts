import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { nativePack } from '../../../src/cli/native-packing.ts';
import { joinedBytes, PartPieces } from '../../../src/xlsx/write/packing.ts';
import { type WideFrom, zipFile, type ZipPart } from '../../../src/xlsx/write/zip-file.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { bookParts } from '../../../src/xlsx/read/zip-guard.ts';
import { zipDirectory } from '../../../src/xlsx/read/zip-directory.ts';
import { madeParts, onlySheet } from '../read/made-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';

/** Archives in the wide (64-bit) form, which a sheet beyond 4 GB needs, made small, as other programs have them. */

const folder = mkdtempSync(join(tmpdir(), 'skewbook-wide-'));
const cells = madeParts({ sheets: [{ rows: '<row r="1"><c r="A1"><v>5</v></c></row>' }] });

const python = (script: string, ...args: readonly string[]): string =>
  execFileSync('python3', ['-c', script, ...args], { encoding: 'utf8' }).trim();

async function wideFile(name: string, from: WideFrom): Promise<string> {
  const parts: ZipPart[] = [];
  for (const [path, bytes] of Object.entries(cells)) {
    const pieces = new PartPieces({ pack: nativePack });
    pieces.add(Uint8Array.from(bytes));
    parts.push({ path, part: await pieces.packed() });
  }
  const file = join(folder, name);
  writeFileSync(file, joinedBytes([...zipFile(parts, from)]));
  return file;
}

/** The sizes and the content of every part, as Python reads them. */
const listed = `
import sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as file:
    assert file.testzip() is None
    for part in file.infolist():
        print(part.filename, part.file_size, part.extract_version, len(file.read(part)))`;

const from = { bytes: 0xffffffff, parts: 0xffff };

test.each([
  ['sizes, places and ends', { bytes: 1, parts: 1 }, 45],
  ['what is larger than 300 bytes', { ...from, bytes: 300 }, undefined],
  ['many parts', { ...from, parts: 2 }, 20],
] as const)('what is written wide is read by others and here: %s', async (title, wideFrom, version) => {
  const file = await wideFile(`${title}.xlsx`, wideFrom);
  const bytes = new Uint8Array(readFileSync(file));
  expect(onlySheet(readBook(bytes)).rows.get(1)).toEqual([{ row: 1, column: 1, value: 5 }]);
  expect(execFileSync('unzip', ['-t', file], { encoding: 'utf8' })).toMatch(/No errors detected/);
  const lines = python(listed, file).split('\n');
  const versions = lines.map((line) => Number(line.split(' ').at(-2)));
  expect(lines.map((line) => line.split(' ').slice(0, 2))).toEqual(
    Object.entries(cells).map(([path, { length }]) => [path, String(length)]),
  );
  expect(lines.every((line) => line.split(' ')[1] === line.split(' ')[3])).toBe(true);
  expect([...new Set(versions)].toSorted()).toEqual(version === undefined ? [20, 45] : [version]);
});

test('what Python writes wide is read', () => {
  const file = join(folder, 'python.xlsx');
  const contents = JSON.stringify(
    Object.fromEntries(Object.entries(cells).map(([path, bytes]) => [path, new TextDecoder().decode(bytes)])),
  );
  python(
    `
import json, sys, zipfile
with zipfile.ZipFile(sys.argv[1], 'w', zipfile.ZIP_DEFLATED) as file:
    for path, text in json.loads(sys.argv[2]).items():
        with file.open(path, 'w', force_zip64=True) as part:
            part.write(text.encode())`,
    file,
    contents,
  );
  const bytes = new Uint8Array(readFileSync(file));
  expect(onlySheet(readBook(bytes)).rows.get(1)).toEqual([{ row: 1, column: 1, value: 5 }]);
  // Python says both sizes before each part in a wide field.
  expect(new DataView(bytes.buffer).getUint32(18, true)).toBe(0xffffffff);
});

test('sizes and places beyond all measure are refused in a sentence', async () => {
  const file = new Uint8Array(readFileSync(await wideFile('lies.xlsx', { bytes: 1, parts: 1 })));
  const fields = zipDirectory(file, readLimits).map(({ path }) => path);
  const lied = (field: number, value: bigint): string => {
    const bytes = Uint8Array.from(file);
    const view = new DataView(bytes.buffer);
    // The directory's entry of the sheet, its name, and behind the head of the wide field size, packed size and place.
    const name = 'xl/worksheets/sheet1.xml';
    const at = Buffer.from(bytes).lastIndexOf(name);
    view.setBigUint64(at + name.length + 4 + 8 * field, value, true);
    try {
      const parts = bookParts(bytes, { ...readLimits, ratioFrom: Infinity });
      for (const path of fields) parts.unpack(path, () => undefined);
      return 'read';
    } catch (error) {
      return error instanceof Error ? error.message : '';
    }
  };
  expect(lied(0, 2n ** 60n)).toMatch(/^The file's parts unpack to 1,099,511,627,776 MiB; at most 512 MiB are read\./);
  expect(lied(0, 2n ** 64n - 1n)).toMatch(/^The file's parts unpack to [\d,]+ MiB; at most 512 MiB are read\./);
  expect(lied(0, 20n)).toMatch(/holds more than the 20 bytes that the file's list of parts says/);
  expect(lied(0, 2n ** 20n)).toMatch(/holds less than the 1,048,576 bytes that the file's list of parts says/);
  expect(lied(1, 2n ** 53n + 1n)).toMatch(/reaches beyond the end of the file/);
  expect(lied(1, 7n)).toMatch(/damaged/);
  expect(lied(2, 2n ** 63n)).toMatch(/is not where its list of parts says/);
  expect(lied(2, 5n)).toMatch(/is not where its list of parts says/);
});
