/** A cell of a sheet that is laid out to be read and written on, not to be computed with. */
export interface LaidCell {
  readonly value: string | number | null;
  readonly look: 'title' | 'heading' | 'head' | 'text' | 'strong' | 'blank';
  /** Columns that it takes. */
  readonly span: number;
  readonly align?: 'end';
  /** How many of a text's first lines are bold. */
  readonly boldLines?: number;
}

export interface LaidSheet {
  readonly name: string;
  /** Characters of each column. */
  readonly widths: readonly number[];
  readonly rows: readonly (readonly LaidCell[])[];
}
