import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import type { UnreadableReason } from '../../../src/xlsx/read/unreadable-file.ts';
import { madeFile, madeParts, onlySheet, refusalOf, transitional } from './made-book.ts';
import { good, refused, sheetFile } from './refusals.ts';

/** The offsets of a signature in the file, by which the tests below falsify its directory. */
function offsets(bytes: Uint8Array, signature: number): number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found: number[] = [];
  for (let at = 0; at + 4 <= bytes.length; at++) if (view.getUint32(at, true) === signature) found.push(at);
  return found;
}
const entrySignature = 0x02014b50;
const endSignature = 0x06054b50;

/** The file with a field of the directory entry of a part changed. */
function withEntryField(
  bytes: Uint8Array,
  part: string,
  offset: number,
  size: 2 | 4,
  change: (before: number) => number,
): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (const at of offsets(copy, entrySignature)) {
    const name = new TextDecoder().decode(copy.subarray(at + 46, at + 46 + view.getUint16(at + 28, true)));
    if (name !== part) continue;
    if (size === 2) view.setUint16(at + offset, change(view.getUint16(at + offset, true)), true);
    else view.setUint32(at + offset, change(view.getUint32(at + offset, true)), true);
    return copy;
  }
  throw new Error(`no entry for ${part}`);
}

describe('files that are no .xlsx workbook', () => {
  test('an empty file', () => refused(new Uint8Array(), 'empty file', /empty \(0 bytes\).*copy or download/s));

  const bytes = (...values: number[]): Uint8Array => Uint8Array.from([...values, ...new Array<number>(600).fill(0)]);
  const wide = (text: string): number[] => [...text].flatMap((letter) => [letter.charCodeAt(0), 0]);
  const compound = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

  test.each<[string, Uint8Array, UnreadableReason, RegExp]>([
    [
      'an old .xls',
      bytes(...compound, ...wide('Workbook')),
      'old xls',
      /old \.xls workbook.*whatever its name.*save it as \.xlsx/s,
    ],
    [
      'a workbook with a password',
      bytes(...compound, ...wide('xEncryptedPackage')),
      'password',
      /protected by a password.*remove the password.*\.xlsx/s,
    ],
    ['a very old .xls', bytes(9, 8, 16, 0, 0, 6), 'old xls', /very old \.xls.*save it as \.xlsx/s],
    [
      'a web page named .xls',
      strToU8('<html><body><table><tr><td>1</td></tr></table></body></html>'),
      'not a zip',
      /web page.*\.xls.*save it as \.xlsx/s,
    ],
    [
      'an XML spreadsheet',
      strToU8('<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"/>'),
      'not a zip',
      /XML spreadsheet of 2003/,
    ],
    ['any XML', strToU8('<?xml version="1.0"?><belts/>'), 'not a zip', /an XML file/],
    ['a PDF', strToU8('%PDF-1.7\n%âãÏÓ'), 'not a zip', /PDF document.*Ask for the workbook/s],
    ['a gzip', bytes(0x1f, 0x8b, 8), 'not a zip', /compressed archive.*Unpack/s],
    ['zero bytes', new Uint8Array(5000), 'not a zip', /zero bytes.*copy or download it again/s],
    [
      'other bytes',
      bytes(1, 2, 3, 200),
      'not a zip',
      /may be an old \.xls, a \.csv or other text, an \.ods or \.xlsb.*save it as \.xlsx/s,
    ],
    [
      'an .ods without a sheet',
      zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.spreadsheet'), 'content.xml': strToU8('<a/>') }),
      'not a workbook',
      /OpenDocument spreadsheet without a sheet.*Choose the workbook/s,
    ],
    [
      'an .odt',
      zipSync({ mimetype: strToU8('application/vnd.oasis.opendocument.text') }),
      'opendocument',
      /OpenDocument file without a spreadsheet.*Choose the workbook/s,
    ],
    [
      'a zip with a workbook in it',
      zipSync({ 'lists/belts.xlsx': good }),
      'not a workbook',
      /zip archive that holds lists\/belts\.xlsx.*Unpack it/s,
    ],
    [
      'a zip with something else',
      zipSync({ 'a.txt': strToU8('x') }),
      'not a workbook',
      /without the part _rels\/\.rels.*workbook part/s,
    ],
    ['a zip with nothing', zipSync({}), 'not a workbook', /_rels\/\.rels/],
    [
      'a document of .iwa parts',
      zipSync({ 'Index/Document.iwa': strToU8('x') }),
      'not a workbook',
      /\.iwa.*Export it/s,
    ],
    [
      'a text document',
      madeFile({ parts: { 'xl/workbook.xml': '<w:document xmlns:w="x"/>' } }),
      'not a workbook',
      /xl\/workbook\.xml is a text document.*Choose the workbook/s,
    ],
    [
      'a package without a workbook',
      zipSync({ '_rels/.rels': strToU8('<Relationships/>') }),
      'not a workbook',
      /names no workbook part/,
    ],
    ['no sheet', madeFile({ sheets: [] }), 'not a workbook', /no sheet with cells/],
    [
      'charts alone',
      sheetFile({ type: 'chartsheet', part: '<chartsheet/>' }),
      'not a workbook',
      /no sheet with cells \(only charts or macros\)/,
    ],
  ])('%s', (_name, file, reason, words) => refused(file, reason, words));

  test('a binary workbook', () => {
    const rels =
      `<Relationships><Relationship Id="a" Type="${transitional.related}/officeDocument" ` +
      `Target="xl/workbook.bin"/></Relationships>`;
    refused(
      zipSync({ '_rels/.rels': strToU8(rels), 'xl/workbook.bin': strToU8('x') }),
      'binary workbook',
      /\.xlsb.*save it as \.xlsx/s,
    );
  });
});

