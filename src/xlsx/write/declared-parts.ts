import type { DeclaredFormula } from '../../formula/guard-places.ts';
import { mapped, type Node, nodesOf, printed } from '../../formula/syntax.ts';

/** Formulas of columns whose parts, by their declaration, stand in working columns of a file. */

export interface DeclaredPart {
  readonly text: string;
  readonly header: string;
}

export const namesIn = (tree: Node): string[] =>
  nodesOf(tree).flatMap((node) => (node.type === 'name' ? [node.name] : []));

/** A formula that reads its parts from their columns. */
export function withParts(declared: DeclaredFormula, parts: readonly DeclaredPart[]): DeclaredFormula {
  if (parts.length === 0) return declared;
  const read = (tree: Node): Node =>
    parts.reduce<Node>(
      (rest, { text, header }) =>
        mapped(rest, (node) =>
          node.type !== 'placeholder' && printed(node) === text
            ? ({ type: 'placeholder', name: header } as const)
            : undefined,
        ),
      tree,
    );
  const { formula, optional } = declared;
  return {
    ...declared,
    formula: read(formula),
    optional: new Map([...optional].map(([header, stands]) => [header, stands === null ? null : read(stands)])),
  };
}

/** What a blank stands for where a formula in the file does not say so itself. */
export const notReplaced = (optional: DeclaredFormula['optional'], formula: Node): DeclaredFormula['optional'] => {
  const asked = new Set(
    nodesOf(formula).flatMap((node) =>
      node.type === 'call' && node.name === 'ISBLANK' && node.args[0]?.type === 'placeholder'
        ? [node.args[0].name]
        : [],
    ),
  );
  return new Map([...optional].filter(([header]) => !asked.has(header)));
};
