import type { Column } from '../../sheet/declaration.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';
import { isoDesignation } from './belt-designations.ts';
import { allowedIn, type CellReading, issue, textContent } from './cell-content.ts';
import { knownService, meansBlank, yesOrNo } from './cell-words.ts';
import { toldWord, unclearWord } from './choice-words.ts';

/** Cells of columns that hold words: names, fixed words, yes and no, services, designations. */

export function readFlag(cell: RawCell, column: Column): CellReading {
  if (typeof cell.value === 'boolean') return { content: cell.value ? 'yes' : 'no' };
  const text = cellText(cell);
  if (text.trim() === '') return { content: null };
  const word = yesOrNo(text);
  if (word !== undefined) return { content: word };
  return meansBlank(text)
    ? { content: null, remark: 'read as blank' }
    : issue(cell, 'it is neither yes nor no', allowedIn(column));
}

/** A number format of zeros alone shows zeros, before the number or behind it, which belong to a name. */
function shown(cell: RawCell): string {
  const { value, format = '' } = cell;
  if (typeof value !== 'number' || value < 0) return cellText(cell);
  if (/^0{2,}$/.test(format) && Number.isInteger(value)) return String(value).padStart(format.length, '0');
  const decimals = /^0\.(0+)$/.exec(format)?.[1];
  return decimals === undefined ? cellText(cell) : value.toFixed(decimals.length);
}

export function readWords(cell: RawCell, trimmed: boolean): CellReading {
  const text = shown(cell);
  if (text.trim() === '') return { content: null };
  const content = textContent(trimmed ? text.trim() : text);
  if (cell.date === true)
    return {
      content,
      issue: { why: 'the cell holds a date: programs turn names such as 3-2 into dates', allowed: 'the name as text' },
    };
  return content.startsWith("'=") ? { content, remark: 'kept as text, not as a formula' } : { content };
}

/** A belt's designation; codes of other places become those of ISO 14890, and the remark says so. */
export function readDesignation(cell: RawCell): CellReading {
  const read = readWords(cell, false);
  if (typeof read.content !== 'string') return read;
  const content = isoDesignation(read.content);
  return content === read.content ? read : { ...read, content, remark: `read as ${content.trim()}` };
}

export function readChoice(
  cell: RawCell,
  column: Column,
  words: ReadonlyMap<string, string> | undefined,
  strict: boolean,
): CellReading {
  const text = shown(cell).trim();
  if (text === '') return { content: null };
  if (meansBlank(text)) return { content: null, remark: 'read as blank' };
  const word = words?.get(text.toLowerCase());
  if (word !== undefined) return { content: word, ...remarkOf(column.header, text) };
  const doubt = unclearWord(column.header, text);
  if (doubt !== undefined) return issue(cell, doubt, allowedIn(column));
  return strict ? issue(cell, 'it is not one of the allowed words', allowedIn(column)) : { content: textContent(text) };
}

/** What is told of a word that stands for one of ours without saying so. */
function remarkOf(header: string, text: string): { readonly remark?: string } {
  const remark = toldWord(header, text);
  return remark === undefined ? {} : { remark };
}

export function readService(cell: RawCell, column: Column): CellReading {
  const text = cellText(cell).trim();
  if (text === '') return { content: null };
  if (meansBlank(text)) return { content: null, remark: 'read as blank: enter none when nothing applies' };
  const { known, unknown, hint } = knownService(text);
  if (unknown.length > 0) {
    const asked = unknown.map((part) => `"${part}"`).join(', ');
    return issue(
      cell,
      `${asked} is not a known service` +
        `${hint === undefined ? '' : `; did you mean ${hint}?`}` +
        `${known.length === 0 ? '' : `; the rest is read as ` + `${known.join(', ')}`}`,
      allowedIn(column),
    );
  }
  if (known.includes('none') && known.length > 1)
    return issue(cell, 'none and another service are both given', allowedIn(column));
  const content = known.join(', ');
  return content === text ? { content } : { content, remark: `read as ${content}` };
}
