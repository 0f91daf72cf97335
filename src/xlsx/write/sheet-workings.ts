import type { Answer } from '../../formula/answers.ts';
import { type Node, printed } from '../../formula/syntax.ts';
import { headingBeside, partHeading } from './part-headings.ts';
import type { WorkingColumn } from './working-columns.ts';

/** The working columns of one sheet while its formulas are spelled, with what each answers. */
export class SheetWorkings {
  readonly columns = new Map<string, WorkingColumn>();
  readonly #answers = new Map<string, Answer>();

  add(column: Omit<WorkingColumn, 'slot'>, answer: Answer): Node {
    const { header: slot } = column;
    if (!this.columns.has(slot)) {
      this.columns.set(slot, { slot, ...column });
      this.#answers.set(slot, answer);
    }
    return { type: 'placeholder', name: slot };
  }

  /** The slot of the column that works out what another sheet looks up here. */
  lookedUp(formula: Node, by: string, answer: Answer): string {
    const text = printed(formula);
    const before = [...this.columns.values()].find((column) => printed(column.formula) === text);
    if (before !== undefined) return before.slot;
    const slot = `looked up ${this.columns.size}`;
    const headings = new Set([...this.columns.values()].map(({ header }) => header));
    const header = headingBeside(partHeading(formula, new Map()), headings);
    this.columns.set(slot, { slot, header, doc: `worked out here for the sheet ${by}`, formula });
    this.#answers.set(slot, answer);
    return slot;
  }

  answer(slot: string): Answer | undefined {
    return this.#answers.get(slot);
  }
}
