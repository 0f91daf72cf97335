import { plainTheme, rgbOf, themeOrder } from './file-colors.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import type { BookParts } from './zip-parts.ts';

/**
 * The colours of a file's theme, in the order in which its cells number them. Source: ECMA-376 Part 1, 20.1.6.2
 * (clrScheme): each colour is an element that holds another with its value.
 */
export function themeColors(parts: BookParts, path: string | undefined): readonly string[] {
  if (path === undefined) return plainTheme;
  try {
    return readColors(parts, path);
  } catch (error) {
    // A list is not refused for its colours.
    if (error instanceof UnreadableFile) return plainTheme;
    throw error;
  }
}

function readColors(parts: BookParts, path: string): readonly string[] {
  const found = new Map<string, string>();
  let current = '';
  let scheme = false;
  readPart(parts, path, {
    open(name, { val, lastClr }, depth) {
      if (depth === 3) scheme = name === 'clrScheme';
      if (!scheme) return;
      if (depth === 4) current = name;
      else if (depth === 5) {
        const color = rgbOf(lastClr) ?? rgbOf(val);
        if (color !== undefined && !found.has(current)) found.set(current, color);
      }
    },
  });
  return themeOrder.map((name, index) => found.get(name) ?? plainTheme[index] ?? '808080');
}
