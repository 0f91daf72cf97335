import { sourceMarks } from '../sheet/source-marks.ts';

/** A source with the least sure of its marks, where it does not say that itself. */
export function marked(source: string): string {
  const [mark = ''] = sourceMarks(source);
  return source.toLowerCase().includes(mark) ? source : `${source} (${mark})`;
}
