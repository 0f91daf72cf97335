import { grouped, type ReadLimits } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';

const escape = /_x([0-9A-Fa-f]{4})_/g;

/**
 * Text with its `_x000D_` escapes turned into the characters that XML cannot carry.
 *
 * Source: ECMA-376 Part 1, 22.9.2.19 (ST_Xstring). An underscore that would begin one is itself written `_x005F_`.
 */
export const unescaped = (text: string): string =>
  text.includes('_x')
    ? text.replace(escape, (_whole, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    : text;

interface TextPieces {
  open(name: string): void;
  close(name: string): void;
  text(piece: string): void;
  /** The joined text so far; begins anew. */
  taken(): string;
}

/**
 * Joins the runs of one rich or plain text; readings written beside it for Asian scripts are no part of it.
 *
 * Source: ECMA-376 Part 1, 18.4.8 (si), 18.4.12 (t), 18.4.6 (rPh).
 */
export function textPieces(limits: ReadLimits, place: () => string): TextPieces {
  let joined = '';
  let reading = false;
  let inside = false;
  return {
    open(name) {
      if (name === 'rPh') reading = true;
      else if (name === 't') inside = !reading;
    },
    close(name) {
      if (name === 'rPh') reading = false;
      else if (name === 't') inside = false;
    },
    text(piece) {
      if (!inside) return;
      joined += piece;
      if (joined.length > limits.textCharacters) throw longText(limits, place());
    },
    taken() {
      const text = unescaped(joined);
      joined = '';
      return text;
    },
  };
}

export const longText = (limits: ReadLimits, place: string): UnreadableFile =>
  new UnreadableFile(
    'text too long',
    `A text is longer than ${grouped(limits.textCharacters)} characters at ${place}; ` +
      `a cell holds at most 32,767. Shorten it, or ${saveAgain.replace('Open', 'open')}`,
  );

/** `true`, `1` and `on` of XML attributes. */
export const isTrue = (value: string | undefined): boolean => value === '1' || value === 'true' || value === 'on';
