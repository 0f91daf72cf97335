import type { Figure, Finding } from '../../records/finding.ts';
import { findingLines } from '../finding-lines.ts';
import { visibleLines } from '../visible-text.ts';
import type { PlacedFinding, Wanted } from './part-model.ts';

/** Findings of one line of data: enough that most of their texts stand in it many times. */
const together = 256;

/** A text's place in the table of its line. */
type At = number;
type FigureData = readonly [label: At, value: Figure['value'], kind: At, unit: At] | null;
type FindingData = readonly [
  record: number,
  texts: readonly [sheet: At, name: At, check: At, verdict: At, column: At, cell: At, message: At],
  given: FigureData,
  limit: FigureData,
  cures: readonly At[],
];

/** Findings with each of their texts once: most say the same of many belts. */
interface LineOfData {
  readonly texts: readonly string[];
  readonly findings: readonly FindingData[];
}

function lineOf(found: readonly Finding[]): LineOfData {
  const places = new Map<string, At>();
  const at = (text: string): At => {
    const known = places.get(text);
    if (known !== undefined) return known;
    places.set(text, places.size);
    return places.size - 1;
  };
  const figure = (one: Figure | null): FigureData => one && [at(one.label), one.value, at(one.kind), at(one.unit)];
  const findings = found.map(
    ({ record, sheet, name, check, verdict, column, cell, message, given, limit, cures }): FindingData => [
      record,
      [at(sheet), at(name), at(check), at(verdict), at(column), at(cell), at(message)],
      figure(given),
      figure(limit),
      cures.map(at),
    ],
  );
  return { texts: [...places.keys()], findings };
}

/** Findings as lines of data, without their places in the list: a book has places of its own. */
export function findingsData(found: readonly Finding[]): string {
  let text = '';
  for (let first = 0; first < found.length; first += together)
    text += `${JSON.stringify(lineOf(found.slice(first, first + together)))}\n`;
  return text;
}

/** The findings of one line of data. */
export function findingsIn(line: string): Finding[] {
  // What a part has written a moment ago, by the same program.
  const { texts, findings } = JSON.parse(line) as LineOfData;
  const said = (at: At): string => texts[at] ?? '';
  const figure = (data: FigureData): Figure | null =>
    data && { label: said(data[0]), value: data[1], kind: said(data[2]) as Figure['kind'], unit: said(data[3]) };
  return findings.map(([record, [sheet, name, check, verdict, column, cell, message], given, limit, cures]) => ({
    sheet: said(sheet),
    record,
    name: said(name),
    check: said(check),
    verdict: said(verdict) as Finding['verdict'],
    column: said(column),
    cell: said(cell),
    message: said(message),
    given: figure(given),
    limit: figure(limit),
    cures: cures.map(said),
  }));
}

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
