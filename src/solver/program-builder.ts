import type { Program, Row } from './program.ts';

/** A program that is built row by row, its columns known first. */
export class ProgramBuilder {
  readonly rows: Row[] = [];
  readonly #columns: { readonly upper: number; readonly whole: boolean; readonly entries: [number, number][] }[] = [];

  /** A variable from 0 to `upper`; answers its place. */
  column(upper: number, whole: boolean): number {
    this.#columns.push({ upper, whole, entries: [] });
    return this.#columns.length - 1;
  }

  row(bounds: Row, entries: Iterable<readonly [column: number, coefficient: number]>): void {
    const row = this.rows.push(bounds) - 1;
    for (const [column, coefficient] of entries)
      if (coefficient !== 0) this.#columns[column]?.entries.push([row, coefficient]);
  }

  get size(): number {
    return this.#columns.length;
  }

  withCosts(costs: readonly number[]): Program {
    return { rows: this.rows, columns: this.#columns.map((column, place) => ({ ...column, cost: costs[place] ?? 0 })) };
  }
}
