import { groupedText } from '../units/shown-mark.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { amountText, itemText } from './items.ts';
import type { FleetShelfLine } from './shelf-lines.ts';

/** What page and command line say of the shelf, in the same words. */

const money = (value: number): string => groupedText(value, { minimumFractionDigits: 2, maximumFractionDigits: 2 });

/** What a bin's dead stock is worth; without an offer nobody says. */
export const deadValueText = ({ offer, value }: FleetShelfLine): string =>
  offer === undefined ? 'value unknown (no price)' : `value ${money(value)}`;

export const deadStockText = (line: FleetShelfLine, units: UnitSystem): string =>
  `${amountText(line.onShelf, line.item, units)} ${itemText(line.item, units)}` +
  `${line.bin === '' ? '' : ` in bin ${line.bin}`} are not used by any belt; ${deadValueText(line)}`;