describe('damaged archives', () => {
  test('cut off anywhere, a file is refused and the refusal says so', () => {
    for (let length = 4; length < good.length; length += 7) {
      const { reason, message } = refusalOf(good.subarray(0, length));
      expect(reason).toBe('cut off');
      expect(message).toMatch(/cut off.*list of its parts.*Copy or download the file again/s);
    }
  });

  test('a part shorter than the directory says, or longer', () => {
    const part = 'xl/worksheets/sheet1.xml';
    refused(
      withEntryField(good, part, 24, 4, (size) => size - 1),
      'wrong size',
      /sheet1\.xml holds more than the \d+ bytes/,
    );
    refused(
      withEntryField(good, part, 24, 4, (size) => size + 1),
      'wrong size',
      /sheet1\.xml holds less than the \d+ bytes/,
    );
    refused(
      withEntryField(good, part, 24, 4, () => 0),
      'wrong size',
      /more than the 0 bytes/,
    );
    refused(
      withEntryField(good, part, 20, 4, (size) => size - 3),
      'damaged',
      /sheet1\.xml cannot be unpacked after 0 of its \d+ packed bytes.*Copy or download/s,
    );
  });

  test('an understated size does not let a bomb unpack', () => {
    const bomb = madeFile({ parts: { 'xl/worksheets/sheet1.xml': new Uint8Array(200 * 1024 * 1024).fill(120) } });
    expect(bomb.length).toBeLessThan(300_000);
    const before = process.memoryUsage().rss;
    refused(
      withEntryField(bomb, 'xl/worksheets/sheet1.xml', 24, 4, () => 1000),
      'wrong size',
      /holds more than the 1,000 bytes/,
    );
    expect(process.memoryUsage().rss - before).toBeLessThan(150 * 1024 * 1024);
  }, 180_000);

  test('bytes that do not match their checksum', () => {
    refused(
      withEntryField(good, 'xl/sharedStrings.xml', 16, 4, (sum) => sum ^ 1),
      'damaged',
      /sharedStrings\.xml do not match their checksum.*cannot be trusted.*Copy or download/s,
    );
  });

  test('an encrypted part, and one packed by another method', () => {
    refused(
      withEntryField(good, 'xl/workbook.xml', 8, 2, (flags) => flags | 1),
      'password',
      /password.*xl\/workbook\.xml is encrypted.*without a password/s,
    );
    refused(
      withEntryField(good, 'xl/workbook.xml', 10, 2, () => 14),
      'unknown compression',
      /xl\/workbook\.xml is packed by method 14; workbook files store \(0\) or deflate \(8\)/,
    );
  });

  test('a directory that points elsewhere', () => {
    refused(
      withEntryField(good, 'xl/workbook.xml', 42, 4, () => 0xfffffff0),
      'damaged',
      /xl\/workbook\.xml is not where/,
    );
    refused(
      withEntryField(good, 'xl/workbook.xml', 42, 4, (at) => at + 1),
      'damaged',
      /xl\/workbook\.xml is not where/,
    );
    refused(
      withEntryField(good, 'xl/workbook.xml', 20, 4, () => 0x7ffffff0),
      'damaged',
      /xl\/workbook\.xml reaches beyond the end of the file/,
    );
    refused(
      withEntryField(good, 'xl/workbook.xml', 28, 2, () => 0xffff),
      'damaged',
      /part \d+ of \d+ reaches beyond its list/,
    );
    const [end = 0] = offsets(good, endSignature);
    const shifted = good.slice();
    new DataView(shifted.buffer).setUint32(end + 16, 0xfffffff0, true);
    refused(shifted, 'damaged', /list of parts reaches beyond the end/);
    const many = good.slice();
    new DataView(many.buffer).setUint16(end + 10, 60, true);
    refused(many, 'damaged', /part \d+ of 60 is missing in its list of parts/);
  });

  test('one part twice, under names that differ in case', () => {
    refused(
      zipSync({ ...madeParts({}), 'XL/Workbook.xml': strToU8('<workbook/>') }),
      'damaged',
      /holds part .*orkbook\.xml twice/,
    );
  });

  test('bytes behind the archive and a comment are no fault', () => {
    const [end = 0] = offsets(good, endSignature);
    const longer = new Uint8Array(good.length + 3000);
    longer.set(good);
    new DataView(longer.buffer).setUint16(end + 20, 3000, true);
    expect(readBook(longer).sheets).toHaveLength(1);
  });

  test('a directory in the wide (64-bit) form is read, and its lies are refused', () => {
    const [end = 0] = offsets(good, endSignature);
    const view = new DataView(good.buffer, good.byteOffset, good.byteLength);
    const file = (count: bigint, start: bigint, record: bigint): Uint8Array => {
      const bytes = new Uint8Array(good.length + 76);
      bytes.set(good.subarray(0, end));
      bytes.set(good.subarray(end), end + 76);
      const out = new DataView(bytes.buffer);
      out.setUint32(end, 0x06064b50, true);
      out.setBigUint64(end + 4, 44n, true);
      out.setBigUint64(end + 32, count, true);
      out.setBigUint64(end + 40, BigInt(view.getUint32(end + 12, true)), true);
      out.setBigUint64(end + 48, start, true);
      out.setUint32(end + 56, 0x07064b50, true);
      out.setBigUint64(end + 64, record, true);
      out.setUint16(end + 76 + 10, 0xffff, true);
      out.setUint32(end + 76 + 12, 0xffffffff, true);
      out.setUint32(end + 76 + 16, 0xffffffff, true);
      return bytes;
    };
    const count = BigInt(view.getUint16(end + 10, true));
    const start = BigInt(view.getUint32(end + 16, true));
    expect(readBook(file(count, start, BigInt(end)))).toEqual(readBook(good));
    refused(
      file(2n ** 60n, start, BigInt(end)),
      'too many parts',
      /hold 1,152,921,504,606,847,000 parts; at most 10,000/,
    );
    refused(file(count, 2n ** 62n, BigInt(end)), 'damaged', /beyond the end/);
    refused(file(count, start, 2n ** 63n), 'damaged', /points nowhere/);
  });

  test('a part in the wide form', () => {
    const parts = madeParts({ sheets: [{ rows: '<row><c><v>5</v></c></row>' }] });
    // The writer keeps room for an extra field of the right size; the sizes are then moved into it.
    const file = zipSync(
      Object.fromEntries(
        Object.entries(parts).map(([path, content]) => [path, [content, { extra: { 1: new Uint8Array(24) } }]]),
      ),
    );
    const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
    for (const at of offsets(file, entrySignature)) {
      const field = at + 46 + view.getUint16(at + 28, true) + 4;
      [24, 20, 42].forEach((offset, index) => {
        view.setBigUint64(field + index * 8, BigInt(view.getUint32(at + offset, true)), true);
        view.setUint32(at + offset, 0xffffffff, true);
      });
    }
    expect(onlySheet(readBook(file)).rows.get(1)).toEqual([{ row: 1, column: 1, value: 5 }]);
  });
});
