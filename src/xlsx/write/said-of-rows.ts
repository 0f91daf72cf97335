import type { CellFormat } from '../../workbook/state.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { AboutFormula } from '../about.ts';

/** Something that the file holds otherwise than the book does, for the user to know. */
export interface WrittenOtherwise {
  /** The cell as people name it, "Belts!J7", or the sheet. */
  readonly place: string;
  readonly why: string;
}

/** What is found out while rows are made and told elsewhere in the file. It can be handed from thread to thread. */
export interface SaidOfRows {
  readonly typed: AboutFormula[];
  readonly overrides: CellPlace[];
  readonly remarks: { readonly place: CellPlace; readonly text: string }[];
  readonly formats: { readonly place: CellPlace; readonly format: CellFormat }[];
  /** What the records are known by of which something is said. */
  readonly names: { readonly place: CellPlace; readonly name: string }[];
  readonly otherwise: WrittenOtherwise[];
}

export const nothingSaid = (): SaidOfRows => ({
  typed: [],
  overrides: [],
  remarks: [],
  formats: [],
  names: [],
  otherwise: [],
});

/** Adds what was said of other rows. */
export function saidToo(said: SaidOfRows, { typed, overrides, remarks, formats, names, otherwise }: SaidOfRows): void {
  for (const item of typed) said.typed.push(item);
  for (const item of overrides) said.overrides.push(item);
  for (const item of remarks) said.remarks.push(item);
  for (const item of formats) said.formats.push(item);
  for (const item of names) said.names.push(item);
  for (const item of otherwise) said.otherwise.push(item);
}
