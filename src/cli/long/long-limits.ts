import { type ReadLimits, readLimits } from '../../xlsx/read/read-limits.ts';

const mebi = 1024 * 1024;

/**
 * How much a list may hold that is read in parts. Its memory does not grow with its rows but for the file itself and
 * its texts; what bounds it is the sheet's own size (1,048,576 rows) and the time that anybody waits. Ours.
 */
export const longLimits: ReadLimits = {
  ...readLimits,
  fileBytes: 1024 * mebi,
  inflatedBytes: 8192 * mebi,
  filledRows: readLimits.rowNumber,
  sharedStrings: 4_000_000,
};

/**
 * Bytes of a sheet's part from which a list is read in parts: some 3,000 belts. Below, all threads would do is start.
 */
export const longFrom = 2 * mebi;

/** Bytes of the other sheets beyond which a list is read whole: they are gone through again with each part. */
export const mostBeside = 4 * mebi;

/** Bytes of a part: some 1,000 belts, which take about a second. */
export const partBytes = 0.75 * mebi;

/** Bytes of the first part, from which most of what columns hold is judged. */
export const firstBytes = 1.5 * mebi;

/** What a text has of the bytes that the same belts take in a sheet's part: from a sixth to a third. */
export const ofText = 0.25;

/** Bytes of a text by which its form is found: hundreds of lines, and as many as its reader finds their ends by. */
export const formBytes = 4 * mebi;
