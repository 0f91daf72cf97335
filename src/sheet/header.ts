import { type QuantityKind, type UnitSystem, unitOf } from '../units/quantities.ts';

/** A column's header as lists carry it: its name, then its unit in brackets where it has one, as "Width (mm)". */
export function headerWithUnit(header: string, kind: QuantityKind, units: UnitSystem): string {
  const unit = unitOf(kind, units);
  return unit === '' ? header : `${header} (${unit})`;
}
