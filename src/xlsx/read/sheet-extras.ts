import { cellPosition, positionName } from './cell-address.ts';
import type { UnkeptKind } from './raw-look.ts';
import type { SheetLookReader } from './sheet-look-reader.ts';
import { type Relationship, relationships } from './relationships.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { readPart } from './xml-part.ts';
import { textPieces } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

/** What stands in parts of their own beside a sheet: its comments, and what is drawn over its cells. */

/** What a program writes before a comment that has answers, for programs that know none. */
const answeredComment = /^\[Threaded comment\][\s\S]*?Comment:\s*/;

/** Source: ECMA-376 Part 1, 18.7.3 (comment). */
function readComments(parts: BookParts, path: string, sheet: string, look: SheetLookReader): void {
  const place = (): string => `a comment of sheet "${sheet}"`;
  const pieces = textPieces(parts.limits, place);
  let address = '';
  readPart(parts, path, {
    open(name, { ref }, depth) {
      if (depth === 3 && name === 'comment') {
        address = ref ?? '';
        pieces.taken();
      } else if (address !== '') pieces.open(name);
    },
    text(text) {
      if (address !== '') pieces.text(text);
    },
    close(name, depth) {
      if (depth !== 3 || name !== 'comment') return pieces.close(name);
      if (address === '') return;
      const { row, column } = cellPosition(address, place, parts.limits);
      look.comment(row, column, pieces.taken().replace(answeredComment, ''));
      address = '';
    },
  });
}

const drawnKinds: Readonly<Record<string, UnkeptKind>> = { pic: 'pictures', graphicFrame: 'charts', sp: 'shapes' };

/** Source: ECMA-376 Part 1, 20.5.2 (anchors of drawings); rows and columns count from 0 there. */
function readDrawing(parts: BookParts, path: string, look: SheetLookReader): void {
  let corner: 'row' | 'col' | undefined;
  let from = false;
  let place = { row: '', col: '' };
  readPart(parts, path, {
    open(name, _, depth) {
      if (depth === 2) place = { row: '', col: '' };
      if (depth === 3) from = name === 'from';
      corner = depth === 4 && from && (name === 'row' || name === 'col') ? name : undefined;
      const kind = depth === 3 && Object.hasOwn(drawnKinds, name) ? drawnKinds[name] : undefined;
      if (kind === undefined) return;
      const [row, column] = [Number(place.row) + 1, Number(place.col) + 1];
      const known = place.row !== '' && row >= 1 && column >= 1 && column <= parts.limits.columnNumber;
      look.unkept(kind, known ? positionName({ row, column }) : '');
    },
    text(text) {
      if (corner !== undefined) place[corner] += text.trim();
    },
    close() {
      corner = undefined;
    },
  });
}

function readExtra(parts: BookParts, type: string, path: string, sheet: string, look: SheetLookReader): void {
  try {
    if (type === 'comments') readComments(parts, path, sheet, look);
    else if (type === 'drawing') readDrawing(parts, path, look);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    look.unkept(type === 'comments' ? 'comments' : 'shapes', '');
  }
}

function referred(parts: BookParts, path: string): readonly Relationship[] {
  try {
    return [...relationships(parts, path).values()];
  } catch (error) {
    if (error instanceof UnreadableFile) return [];
    throw error;
  }
}

/** Reads what a sheet's part refers to. A part that is missing or damaged is passed over: no cell depends on it. */
export function readSheetExtras(parts: BookParts, path: string, sheet: string, look: SheetLookReader): void {
  for (const { type, target } of referred(parts, path)) {
    if (type === 'pivotTable') look.unkept('pivot tables', '');
    const found = target === undefined ? undefined : parts.find(target);
    if (found !== undefined) readExtra(parts, type, found, sheet, look);
  }
}
