import type { Column } from '../../sheet/declaration.ts';
import { convertible, type UnitSystem } from '../../units/quantities.ts';
import { systemUnit, type Unit, unitsFor, unitSuits } from '../../units/reading.ts';
import { type ColumnFacts, unitsInCells } from './column-facts.ts';
import type { UnitOrigin } from './import-model.ts';
import { plainlyIn, plausibleUnits } from './plausible-sizes.ts';
import type { RawCell } from '../read/raw-book.ts';

/**
 * The unit of each matched column's plain numbers.
 *
 * What a cell says itself goes first and is read with the cell. For the rest: the header, the units row, the system
 * that most columns are written in, and last what sizes are plausible. Whatever the list does not say is told as an
 * assumption.
 */

export interface MeasuredColumn {
  readonly header: string;
  readonly column: Column;
  readonly cells: readonly RawCell[];
  readonly facts: ColumnFacts;
  /** Unit that the header or the units row names. */
  readonly said?: { readonly unit: Unit; readonly from: 'header' | 'units row' };
}

export interface ColumnUnit {
  readonly unit?: Unit;
  readonly from?: UnitOrigin;
  readonly assumed?: string;
}

interface Witness {
  readonly measured: MeasuredColumn;
  /** The unit known without guessing. */
  readonly known?: { readonly unit: Unit; readonly from: UnitOrigin };
  /** Every number says its own unit, so that none is left to be decided. */
  readonly complete: boolean;
}

function witness(measured: MeasuredColumn): Witness {
  const { column, cells, facts, said } = measured;
  const inCells = [...unitsInCells(cells, (unit) => unitSuits(unit, column.kind)).values()].toSorted(
    (a, b) => b.count - a.count,
  );
  const own = inCells.reduce((sum, { count }) => sum + count, 0);
  const complete = own > 0 && own >= facts.numbers + facts.figures;
  const [most] = inCells;
  const byCells =
    most === undefined
      ? undefined
      : { unit: most.unit, from: most.byFormat ? ('number format' as const) : ('cells' as const) };
  const known = complete ? byCells : (said ?? (inCells.length === 1 && own > facts.numbers ? byCells : undefined));
  return { measured, complete, ...(known === undefined ? {} : { known }) };
}

/**
 * The system that a list is written in, by its columns' units; undefined when they say nothing or as much for either.
 */
function majority(votes: readonly (UnitSystem | undefined)[]): UnitSystem | undefined {
  const metric = votes.filter((vote) => vote === 'metric').length;
  const us = votes.filter((vote) => vote === 'us').length;
  return metric === us ? undefined : metric > us ? 'metric' : 'us';
}

interface ListUnits {
  readonly system: UnitSystem;
  /** How it was found: by units that the list names, by plausible sizes, or not at all. */
  readonly by: 'units' | 'sizes' | 'nothing';
  readonly columns: readonly ColumnUnit[];
}

/** Units of all matched columns of a list. `fallback` is the system taken when the list shows none. */
export function listUnits(columns: readonly MeasuredColumn[], fallback: UnitSystem): ListUnits {
  const witnesses = columns.map(witness);
  const named = majority(witnesses.map(({ known }) => known?.unit.system));
  const sized =
    named === undefined
      ? majority(
          witnesses.map(({ known, measured: { column, facts } }) =>
            known === undefined ? plainlyIn(column, facts.sizes)?.system : undefined,
          ),
        )
      : undefined;
  const system = named ?? sized ?? fallback;
  const by = named === undefined ? (sized === undefined ? 'nothing' : 'sizes') : 'units';
  return { system, by, columns: witnesses.map((item) => unitOfColumn(item, system, by)) };
}

function unitOfColumn({ measured, known, complete }: Witness, system: UnitSystem, by: ListUnits['by']): ColumnUnit {
  const { column, facts, header, said } = measured;
  if (unitsFor(column.kind).length === 0) return {};
  if (known !== undefined) {
    const settled = known.unit.bySystem?.[system];
    const unit =
      settled === undefined
        ? known.unit
        : (unitsFor(column.kind).find(({ symbol }) => symbol === settled) ?? known.unit);
    if (settled === undefined && said === undefined && !complete)
      return {
        unit,
        from: known.from,
        assumed: `${header}: "${unit.symbol}" is assumed for numbers without a unit, as for those with one`,
      };
    return settled === undefined
      ? { unit, from: known.from }
      : {
          unit,
          from: known.from,
          assumed: `${header}: "${known.unit.symbol}" is read as ${settled}, because the list is ${systemName(system)}`,
        };
  }
  const own = systemUnit(column.kind, system);
  if (own === undefined || !convertible(column.kind)) return own === undefined ? {} : { unit: own };
  if (complete || facts.numbers + facts.texts === 0) return { unit: own, from: 'list' };
  const shares = plausibleUnits(column, facts.sizes);
  const shareOf = (unit: Unit): number => shares.find((item) => item.unit.symbol === unit.symbol)?.share ?? 1;
  const near = shares.filter(({ unit, share }) => share >= 0.8 && unit.system === system);
  // Widths of 0.8 and 1.2 are metres in a metric list, although feet would do as well.
  const other = shareOf(own) < 0.2 && near.length === 1 ? near[0]?.unit : undefined;
  const plain = plainlyIn(column, facts.sizes) ?? other;
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  if (plain !== undefined && plain.symbol !== own.symbol && shareOf(own) < 0.5) {
    return {
      unit: plain,
      from: 'plausible',
      assumed:
        `${header}: no unit is given; "${plain.symbol}" is assumed: ${percent(shareOf(plain))} of its numbers ` +
        `are then usual sizes (${percent(shareOf(own))} in ${own.symbol})`,
    };
  }
  const why =
    by === 'units'
      ? `most columns of the list are ${systemName(system)}`
      : by === 'sizes'
        ? `its sizes are usual ones in ${systemName(system)} units`
        : `the list gives no units`;
  const doubt =
    shares.length > 0 && shareOf(own) < 0.5
      ? `; check this: only ${percent(shareOf(own))} of its numbers are usual sizes in ${own.symbol}`
      : '';
  return {
    unit: own,
    from: plain?.symbol === own.symbol && by !== 'units' ? 'plausible' : 'list',
    assumed: `${header}: no unit is given; "${own.symbol}" is assumed, because ${why}${doubt}`,
  };
}

export const systemName = (system: UnitSystem): string => (system === 'us' ? 'US customary' : 'metric');
