import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { headerWithUnit } from '../../sheet/header.ts';
import { usSpelling } from '../../units/spelling.ts';
import type { UserColumn } from '../../workbook/state.ts';
import type { ColumnProposal } from './import-model.ts';

/** Columns of lists that stay the user's own, behind the declared ones, each under a header that is free. */
export class OwnColumns {
  readonly columns: UserColumn[] = [];
  readonly #declaration: SheetDeclaration;
  /** By header without case: a column's position, and the number that the next of that header is called by. */
  readonly #positions = new Map<string, number>();
  readonly #nextNumber = new Map<string, number>();
  /** Columns that the list at hand has taken. */
  readonly #here = new Set<number>();

  constructor(declaration: SheetDeclaration) {
    this.#declaration = declaration;
  }

  /** Another list begins, whose columns may share those of lists before. */
  startList(): void {
    this.#nextNumber.clear();
    this.#here.clear();
  }

  /** The position of a list's column; one of the same header from another list is shared. */
  position({ header, letter }: ColumnProposal, dates: boolean): number {
    const here = this.#here;
    const { columns } = this.#declaration;
    const lower = (text: string): string => text.trim().toLowerCase();
    const first = header.trim() === '' ? `Column ${letter}` : header.trim();
    const reserved = columns.flatMap(({ header: name, kind }) =>
      [name, headerWithUnit(name, kind, 'metric'), headerWithUnit(usSpelling(name), kind, 'us')].map(lower),
    );
    const base = reserved.includes(lower(first)) ? `${first} (as listed)` : first;
    let name = base;
    // One header repeated a thousand times is not tried a thousand times for each.
    for (let count = this.#nextNumber.get(lower(base)) ?? 1; ; count += 1) {
      name = count === 1 ? base : `${base} ${count}`;
      const index = this.#positions.get(lower(name));
      if (index === undefined) break;
      if (!here.has(index)) {
        here.add(index);
        return columns.length + index;
      }
      this.#nextNumber.set(lower(base), count + 1);
    }
    this.#positions.set(lower(name), this.columns.length);
    this.columns.push({ header: name, kind: dates ? 'date' : 'text' });
    here.add(this.columns.length - 1);
    return columns.length + this.columns.length - 1;
  }
}
