import { isFormula } from '../formula/values.ts';
import { Relocation } from './moved-references.ts';
import { type CellPlace, placeKey } from './place.ts';
import { type BookState, contentAt } from './state.ts';
import { type CellEdit, formatAlong } from './state-changes.ts';

/** What is cut from some cells and put into others. */

/** A cell whose content goes to another. */
export interface CellMove {
  readonly from: CellPlace;
  readonly to: CellPlace;
}

/**
 * What becomes of cells when the contents of some go to others: formulas go as they are but for what moves with them,
 * and whatever refers to a moved cell follows it. The cells that were left are empty.
 */
export function moveEdits(state: BookState, moves: readonly CellMove[]): CellEdit[] {
  const relocation = new Relocation();
  const edits = new Map<string, CellEdit>();
  for (const { from, to } of moves) {
    relocation.add(
      { sheet: from.sheet, row: from.record + 1, column: from.column },
      { sheet: to.sheet, row: to.record + 1, column: to.column },
    );
    edits.set(placeKey(from), { ...from, content: null });
  }
  for (const { from, to } of moves) {
    const content = contentAt(state, from);
    edits.set(placeKey(to), {
      ...to,
      format: formatAlong(state, from, to),
      content: isFormula(content) ? relocation.formula(content, from.sheet, to.sheet) : content,
    });
  }
  for (const { name, rows } of state.sheets) {
    rows.forEach(({ cells }, record) =>
      cells.forEach((content, column) => {
        if (!isFormula(content)) return;
        const place = { sheet: name, record, column };
        if (edits.has(placeKey(place))) return;
        const followed = relocation.formula(content, name, name);
        if (followed !== content) edits.set(placeKey(place), { ...place, content: followed });
      }),
    );
  }
  return [...edits.values()];
}
