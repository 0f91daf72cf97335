import { counted } from '../units/phrases.ts';
import type { Finding } from '../records/finding.ts';
import { verdictCounts } from '../checks/findings.ts';
import type { VerdictCounts } from '../reference/findings-json.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Verdicts and findings, counted and in lines. */

export function countsOf(book: Workbook): VerdictCounts {
  const counts = verdictCounts(book);
  return { belts: Object.values(counts).reduce((sum, count) => sum + count, 0), ...counts };
}

export const countLine = ({ belts, fits, tight, fails, 'not known': unknown }: VerdictCounts): string =>
  `${counted(belts, 'belt')}: ${fits} fit, ${tight} tight, ${fails} fail, ${unknown} not known.`;

/** How many belts have findings that no verdict counts. */
export const comparedBelts = (found: readonly Finding[]): number =>
  new Set(found.flatMap(({ verdict, name }) => (verdict === 'compare' ? [name] : []))).size;

/** The same, after the counts; '' where there are none. */
export const compareText = (compared: number): string =>
  compared === 0 ? '' : ` Methods to compare: ${counted(compared, 'belt')}.`;

/** One finding with its cures; `place` names the cell to look at. */
export const findingLines = (
  { verdict, name, sheet, check, cell, message, cures }: Finding,
  place = cell,
): string[] => [
  `${verdict.toUpperCase()} ${sheet === 'Belts' ? '' : `${sheet}, `}${name === '' ? cell : name}, ${check}: ` +
    `${message} (${place})`,
  ...cures.map((cure) => `  cure: ${cure}`),
];
