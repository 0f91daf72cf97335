import { grouped } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import { textPieces } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

/** The texts that cells share, in the order by which cells name them. Source: ECMA-376 Part 1, 18.4.9 (sst). */
export function sharedStrings(parts: BookParts, path: string): readonly string[] {
  const { limits } = parts;
  const texts: string[] = [];
  const place = (): string => `shared text ${grouped(texts.length + 1)}`;
  const pieces = textPieces(limits, () => `${place()} of part ${path}`);
  readPart(parts, path, {
    open(name, _attributes, depth) {
      if (depth > 2) pieces.open(name);
    },
    close(name, depth) {
      if (depth > 2) pieces.close(name);
      else if (depth === 2 && name === 'si') {
        if (texts.length === limits.sharedStrings) {
          throw new UnreadableFile(
            'too much content',
            `The file shares more than ${grouped(limits.sharedStrings)} texts among its cells (part ${path}), ` +
              `the maximum that can be read. Keep only the list of belts in it. ${saveAgain}`,
          );
        }
        texts.push(pieces.taken());
      }
    },
    text: (piece) => pieces.text(piece),
    place,
  });
  return texts;
}
