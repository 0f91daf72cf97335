import { builtInFormat, formatKind, type FormatKind } from './number-formats.ts';
import { grouped } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import { unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

export interface CellFormat {
  /** The format code; undefined when it is General. */
  readonly code: string | undefined;
  readonly kind: FormatKind;
}

/**
 * Number formats by the style numbers that cells carry.
 *
 * Source: ECMA-376 Part 1, 18.8.10 (cellXfs), 18.8.31 (numFmts). A file's own format replaces the built-in one.
 */
export function cellFormats(parts: BookParts, path: string): readonly CellFormat[] {
  const { limits } = parts;
  const own = new Map<number, string>();
  const ids: number[] = [];
  let section = '';
  readPart(parts, path, {
    open(name, { numFmtId, formatCode }, depth) {
      if (depth === 2) section = name;
      if (depth !== 3) return;
      if (section === 'numFmts' && name === 'numFmt' && formatCode !== undefined)
        own.set(Number(numFmtId), unescaped(formatCode));
      if (section === 'cellXfs' && name === 'xf') ids.push(Number(numFmtId ?? 0));
      if (ids.length > limits.cellFormats || own.size > limits.cellFormats) {
        throw new UnreadableFile(
          'too much content',
          `The file holds more than ${grouped(limits.cellFormats)} cell formats (part ${path}), ` +
            `the maximum that can be read. ${saveAgain}`,
        );
      }
    },
  });
  const byId = new Map<number, CellFormat>();
  const ofId = (id: number): CellFormat => {
    const code = own.get(id) ?? builtInFormat(id);
    return code === undefined || /^\s*(?:general)?\s*$/i.test(code)
      ? { code: undefined, kind: 'number' }
      : { code, kind: formatKind(code) };
  };
  return ids.map((id) => {
    const format = byId.get(id) ?? ofId(id);
    byId.set(id, format);
    return format;
  });
}
