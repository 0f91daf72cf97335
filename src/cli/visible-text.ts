/**
 * Text as a terminal may show it.
 *
 * A name in a list may hold what a terminal obeys: escape sequences that move, hide or colour, and characters that turn
 * the direction of what follows. They are shown, not sent. The C0 controls have pictures of their own (Unicode 2400 to
 * 2421), others are written by their number.
 */

/** Controls but the ends of lines and tabs, and the marks of direction (Unicode Bidirectional Algorithm, UAX #9). */
const obeyed = /(?![\n\t])[\p{Cc}\u061C\u200E\u200F\u2028\u2029\u202A-\u202E\u2066-\u2069]/gu;

function picture(character: string): string {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x20) return String.fromCodePoint(0x2400 + code);
  return code === 0x7f ? '\u2421' : `\\u${code.toString(16).padStart(4, '0')}`;
}

/** A text of any number of lines. For tests: how single characters are shown. */
export const visibleText = (text: string): string => text.replace(obeyed, picture);

/**
 * A text that must stay one line, so that no cell can pretend to be another line of the answer. For tests: how single
 * texts are shown.
 */
export const visibleLine = (text: string): string => visibleText(text).replace(/\n/g, '\u240A');

/** Lines of an answer, none of which can pretend to be two. */
export const visibleLines = (lines: readonly string[]): string => `${lines.map(visibleLine).join('\n')}\n`;

/** Everything that goes to a terminal from here on is shown, not obeyed. */
export function showControls(stream: NodeJS.WriteStream): void {
  const write = stream.write.bind(stream) as (text: string | Uint8Array, done?: () => void) => boolean;
  stream.write = (text: string | Uint8Array, ...rest: unknown[]): boolean => {
    const done = rest.at(-1);
    const shown = typeof text === 'string' ? visibleText(text) : text;
    return typeof done === 'function' ? write(shown, () => void done()) : write(shown);
  };
}
