import { counted } from '../../units/phrases.ts';
import type { RawBook } from '../read/raw-book.ts';

/** What a file points to outside itself, in sentences: that it is there, and that nobody went there. */
export function outsideWords({ outside }: Pick<RawBook, 'outside'>): string[] {
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
