import { counted } from '../../units/phrases.ts';
import type { RawBook, RawText } from '../read/raw-book.ts';

/** What a file is and points to outside itself, in sentences: that it is there, and that nobody went there. */
export function outsideWords({ outside, text }: Pick<RawBook, 'outside' | 'text'>): string[] {
  return [...(text === undefined ? [] : [textWords(text)]), ...beyondWords(outside)];
}

function textWords({ encoding, delimiter, decimal }: RawText): string {
  const columns = delimiter === undefined ? 'one column' : `columns separated by ${delimiter}`;
  const mark = decimal === undefined ? 'no decimal mark to go by' : `a decimal ${decimal}`;
  return `The file is text: it is read as ${encoding}, with ${columns} and ${mark}`;
}

function beyondWords(outside: RawBook['outside']): string[] {
  if (outside === undefined) return [];
  const { files, links, connections, macros } = outside;
  return [
    ...(files === 0
      ? []
      : [
          `its formulas refer to ${counted(files, 'other file')}, which ${files === 1 ? 'was' : 'were'} not opened: ` +
            `the values that were saved with them are taken`,
        ]),
    ...(links === 0
      ? []
      : [
          `${counted(links, 'cell')} ${links === 1 ? 'leads' : 'lead'} to an address outside the file: the text is ` +
            `kept, the link is not`,
        ]),
    ...(connections ? ['it fetches data from elsewhere: nothing was fetched, the values saved with it are taken'] : []),
    ...(macros ? ['it holds macros: none was run, and none is kept'] : []),
  ].map((sentence) => `The file: ${sentence}`);
}
