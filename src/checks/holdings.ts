import type { Node } from '../formula/syntax.ts';
import { type FormulaReading, type Row, treeOf } from './formula-reading.ts';
import { isComputed } from '../sheet/declaration.ts';
import { conditionalCells, isConditional } from '../workbook/conditional-records.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { type CellPlace, placeKey } from '../workbook/place.ts';
import { leavesOf } from './formula-parts.ts';

/** A cell that people fill in, with what it holds: "Width, 650 mm". */
export interface Holding extends CellPlace {
  readonly header: string;
  readonly says: string;
}

/** The inputs behind an expression, however many computed cells lie between. */
export class Holdings {
  readonly #reading: FormulaReading;
  readonly #held = new Map<string, Holding[]>();

  constructor(reading: FormulaReading) {
    this.#reading = reading;
  }

  of(expression: Node, row: Row): Holding[] {
    return leavesOf(expression).flatMap((leaf) => {
      if (leaf.type === 'name') {
        const home = this.#reading.namedPlace(leaf.name);
        if (home === undefined || !home.editable) return [];
        const { sheet, record, column } = home;
        return [
          {
            sheet,
            record,
            column,
            header: leaf.name,
            says: `${leaf.name}, ${this.#reading.shown({ sheet, record, column }, {})}`,
          },
        ];
      }
      if (leaf.type === 'call' && isConditional(leaf.name)) {
        return conditionalCells(this.#reading.book, leaf, (node) => this.#reading.value(node, row)).flatMap((place) =>
          this.#heldAt(place, true),
        );
      }
      const own = leaf.type === 'placeholder' ? row.plan.position.get(leaf.name) : undefined;
      const found =
        leaf.type === 'call'
          ? this.#reading.lookedUp(leaf, row)
          : own === undefined
            ? undefined
            : { ...row, column: own };
      return found === undefined
        ? []
        : this.#heldAt(
            { sheet: found.plan.declaration.name, record: found.record, column: found.column },
            leaf.type === 'call',
          );
    });
  }

  /** What a cell holds, or what the cells hold that it is computed from; `named` says whose it is. */
  #heldAt(place: CellPlace, named: boolean): Holding[] {
    const plan = compiledSheets.get(place.sheet);
    const declared = plan?.columns[place.column];
    if (plan === undefined || declared === undefined) return [];
    if (!isComputed(declared) || this.#reading.book.content(place) !== null) {
      return [
        {
          ...place,
          header: declared.header,
          says:
            `${declared.header}${named ? ` of ${this.#reading.recordName(place)}` : ''}, ` +
            `${this.#reading.shown(place, declared)}`,
        },
      ];
    }
    const mark = placeKey(place);
    const kept = this.#held.get(mark);
    if (kept !== undefined) return kept;
    // Users' formulas may lead in a circle.
    this.#held.set(mark, []);
    const tree = treeOf(plan, place.column);
    const behind = tree === undefined ? [] : this.of(tree, { plan, record: place.record });
    const holdings = [...new Map(behind.map((holding) => [holding.says, holding])).values()];
    this.#held.set(mark, holdings);
    return holdings;
  }
}
