import { compiled, type RowFormula } from '../formula/kernel.ts';
import type { Node } from '../formula/syntax.ts';
import { isFault, type Value } from '../formula/values.ts';
import type { Column } from '../sheet/declaration.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { namedSheets } from '../../sheets/index.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { CompiledSheet } from '../workbook/compiled-sheet.ts';
import type { CellPlace } from '../workbook/place.ts';
import { rowInSheet } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { keyValue } from '../records/input-issues.ts';
import { amount } from '../sheet/words.ts';

/** A record whose formulas are read. */
export interface Row {
  readonly plan: CompiledSheet;
  readonly record: number;
}

/** A computed column's formula as it is computed; undefined for an input. */
export const treeOf = (plan: CompiledSheet, column: number): Node | undefined => plan.trees.get(column)?.guarded;

const compiledNodes = new WeakMap<Node, RowFormula>();

/** What the parts of sheets' formulas come to in a book, the cells they lead to, and both in words. */
export class FormulaReading {
  readonly book: Workbook;

  constructor(book: Workbook) {
    this.book = book;
  }

  value(node: Node, { plan, record }: Row): Value {
    let formula = compiledNodes.get(node);
    if (formula === undefined) compiledNodes.set(node, (formula = compiled(node, plan.scope)));
    return this.book.partValue({ sheet: plan.declaration.name, record, column: 0 }, formula);
  }

  fails(node: Node, row: Row): boolean {
    return isFault(this.value(node, row));
  }

  recordName({ sheet, record }: CellPlace): string {
    const declaration = compiledSheets.get(sheet)?.declaration;
    const name = keyValue(this.book, { sheet, record });
    return (
      `${declaration?.record ?? 'row'} ` +
      `${typeof name === 'string' ? name : rowInSheet(this.book.sheet(sheet), record)}`
    );
  }

  shown(place: CellPlace, declared: Pick<Column, 'digits'>): string {
    const value = this.book.value(place);
    if (typeof value === 'number') return amount(value, { ...declared, kind: this.book.kind(place) }, this.book.units);
    return value === null ? 'empty' : isFault(value) ? value.code : `"${String(value)}"`;
  }

  /** Where a named value stands; undefined for a name that no sheet has. */
  namedPlace(name: string): (CellPlace & { readonly editable: boolean; readonly found: boolean }) | undefined {
    const home = namedSheets.find(({ values }) => values.some((value) => value.name === name));
    if (home === undefined) return undefined;
    const sheet = home.declaration.name;
    const record = this.book
      .sheet(sheet)
      .rows.findIndex(({ cells }) => String(cells[0]).toLowerCase() === name.toLowerCase());
    return {
      sheet,
      record: Math.max(0, record),
      column: record < 0 ? 0 : valueColumn,
      editable: home.editable,
      found: record >= 0,
    };
  }

  /** The cell that INDEX({Sheet.Column},row) answers. */
  lookedUp(
    call: Node & { readonly type: 'call' },
    row: Row,
  ): { readonly plan: CompiledSheet; readonly record: number; readonly column: number } | undefined {
    const [source, at] = call.args;
    if (source?.type !== 'placeholder' || at === undefined) return undefined;
    const { sheet, header } = slotParts(source.name);
    const plan = sheet === undefined ? undefined : compiledSheets.get(sheet);
    const column = plan?.position.get(header);
    const place = this.value(at, row);
    return plan === undefined || column === undefined || typeof place !== 'number'
      ? undefined
      : { plan, record: place - 2, column };
  }
}
