import type { Content } from '../../formula/values.ts';
import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { columnName } from '../read/cell-address.ts';
import type { ColumnReader } from './cell-reading.ts';
import type { ColumnProposal, ColumnReport } from './import-model.ts';
import type { RawCell } from '../read/raw-book.ts';
import type { ColumnFormulas } from './row-formulas.ts';

/** A column of a list on its way into the book. */
export interface MappedColumn {
  readonly proposal: ColumnProposal;
  /** Position in the book's sheet; undefined for a column that is left out. */
  readonly position: number | undefined;
  readonly reader: ColumnReader;
  readonly formulas: ColumnFormulas;
  filled: number;
  kept: number;
  values: number;
  valuesWhy?: string;
  firstValue?: string;
}

/** The list's column that was taken for a declared one. */
export const columnOf = (
  mapped: ReadonlyMap<number, MappedColumn>,
  declaration: SheetDeclaration,
  header: string,
): number | undefined => {
  const position = declaration.columns.findIndex((column) => column.header === header);
  return [...mapped].find(([, item]) => item.position === position)?.[0];
};

export const columnReport = ({
  proposal,
  filled,
  kept,
  values,
  valuesWhy,
  firstValue,
}: MappedColumn): ColumnReport => ({
  ...proposal,
  filled,
  formulas: kept,
  values,
  ...(valuesWhy === undefined ? {} : { valuesWhy }),
  ...(firstValue === undefined ? {} : { firstValue }),
});

/** A formula of which the file holds no result. */
export const resultless = ({ value, error, formula }: RawCell): boolean =>
  value === null && error === undefined && formula !== undefined;

/** Counts a formula of which only the value is taken. */
export function countValue(item: MappedColumn, why: string, cell: string): void {
  item.values += 1;
  item.valuesWhy ??= why;
  item.firstValue ??= cell;
}

/**
 * Puts the formulas of a list's row in place of their values where the book can go on computing them, in row `target`
 * of the book; answers the others, with why. What a formula uses must stand in the book just as it does in the list.
 */
export function keptFormulas(
  cells: readonly RawCell[],
  row: number,
  target: number,
  mapped: ReadonlyMap<number, MappedColumn>,
  contents: Content[],
): { readonly cell: RawCell; readonly why: string }[] {
  const asRead = contents.slice();
  const same = (cell: RawCell | undefined, item: MappedColumn): boolean =>
    item.reader.unchanged && (cell === undefined || asRead[item.position ?? -1] === cell.value);
  const against = (cell: RawCell, item: MappedColumn, uses: readonly number[]): string | undefined => {
    if (!same(cell, item)) return 'its result was converted or not understood';
    for (const column of uses) {
      const other = mapped.get(column);
      const used = cells.find((candidate) => candidate.column === column);
      if (other?.position === undefined) return `it uses column ${columnName(column)}, which is not in the book`;
      if (!same(used, other)) return `it uses column ${columnName(column)}, which was converted`;
    }
    return undefined;
  };
  const values: { cell: RawCell; why: string }[] = [];
  for (const cell of cells) {
    const item = mapped.get(cell.column);
    if (cell.formula === undefined || item?.position === undefined) continue;
    const formula = item.formulas.at(cell.formula, row);
    const why = 'why' in formula ? formula.why : against(cell, item, formula.uses);
    if (why === undefined && 'moved' in formula) {
      contents[item.position] = formula.moved(target, (column) => mapped.get(column)?.position);
      item.kept += 1;
    } else values.push({ cell, why: why ?? '' });
  }
  return values;
}
