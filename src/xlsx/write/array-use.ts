import type { Node } from '../../formula/syntax.ts';
import { headingsOf, rangeOf } from './adjacent-verdicts.ts';
import { givesArray, takesRanges } from './file-functions.ts';

/** How a formula uses ranges of cells. */
interface ArrayUse {
  /** Its value is, or may be, several cells. */
  readonly many: boolean;
  /** Something in it is computed once for each cell of a range, outside SUMPRODUCT, which does so in every program. */
  readonly needsArrayFormula: boolean;
}

const one: ArrayUse = { many: false, needsArrayFormula: false };

/** Operators and functions of single cells turn a range into as many values. */
const spread = (operands: readonly ArrayUse[], inProducts: boolean): ArrayUse => {
  const many = operands.some((operand) => operand.many);
  return { many, needsArrayFormula: operands.some((operand) => operand.needsArrayFormula) || (many && !inProducts) };
};

/**
 * Chooses between its arguments by a condition; on a range of conditions only an array formula does so in every
 * program.
 */
const choosers = new Set(['IF', 'IFERROR', 'IFNA', 'IFS', 'CHOOSE', 'SWITCH']);

export function arrayUse(node: Node, inProducts = false): ArrayUse {
  switch (node.type) {
    case 'reference':
      return { many: node.text.includes(':'), needsArrayFormula: false };
    case 'array':
      return { many: true, needsArrayFormula: false };
    case 'group':
      return arrayUse(node.value, inProducts);
    case 'unary':
    case 'percent':
      return spread([arrayUse(node.value, inProducts)], inProducts);
    case 'binary':
      return spread([arrayUse(node.left, inProducts), arrayUse(node.right, inProducts)], inProducts);
    case 'call': {
      if (node.name === rangeOf || node.name === headingsOf) return { many: true, needsArrayFormula: false };
      const inside = inProducts || node.name === 'SUMPRODUCT';
      const operands = node.args.map((argument) => (argument === undefined ? one : arrayUse(argument, inside)));
      if (givesArray(node.name)) return { many: true, needsArrayFormula: true };
      if (takesRanges(node.name))
        return { many: false, needsArrayFormula: operands.some((operand) => operand.needsArrayFormula) };
      return spread(operands, inside && !choosers.has(node.name));
    }
    default:
      return one;
  }
}
