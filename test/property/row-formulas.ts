import { columnLetters } from '../../src/formula/address.ts';
import { Engine } from '../../src/formula/engine.ts';
import { mapped, type Node, parsed, printed } from '../../src/formula/syntax.ts';
import type { Value } from '../../src/formula/values.ts';

/** Columns of formulas over the columns before them, as files have them, worked out for many records. */

export interface FormulaColumn {
  readonly header: string;
  /** Over `{Heading}` and names. */
  readonly formula: string;
}

/** Each column's formula in a row; what is given stands in the first column, names stand for numbers. */
export function rowFormulas(
  given: string,
  columns: readonly FormulaColumn[],
  names: Readonly<Record<string, number>>,
): readonly ((row: number) => string)[] {
  const places = new Map([given, ...columns.map(({ header }) => header)].map((header, index) => [header, index]));
  return columns.map(({ formula }) => {
    const tree = mapped(parsed(formula), (node): Node | undefined => {
      if (node.type === 'name') {
        const value = names[node.name];
        if (value === undefined) throw new Error(`no number stands for ${node.name}`);
        return { type: 'number', value, text: String(value) };
      }
      if (node.type !== 'placeholder') return undefined;
      const place = places.get(node.name);
      if (place === undefined) throw new Error(`there is no column ${node.name}`);
      return { type: 'reference', text: `${columnLetters(place)}\0` };
    });
    const pieces = printed(tree).split('\0');
    return (row) => pieces.join(String(row));
  });
}

/** What the engine makes of them for each of some texts, in the columns beside them. */
export function evaluatedRows(texts: readonly string[], formulas: ReturnType<typeof rowFormulas>): Value[][] {
  const rows = texts.map((text, index) => [text, ...formulas.map((formula) => `=${formula(index + 1)}`)]);
  const engine = Engine.build([], [{ name: 'Texts', rows }], []);
  const values = engine.values('Texts').map((row) => row.slice(1));
  engine.destroy();
  return values;
}
