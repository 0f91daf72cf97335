import type { AnyHeader } from '../../../sheets/index.ts';
import type { Column } from '../../sheet/declaration.ts';
import { inSystemUnit, type Unit, unitNamed } from '../../units/reading.ts';

/**
 * Sizes that real belts and plates have, to tell the unit of a column that names none: a width of 650 is no number of
 * inches, one of 36 no number of millimetres.
 *
 * In the kind's metric unit. Widths: ISO 251 and JIS K 6322 go from 300 to 3200 mm, with room for special belts;
 * pulleys: the series of DIN 22101 / ISO 1536 from 100 to 2000 mm, with room; the rest common practice, no source.
 */
const ranges: Readonly<Record<string, readonly [least: number, most: number]>> = {
  Width: [200, 3400],
  Thickness: [2, 60],
  'Carcass thickness': [0.8, 50],
  'Top cover': [0.8, 30],
  'Belt rating': [4, 1200],
  'Smallest pulley': [75, 2500],
  'Head pulley': [75, 2500],
  'Tail pulley': [75, 2500],
  'Pulley centres': [2, 25_000],
  Speed: [0.1, 12],
  'Known tension': [1, 1200],
  'Take-up travel': [50, 20_000],
  'Skive depth': [0.5, 20],
  Diameter: [50, 2500],
  'Local tension': [1, 1200],
  'Spare roll diameter': [200, 5000],
  'Spare roll core diameter': [50, 1500],
  'Minimum thickness': [2, 60],
  'Maximum thickness': [2, 60],
  'Minimum pulley square': [75, 2500],
  'Minimum pulley at 45': [75, 2500],
  'Minimum pulley at 15': [75, 2500],
  'Minimum pulley at 22': [75, 2500],
  'Minimum pulley at 30': [75, 2500],
  'Minimum pulley at 60': [75, 2500],
  'Tension rating': [4, 1200],
  Pitch: [10, 200],
  'Plate width': [8, 200],
  'Hole setback': [5, 100],
  'Bolt length': [15, 200],
  'Long bolt length': [15, 200],
  'Punch size': [3, 30],
  'Plate length': [15, 400],
} satisfies Partial<Record<AnyHeader, readonly [number, number]>>;

/** Units that lists leave out, the two systems' own first. */
const usual: Partial<Record<Column['kind'], readonly string[]>> = {
  length: ['mm', 'in', 'm', 'cm', 'ft'],
  distance: ['m', 'ft', 'mm', 'km'],
  speed: ['m/s', 'ft/min', 'm/min'],
  lineTension: ['N/mm', 'lbf/in', 'N/m'],
};

interface UnitShare {
  readonly unit: Unit;
  /** Share of the values that are plausible in it, 0 to 1. */
  readonly share: number;
}

/** How much of a column is plausible in each unit it might be in; none when nothing is known of such sizes. */
export function plausibleUnits(column: Column, values: readonly number[]): UnitShare[] {
  const range = ranges[column.header];
  const sizes = values.filter((value) => value !== 0).map(Math.abs);
  if (range === undefined || sizes.length === 0) return [];
  return (usual[column.kind] ?? []).flatMap((symbol) => {
    const unit = unitNamed(symbol, column.kind, 'metric');
    if (unit === undefined) return [];
    const inside = sizes.filter((value) => {
      const size = inSystemUnit(value, unit, column.kind, 'metric');
      return size >= range[0] && size <= range[1];
    });
    return [{ unit, share: inside.length / sizes.length }];
  });
}

/** The one unit that nearly all values are plausible in, when the other system's is not. */
export function plainlyIn(column: Column, values: readonly number[]): Unit | undefined {
  const shares = plausibleUnits(column, values);
  const systems = shares.slice(0, 2).filter(({ share }) => share >= 0.8);
  if (systems.length === 1 && shares.slice(0, 2).every((item) => item === systems[0] || item.share < 0.5))
    return systems[0]?.unit;
  if (systems.length > 0) return undefined;
  const others = shares.filter(({ share }) => share >= 0.8);
  return shares.slice(0, 2).every(({ share }) => share < 0.2) && others.length === 1 ? others[0]?.unit : undefined;
}
