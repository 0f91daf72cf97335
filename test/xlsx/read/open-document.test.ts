import { readFileSync } from 'node:fs';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { readLimits } from '../../../src/xlsx/read/read-limits.ts';
import { refused } from './refusals.ts';

/** OpenDocument files that are damaged, or made to exhaust the reader. */

const whole = new Uint8Array(readFileSync(new URL('../lists/coloured-open.ods', import.meta.url)));
const parts = unzipSync(whole);
const content = strFromU8(parts['content.xml'] ?? new Uint8Array());
const withContent = (text: string): Uint8Array => zipSync({ ...parts, 'content.xml': strToU8(text) });
const without = (path: string): Uint8Array =>
  zipSync(Object.fromEntries(Object.entries(parts).filter(([name]) => name !== path)));

describe('a damaged .ods', () => {
  test('that ends too early is refused', () => {
    for (const share of [0.2, 0.5, 0.9]) refused(whole.slice(0, whole.length * share), 'cut off', /./);
  });

  test('whose cells end in the middle is refused with the part', () => {
    refused(withContent(content.slice(0, content.length / 2)), 'malformed xml', /content\.xml/);
  });

  test('whose cells are missing is refused', () => {
    refused(without('content.xml'), 'not a workbook', /./);
  });

  test('with a changed byte in its packed cells is refused', () => {
    const at = whole.findIndex(
      (_, index) => strFromU8(whole.subarray(index, index + 11), true) === 'content.xml' && index > 0,
    );
    const bytes = whole.slice();
    bytes[at + 200] = (bytes[at + 200] ?? 0) ^ 0xff;
    expect(() => readBook(bytes)).toThrow(/damaged/);
  });

  test('without styles or settings is read', () => {
    for (const path of ['styles.xml', 'settings.xml'])
      expect(readBook(without(path)).sheets.map(({ name }) => name)).toEqual(['Belts', 'Contacts']);
  });

  test('with damaged styles or settings is read', () => {
    for (const path of ['styles.xml', 'settings.xml']) {
      const cut = strFromU8(parts[path] ?? new Uint8Array()).slice(0, 900);
      expect(readBook(zipSync({ ...parts, [path]: strToU8(cut) })).sheets).toHaveLength(2);
    }
  });

  test('with more cells repeated than are read is refused, whatever they hold', () => {
    const repeated = content.replace(
      '<table:table-row table:style-name="ro1"><table:table-cell table:style-name="ce3"',
      '<table:table-row table:number-rows-repeated="1000000"><table:table-cell ' +
        'table:number-columns-repeated="10000" table:style-name="ce3"',
    );
    expect(repeated).not.toBe(content);
    refused(withContent(repeated), 'too much content', /maximum|cell/, { ...readLimits, cells: 1000 });
  });

  test('with elements nested too deep is refused', () => {
    const deep = `${'<text:span>'.repeat(100)}x${'</text:span>'.repeat(100)}`;
    refused(withContent(content.replace('W1', deep)), 'malformed xml', /deep/);
  });

  test('whose styles refer to one another in a circle is read', () => {
    const circle = content.replace(
      '<style:style style:name="ce4" style:family="table-cell" style:parent-style-name="Default">',
      '<style:style style:name="ce4" style:family="table-cell" style:parent-style-name="ce4">',
    );
    expect(circle).not.toBe(content);
    expect(readBook(withContent(circle)).sheets).toHaveLength(2);
  });
});
