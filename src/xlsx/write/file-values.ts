import type { CellErrorValue } from 'exceljs';
import { type FaultCode, isFault, type Value } from '../../formula/values.ts';
import { fileText } from './file-text.ts';

/**
 * Error codes that a cell of a file can hold. Source: ECMA-376 Part 1, 18.18.11 (ST_CellType), 18.17.3 (error values).
 */
export const fileErrors: ReadonlySet<string> = new Set<FaultCode | '#NULL!'>([
  '#VALUE!',
  '#NUM!',
  '#N/A',
  '#DIV/0!',
  '#REF!',
  '#NAME?',
  '#NULL!',
]);

type FileError = CellErrorValue['error'];
const isFileError = (code: string): code is FileError => fileErrors.has(code);

/** The engine's own errors (#CYCLE!, #SPILL!, #ERROR!) become "not available". */
const fileError = (code: string): CellErrorValue => ({ error: isFileError(code) ? code : ('#N/A' as FileError) });

interface FileValue {
  readonly value: number | string | boolean | CellErrorValue | null;
  /** What the file cannot hold of it, in words. */
  readonly lost?: string;
}

/** A value as a cell holds it. A text is always a text there, whatever sign it begins with. */
export function fileValue(value: Value): FileValue {
  if (isFault(value)) {
    return isFileError(value.code)
      ? { value: fileError(value.code) }
      : { value: fileError(value.code), lost: `a file cannot hold the error ${value.code}: exported as #N/A` };
  }
  if (typeof value === 'number' && !Number.isFinite(value))
    return { value: fileError('#NUM!'), lost: `a file cannot hold the number ${String(value)}: exported as #NUM!` };
  if (typeof value === 'string') {
    const { text, lost } = fileText(value);
    return lost === undefined ? { value: text } : { value: text, lost };
  }
  return { value };
}
