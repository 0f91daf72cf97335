import { sheetRow } from '../formula/address.ts';
import type { Value } from '../formula/values.ts';
import type { PathPulley } from './belt-path.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { belts } from '../../sheets/belts/index.ts';

/** A belt's pulleys as the sheet of pulleys lists them, one a row in the order of travel; columns by their headers. */

export const pulleySheet = 'Pulleys';

export interface ListedPulley {
  readonly record: number;
  readonly name: string;
  /** What stands in a column of its row; null where the sheet has no such column. */
  readonly read: (header: string) => Value;
  readonly number: (header: string) => number | undefined;
  readonly text: (header: string) => string;
  readonly place: (header: string) => CellPlace;
}

export const hasPulleySheet = (book: Workbook): boolean =>
  compiledSheets.has(pulleySheet) && book.state.sheets.some(({ name }) => name === pulleySheet);

function pulleyAt(book: Workbook, record: number): ListedPulley {
  const read = (header: string): Value =>
    book.column(pulleySheet, header) < 0 ? null : book.read(pulleySheet, record, header);
  const text = (header: string): string => {
    const value = read(header);
    return typeof value === 'string' ? value : '';
  };
  const name = text('Pulley') || text('Kind');
  return {
    record,
    read,
    text,
    name: name === '' ? `pulley in row ${sheetRow(record)}` : name,
    number(header) {
      const value = read(header);
      return typeof value === 'number' ? value : undefined;
    },
    place: (header) => ({ sheet: pulleySheet, record, column: Math.max(0, book.column(pulleySheet, header)) }),
  };
}

/** The rows of a belt's pulleys; none when it has no name or the book no such sheet. */
export function listedPulleys(book: Workbook, record: number): ListedPulley[] {
  const belt = String(book.read(belts.name, record, belts.key) ?? '').toLowerCase();
  if (belt === '' || !hasPulleySheet(book)) return [];
  const column = book.column(pulleySheet, belts.key);
  return book.sheet(pulleySheet).rows.flatMap((_, row) => {
    const name = book.value({ sheet: pulleySheet, record: row, column });
    return String(name ?? '').toLowerCase() === belt ? [pulleyAt(book, row)] : [];
  });
}

/**
 * The pulleys with their places and which way the belt turns on each, in long units; undefined when a place or a
 * diameter is not known. Diameters are those at the middle of the belt where its thickness is known.
 */
export function placedPulleys(book: Workbook, pulleys: readonly ListedPulley[]): PathPulley[] | undefined {
  const perLong = book.named('ShortPerLong');
  if (pulleys.length < 2 || typeof perLong !== 'number') return undefined;
  const placed = pulleys.flatMap(({ name, number }): PathPulley[] => {
    const [x, y, diameter, turn] = [
      number('x'),
      number('y'),
      number('Neutral diameter') ?? number('Diameter'),
      number('Turn'),
    ];
    return x === undefined || y === undefined || diameter === undefined || turn === undefined
      ? []
      : [{ name, x, y, diameter: diameter / perLong, turn: turn < 0 ? -1 : 1 }];
  });
  return placed.length === pulleys.length ? placed : undefined;
}
