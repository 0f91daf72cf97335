import { assumptionValues } from '../../../sheets/values/assumptions.ts';
import type { NamedValue } from '../../sheet/declaration.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { cellText, isText } from '../read/raw-cells.ts';

/** Rows of a sheet that give an assumption by its name: the name, its value to the right, a unit beside that. */
interface AssumptionRow {
  readonly named: NamedValue;
  readonly value: RawCell;
  readonly unit: string;
}

/** Fewer rows than this may name an assumption by chance. */
const leastRows = 2;

const plain = (text: string): string => text.toLowerCase().replaceAll(/[^a-z]/g, '');
const values: readonly NamedValue[] = assumptionValues;
const byName = new Map(
  values.flatMap((value) =>
    [value.name, ...(value.formerly === undefined ? [] : [value.formerly])].map(
      (name) => [plain(name), value] as const,
    ),
  ),
);

/** The assumptions that a sheet gives; undefined when it is no such sheet. */
export function assumptionRows(sheet: RawSheet): AssumptionRow[] | undefined {
  const found: AssumptionRow[] = [];
  for (const [row, cells] of sheet.rows) {
    const at = cells.findIndex((cell) => isText(cell) && byName.has(plain(cell.value)));
    const named = byName.get(plain(cellText(cells[at] ?? { row, column: 0, value: null })));
    const value = cells[at + 1];
    const unit = cells[at + 2];
    if (named !== undefined && value !== undefined)
      found.push({ named, value, unit: unit !== undefined && isText(unit) ? unit.value : '' });
  }
  return found.length >= leastRows ? found : undefined;
}
