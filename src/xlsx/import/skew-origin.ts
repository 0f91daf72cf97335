import type { ColumnFacts } from './column-facts.ts';
import { headerWords } from './header-words.ts';
import type { SkewOrigin } from './import-model.ts';

/** From where a list's column of skews counts: as its header says, else as its cells show. */

const edgeWords = new Set(['edge', 'kante', 'gurtkante', 'rand', 'bord', 'borde', 'kant']);

/** The steepest skew from the square line that is allowed, and what then stands at the edge. */
const [mostSkew, leastFromEdge] = [60, 30];

interface OriginFound {
  readonly origin: SkewOrigin | 'unclear';
  readonly assumed?: string;
}

/**
 * One 90 among the cells proves that the column counts from the edge, and then a 60 of it is 30 degrees: all or none.
 *
 * Where other cells can't be angles to the edge, or steep angles stand there without a single square joint, nothing is
 * proved, and no cell is taken until somebody says how the column counts.
 */
export function skewOrigin(header: string, { sizes }: ColumnFacts): OriginFound | undefined {
  const words = headerWords(header);
  if (words.some((word) => edgeWords.has(word))) return { origin: 'edge' };
  if (words.includes('square')) return { origin: 'square' };
  const steep = sizes.filter((size) => size > mostSkew && size <= 180 - leastFromEdge);
  if (steep.length === 0 || sizes.length < 2) return undefined;
  const fromEdge = steep.includes(90) && sizes.every((size) => size >= leastFromEdge && size <= 180 - leastFromEdge);
  const [first = 0] = steep;
  return fromEdge
    ? {
        origin: 'edge',
        assumed:
          `${header}: it holds 90 and no angle below ${leastFromEdge}, so all of it is read as angles to the belt's ` +
          `edge, where 90 is square; select that skew is measured from the square line if it is not`,
      }
    : {
        origin: 'unclear',
        assumed:
          `${header}: it holds ${first}, which no skew from the square line can be, so none of its angles was taken: ` +
          `select whether skew is measured from the square line or from the edge`,
      };
}
