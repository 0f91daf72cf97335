import { expect } from 'vitest';
import type { RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { type ReadLimits, readLimits } from '../../../src/xlsx/read/read-limits.ts';
import type { UnreadableReason } from '../../../src/xlsx/read/unreadable-file.ts';
import { fileOfRows, type MadeBook, type MadeSheet, madeFile, onlySheet, refusalOf } from './made-book.ts';

/**
 * How files that are damaged, no workbooks, or made to exhaust memory or time must be answered: by the reader's limits,
 * so that no test of them runs into its timeout.
 */

/** A pattern too long for one line, from its parts. */
export const asOne = (...parts: readonly RegExp[]): RegExp =>
  new RegExp(parts.map(({ source }) => source).join(''), 's');

/** Refused with these words. */
export function refused(
  bytes: Uint8Array,
  reason: UnreadableReason,
  words: RegExp,
  limits: ReadLimits = readLimits,
): void {
  const refusal = refusalOf(bytes, limits);
  expect(refusal.message).toMatch(words);
  expect(refusal.reason).toBe(reason);
  expect(refusal).toBeInstanceOf(Error);
  expect(refusal.name).toBe('UnreadableFile');
}

export const readSheet = (bytes: Uint8Array): RawSheet => onlySheet(readBook(bytes));

export const sheetFile = (sheet: MadeSheet, rest: MadeBook = {}): Uint8Array => madeFile({ ...rest, sheets: [sheet] });

/** A file with something of everything, to be damaged. */
export const good = fileOfRows(
  '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="1"><v>45351.5</v></c><c r="C1"><f t="shared" si="0" ' +
    'ref="C1:D1">A1*2</f><v>3</v></c><c r="D1"><f t="shared" si="0"/></c></row>',
  {
    strings: '<si><t>Belt</t></si>',
    styles: '<cellXfs><xf numFmtId="0"/><xf numFmtId="22"/></cellXfs>',
    names: '<definedName name="Friction">Sheet1!$B$1</definedName>',
  },
);
