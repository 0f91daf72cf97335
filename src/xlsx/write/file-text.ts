/** Texts as cells of a file hold them. */

/** Source: Microsoft, "Excel specifications and limits": total number of characters that a cell can contain. */
export const mostCellCharacters = 32_767;

// Everything that XML 1.0 cannot carry, and a carriage return, which its readers turn into a line feed.
const uncarried = /[\u0000-\u0008\u000B-\u001F\u007F\uFFFE\uFFFF]/g;
const looksEscaped = /_(?=x[0-9A-Fa-f]{4}_)/g;
const needsCare = /[\u0000-\u0008\u000B-\u001F\u007F\uFFFE\uFFFF]|_x[0-9A-Fa-f]{4}_/;
const halves = /[\uD800-\uDFFF]/;
/** Nearly no text has any of it. */
const mayNeedCare = /[\u0000-\u0008\u000B-\u001F\u007F\uD800-\uDFFF\uFFFE\uFFFF]|_x/;
const loneHalf = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

interface FileText {
  readonly text: string;
  /** What the file cannot hold of it, in words. */
  readonly lost?: string;
}

/**
 * A text as it is written: control characters as `_x0007_`, which readers turn back.
 *
 * Cut at the limit of a cell; half a surrogate pair, which is no character, becomes the replacement character.
 *
 * Source: ECMA-376 Part 1, 22.9.2.19 (ST_Xstring).
 */
export function fileText(given: string): FileText {
  if (given.length <= mostCellCharacters && !mayNeedCare.test(given)) return { text: given };
  let text = given;
  const lost: string[] = [];
  if (text.length > mostCellCharacters) {
    text = text.slice(0, mostCellCharacters);
    if (/[\uD800-\uDBFF]$/.test(text)) text = text.slice(0, -1);
    lost.push(
      `the text has ${given.length.toLocaleString('en-US')} characters and a cell holds ` +
        `${mostCellCharacters.toLocaleString('en-US')}, so its end was cut off`,
    );
  }
  if (halves.test(text) && text.search(loneHalf) >= 0) {
    text = text.replace(loneHalf, '\uFFFD');
    lost.push('it holds half a character, exported as \uFFFD');
  }
  if (needsCare.test(text)) {
    text = text
      .replace(looksEscaped, '_x005F_')
      .replace(uncarried, (letter) => `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`);
  }
  return lost.length === 0 ? { text } : { text, lost: lost.join('; ') };
}
