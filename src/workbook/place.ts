/** A cell of the book: records count from 0, columns from 0 in the sheet's order. */
export interface CellPlace {
  readonly sheet: string;
  readonly record: number;
  readonly column: number;
}

/** A cell's place as text, for sets and maps. */
export const placeKey = ({ sheet, record, column }: CellPlace): string => `${sheet}!${record},${column}`;

/** What a change did, for views: the cells whose values moved, or that everything may have. */
export interface BookChange {
  readonly cells: readonly CellPlace[] | 'all';
}
