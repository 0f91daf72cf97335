import { isWords, type UnitSystem } from '../../units/quantities.ts';
import { spelt } from '../../units/spelling.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import { fileText } from './file-text.ts';
import { allowedInWords } from './validations.ts';

/** What a heading says when one points at it. */
export function headingNote({ doc, declared }: Pick<BookColumn, 'doc' | 'declared'>, units: UnitSystem): string {
  if (declared === undefined) return doc;
  const { choices, ...limits } = declared;
  const allowed =
    declared.formula !== undefined
      ? 'Calculated.'
      : choices !== undefined && 'sheet' in choices
        ? `Allowed: a ${choices.header.toLowerCase()} of the sheet ${choices.sheet}.`
        : isWords(declared.kind) && choices === undefined
          ? ''
          : `Allowed: ${allowedInWords({ ...limits, ...(choices === undefined ? {} : { choices }) }, units)}.`;
  const parts = [`${doc}.`, allowed, declared.source === undefined ? '' : `Source: ${declared.source}.`];
  return spelt(parts.filter((part) => part !== '').join('\n'), units);
}

/** What is shown where one points at a cell: what the user wrote beside it, then the program's remark. */
export function cellNote(comment: string | undefined, remark: string | undefined): string | undefined {
  const parts = [comment, remark].flatMap((text) => (text === undefined ? [] : [fileText(text).text]));
  return parts.length === 0 ? undefined : parts.join('\n\n');
}
