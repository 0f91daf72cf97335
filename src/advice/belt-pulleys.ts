import { sheetRow } from '../formula/address.ts';
import type { Value } from '../formula/values.ts';
import type { PathPulley } from './belt-path.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { PulleyHeader } from '../../sheets/index.ts';
import { belts } from '../../sheets/belts/index.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';

/** A belt's pulleys as the sheet of pulleys lists them, one a row in the order of travel; columns by their headers. */

export interface ListedPulley {
  readonly record: number;
  readonly name: string;
  readonly read: (header: PulleyHeader) => Value;
  readonly number: (header: PulleyHeader) => number | undefined;
  readonly text: (header: PulleyHeader) => string;
  readonly place: (header: PulleyHeader) => CellPlace;
}

export const hasPulleySheet = (book: Workbook): boolean => book.state.sheets.some(({ name }) => name === pulleys.name);

function pulleyAt(book: Workbook, record: number): ListedPulley {
  const read = (header: PulleyHeader): Value => book.read(pulleys.name, record, header);
  const text = (header: PulleyHeader): string => {
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
    place: (header) => ({ sheet: pulleys.name, record, column: book.column(pulleys.name, header) }),
  };
}

/** The rows of a belt's pulleys; none when it has no name or the book no such sheet. */
export function listedPulleys(book: Workbook, record: number): ListedPulley[] {
  const belt = String(book.read(belts.name, record, belts.key) ?? '').toLowerCase();
  if (belt === '' || !hasPulleySheet(book)) return [];
  const column = book.column(pulleys.name, 'Belt');
  return book.sheet(pulleys.name).rows.flatMap((_, row) => {
    const name = book.value({ sheet: pulleys.name, record: row, column });
    return String(name ?? '').toLowerCase() === belt ? [pulleyAt(book, row)] : [];
  });
}

/**
 * The pulleys with their places and which way the belt turns on each, in long units; undefined when a place or a
 * diameter is not known. Diameters are those at the middle of the belt where its thickness is known.
 */
export function placedPulleys(book: Workbook, listed: readonly ListedPulley[]): PathPulley[] | undefined {
  const perLong = book.named('ShortPerLong');
  if (listed.length < 2 || typeof perLong !== 'number') return undefined;
  const placed = listed.flatMap(({ name, number }): PathPulley[] => {
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
  return placed.length === listed.length ? placed : undefined;
}
