import { textWidth } from '../drawing/text-width.ts';

/** The longest beginning of a word that is no wider than `width`, of one letter at least. */
function beginning(word: string, size: number, width: number, bold: boolean): string {
  const letters = [...word];
  let count = letters.length;
  while (count > 1 && textWidth(letters.slice(0, count).join(''), size, bold) > width) count -= 1;
  return letters.slice(0, count).join('');
}

/** A text in lines no wider than `width`; a word wider than that goes on in the next line. */
export function fittingLines(text: string, size: number, width: number, bold = false): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size, bold) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    let rest = word;
    while (textWidth(rest, size, bold) > width && [...rest].length > 1) {
      const part = beginning(rest, size, width, bold);
      lines.push(part);
      rest = rest.slice(part.length);
    }
    line = rest;
  }
  return line === '' && lines.length > 0 ? lines : [...lines, line];
}
