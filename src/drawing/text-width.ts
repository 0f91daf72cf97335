/**
 * How wide a text is, in multiples of its size: of a plain sans serif face.
 *
 * Widths of Helvetica in thousandths of the size, which Arial and Liberation Sans share; a letter that is not listed
 * counts as the widest. Source: the face's metrics in Adobe's Core 14 font metric files; a test compares them with
 * those that the PDF library carries.
 */
const widths: Readonly<Record<number, string>> = {
  191: "'",
  222: 'ijl',
  260: '|',
  278: ' !,./:;\\[]ftI',
  333: '()-`r',
  355: '"',
  500: 'cksvxyzJ',
  556: '0123456789#$?_abdeghnopquL–',
  584: '+<=>~×',
  334: '{}',
  389: '*',
  400: '°',
  469: '^',
  611: 'FTZ',
  667: '&ABEKPSVXY',
  722: 'CDHNRUw',
  778: 'GOQØ',
  833: 'mM',
  889: '%',
  944: 'W',
  1015: '@',
};

const byLetter = new Map(
  Object.entries(widths).flatMap(([width, letters]) =>
    [...letters].map((letter) => [letter, Number(width) / 1000] as const),
  ),
);
const widest = 1.015;
/** Bold letters are wider, by no more than this. */
const boldFactor = 1.12;

export const textWidth = (text: string, size: number, bold = false): number =>
  [...text].reduce((sum, letter) => sum + (byLetter.get(letter) ?? widest), 0) * size * (bold ? boldFactor : 1);

/** A text in lines no wider than `width`; words are kept whole, one that is wider stands alone. */
export function wrapped(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`, size) <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A text cut to `width`, with dots where letters are left out. */
export function fitted(text: string, size: number, width: number, bold = false): string {
  if (textWidth(text, size, bold) <= width) return text;
  const letters = [...text];
  while (letters.length > 0 && textWidth(`${letters.join('')}...`, size, bold) > width) letters.pop();
  return `${letters.join('').trimEnd()}...`;
}
