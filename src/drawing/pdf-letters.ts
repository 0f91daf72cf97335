/**
 * Letters that the fonts of a PDF hold without being put into the file: those of WinAnsi encoding.
 *
 * Source: ISO 32000-1, annex D.2; a test compares them with what the PDF library carries.
 */
const beyondLatin = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';

export const inPdfFonts = (letter: string): boolean => {
  const code = letter.codePointAt(0) ?? 0;
  return (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff) || beyondLatin.includes(letter);
};
