import { sourceMarks } from '../sheet/source-marks.ts';

/** A source with its marks, those left out that it says itself. */
export function marked(source: string): string {
  const marks = sourceMarks(source).filter((mark) => !source.toLowerCase().includes(mark));
  return marks.length === 0 ? source : `${source} (${marks.join(', ')})`;
}
