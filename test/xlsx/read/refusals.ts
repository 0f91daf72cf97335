import { expect } from 'vitest';
import type { RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { type ReadLimits, readLimits } from '../../../src/xlsx/read/read-limits.ts';
import type { UnreadableReason } from '../../../src/xlsx/read/unreadable-file.ts';
import { fileOfRows, type MadeBook, type MadeSheet, madeFile, onlySheet, refusalOf } from './made-book.ts';

/** How files that are damaged, no workbooks, or made to exhaust memory or time must be answered. */

/** Milliseconds of processor time, which other work on the machine does not lengthen much. */
const briefly = 1500;
const processorTime = (): number => process.cpuUsage().user / 1000;

/** Refused with these words, soon. */
export function refused(
  bytes: Uint8Array,
  reason: UnreadableReason,
  words: RegExp,
  limits: ReadLimits = readLimits,
  allowed = briefly,
): void {
  const started = processorTime();
  const refusal = refusalOf(bytes, limits);
  expect(processorTime() - started).toBeLessThan(allowed);
  expect(refusal.message).toMatch(words);
  expect(refusal.reason).toBe(reason);
  expect(refusal).toBeInstanceOf(Error);
  expect(refusal.name).toBe('UnreadableFile');
}

export function readSoon(bytes: Uint8Array, allowed = briefly): RawSheet {
  const started = processorTime();
  const sheet = onlySheet(readBook(bytes));
  expect(processorTime() - started).toBeLessThan(allowed);
  return sheet;
}

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
