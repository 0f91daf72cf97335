import { usualRanges } from '../../sheets/belts/usual-ranges.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { amount } from '../sheet/words.ts';
import { converted, unitOf } from '../units/quantities.ts';
import { headerPosition } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import { cellInSheet } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { cellIssue } from './cell-issue.ts';
import type { Finding } from './finding.ts';
import { recordName } from './input-issues.ts';

/** Inputs that are allowed and hardly ever meant: a number beyond its usual range. */

const positions: ReadonlyMap<number, BeltHeader> = new Map(
  (Object.keys(usualRanges) as BeltHeader[]).map((header) => [headerPosition(belts.name, header), header]),
);

/** The question about a cell's number; undefined where there is none to ask, or where it is not allowed at all. */
export function unusual(book: Workbook, place: CellPlace): string | undefined {
  const header = place.sheet === belts.name ? positions.get(place.column) : undefined;
  const range = header === undefined ? undefined : usualRanges[header];
  const value = range === undefined || book.content(place) === null ? null : book.value(place);
  if (range === undefined || header === undefined || typeof value !== 'number') return undefined;
  const kind = book.kind(place);
  const metric = converted(value, kind, book.units, 'metric');
  if ((metric >= range.min && metric <= range.max) || cellIssue(book, place) !== undefined) return undefined;
  const shown = (number: number): string => amount(number, { kind, digits: 3 }, book.units);
  const [min, max] = [range.min, range.max].map((bound) => shown(converted(bound, kind, 'metric', book.units)));
  return `${header} is ${shown(value)}: is this meant? Usual are ${min ?? ''} to ${max ?? ''}.`;
}

/** What a record's unusual numbers are asked about; no verdict changes by it. */
export function unusualFindings(book: Workbook, record: number): Finding[] {
  return [...positions].flatMap(([column, header]): Finding[] => {
    const place = { sheet: belts.name, record, column };
    const message = unusual(book, place);
    if (message === undefined) return [];
    const value = book.value(place);
    const kind = book.kind(place);
    return [
      {
        sheet: belts.name,
        record,
        name: recordName(book, belts.name, record),
        check: 'input',
        verdict: 'compare',
        column: header,
        cell: cellInSheet(book.sheet(belts.name), record, column),
        message,
        given: { label: header, value: typeof value === 'number' ? value : null, kind, unit: unitOf(kind, book.units) },
        limit: null,
        cures: [`Correct ${header}, or leave it if it is meant.`],
      },
    ];
  });
}
