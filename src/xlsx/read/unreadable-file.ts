/** Why a file was refused, as a short code for programs; the error's message says it to people. */
export type UnreadableReason =
  | 'empty file'
  | 'file too large'
  | 'not a zip'
  | 'old xls'
  | 'password'
  | 'opendocument'
  | 'binary workbook'
  | 'not a workbook'
  | 'cut off'
  | 'damaged'
  | 'wrong size'
  | 'too large inside'
  | 'too many parts'
  | 'unknown compression'
  | 'part missing'
  | 'document type'
  | 'malformed xml'
  | 'unknown encoding'
  | 'text too long'
  | 'too much content'
  | 'outside the sheet'
  | 'bad reference';

/**
 * The refusal of a workbook file.
 *
 * The message names what is wrong, where, what is allowed and what to do; whoever catches it adds the file's name.
 */
export class UnreadableFile extends Error {
  readonly reason: UnreadableReason;
  constructor(reason: UnreadableReason, message: string) {
    super(message);
    this.name = 'UnreadableFile';
    this.reason = reason;
  }
}

/** What to do about a file that a program wrote wrongly or that lost bytes on its way. */
export const saveAgain = 'Open the file in your spreadsheet program and save it again as .xlsx.';
export const copyAgain =
  'Copy or download the file again; if that does not help, open it in your spreadsheet program and save it ' +
  'again as .xlsx.';
