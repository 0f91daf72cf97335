/** Column letters from a position: 0 is A, 26 is AA. */
export function columnLetters(position: number): string {
  let rest = position;
  let letters = '';
  do {
    letters = String.fromCharCode(65 + (rest % 26)) + letters;
    rest = Math.floor(rest / 26) - 1;
  } while (rest >= 0);
  return letters;
}

/** The sheet row that a record stands in, counted from 1: row 1 holds the headers. */
export const sheetRow = (record: number): number => record + 2;

/** The record that stands in a sheet row. */
export const recordInRow = (row: number): number => row - 2;

/** A cell as people name it, "Belts!D7". */
export const cellName = (sheet: string, record: number, column: number): string =>
  `${quotedSheet(sheet)}!${columnLetters(column)}${sheetRow(record)}`;

/** A sheet name as formulas write it. */
export const quotedSheet = (sheet: string): string =>
  /^[A-Za-z_]\w*$/.test(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`;

/** A column's position from its letters: A is 0, AA is 26. */
export const columnPosition = (letters: string): number =>
  [...letters.toUpperCase()].reduce((position, letter) => position * 26 + letter.charCodeAt(0) - 64, 0) - 1;
