import { quotedSheet } from '../formula/address.ts';
import { cellArea } from '../formula/references.ts';
import { mapped, parsed, printed } from '../formula/syntax.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';

/**
 * A formula with its own sheet named in every reference that names none, so that it means the same anywhere; as it is
 * when it is none.
 */
export function formulaOnSheet(content: string, sheet: string): string {
  try {
    return printed(
      mapped(parsed(content), (node) =>
        node.type === 'reference' && cellArea(node.text)?.sheet === undefined
          ? { type: 'reference', text: `${quotedSheet(sheet)}!${node.text}` }
          : undefined,
      ),
    );
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return content;
    throw error;
  }
}
