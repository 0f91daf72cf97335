const mebi = 1024 * 1024;

/**
 * How much a workbook file may hold before it is refused.
 *
 * They bound memory and time, whatever the bytes say. A list of some thousand belts is far below every one of them.
 * The sheet's own size, and the text and formula lengths that other programs keep to, are those of Microsoft's
 * "Excel specifications and limits" page, and are named where they differ from ours.
 */
export const readLimits = {
  /** The file itself. */
  fileBytes: 64 * mebi,
  /** Entries of the archive, whether the reader needs them or not. */
  parts: 10_000,
  /** All parts unpacked: as declared, and again as counted while unpacking. */
  inflatedBytes: 512 * mebi,
  /** Unpacked to packed size of a part above `ratioFrom` bytes; worksheets made by programs stay below 100. */
  ratio: 400,
  ratioFrom: 16 * mebi,
  /** Elements within elements; workbook parts need fewer than 20. */
  elementDepth: 64,
  /** Characters of XML without the end of a tag, a comment or a text. */
  unbrokenCharacters: 4 * mebi,
  sheets: 200,
  /** Last row and column of a sheet. */
  rowNumber: 1_048_576,
  columnNumber: 16_384,
  /** Rows with a filled cell, in one sheet. */
  filledRows: 200_000,
  /** Filled cells and merged areas, in all sheets together. */
  cells: 5_000_000,
  merges: 100_000,
  sharedStrings: 2_000_000,
  /** One text. Spreadsheet programs hold 32,767 characters in a cell; what other writers put beyond is kept whole. */
  textCharacters: mebi,
  /** One formula; spreadsheet programs hold 8,192 characters. */
  formulaCharacters: 65_536,
  /**
   * Texts and formulas of all cells, one that several cells share counted for each: what is made of the cells holds
   * each anew. A list of 20,000 belts with forty texts of 20 characters has a sixth of it.
   */
  cellCharacters: 100_000_000,
  /** Shared formulas, written out for every cell that shares them. */
  sharedFormulaCharacters: 512 * mebi,
  definedNames: 100_000,
  /** Cell formats of the styles part; spreadsheet programs hold 65,490. */
  cellFormats: 100_000,
};

export type ReadLimits = Readonly<typeof readLimits>;

/**
 * A limit in words: "200,000". Whole numbers by hand: limits are put into words whenever the program or one of its
 * threads starts, and the first number that JavaScript's own formats write takes it a hundredth of a second.
 */
export const grouped = (count: number): string =>
  Number.isInteger(count) ? String(count).replaceAll(/\B(?=(?:\d{3})+$)/g, ',') : count.toLocaleString('en-US');

/** A size in words: "64 MiB", "1.5 MiB", "300 bytes". */
export function sized(bytes: number): string {
  return bytes < mebi / 10 ? `${grouped(bytes)} bytes` : `${grouped(Math.round((bytes / mebi) * 10) / 10)} MiB`;
}
