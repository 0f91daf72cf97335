import type { Finding } from '../../records/finding.ts';
import { findingLines } from '../finding-lines.ts';
import { visibleLines } from '../visible-text.ts';
import type { PlacedFinding, Wanted } from './part-model.ts';

/** Findings as lines of data, without their places in the list: a book has places of its own. */
export const findingsData = (found: readonly Finding[]): string =>
  found.map((finding) => `${JSON.stringify(finding)}\n`).join('');

/** Findings as lines, or as the items of a list of JSON, each with a comma and the end of a line behind it. */
export function findingsText(found: readonly PlacedFinding[], wanted: Wanted): string {
  if (found.length === 0) return '';
  if (wanted === 'data') return findingsData(found);
  return wanted === 'lines'
    ? visibleLines(found.flatMap((finding) => findingLines(finding, finding.place)))
    : found.map((finding) => `    ${JSON.stringify(finding, null, 2).replaceAll('\n', '\n    ')},\n`).join('');
}

/** What stands behind the last item and must not. */
export const commaLength = ',\n'.length;

export const withoutComma = (text: string, wanted: Wanted): string =>
  wanted === 'json' ? text.slice(0, Math.max(0, text.length - commaLength)) : text;
