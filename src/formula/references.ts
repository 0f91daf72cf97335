import { columnPosition } from './address.ts';
import { FormulaSyntaxError, nodesOf, parsed } from './syntax.ts';

/** Which cells a reference names. Rows and columns count from 0; whole columns and rows end at Infinity. */
export interface CellArea {
  /** Absent when the reference stays on its own sheet. */
  readonly sheet?: string;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

const corner = /^\$?([A-Za-z]{1,3})?\$?(\d{1,7})?$/;

/** The area of a reference as formulas write it: "D7", "$A$2:B9", "'Plate series'!$F:$F", "3:3". */
export function cellArea(reference: string): CellArea | undefined {
  const match = /^(?:('(?:[^']|'')+'|[^!']+)!)?([^!]+)$/.exec(reference);
  const [first, last] = (match?.[2] ?? '').split(':');
  const from = corner.exec(first ?? '');
  const to = corner.exec(last ?? first ?? '');
  if (match === null || from === null || to === null) return undefined;
  const name = match[1];
  const sheet = name?.startsWith("'") === true ? name.slice(1, -1).replaceAll("''", "'") : name;
  const column = (found: RegExpExecArray, none: number): number =>
    found[1] === undefined ? none : columnPosition(found[1]);
  const row = (found: RegExpExecArray, none: number): number => (found[2] === undefined ? none : Number(found[2]) - 1);
  const [left, right] = [column(from, 0), column(to, Infinity)];
  const [top, bottom] = [row(from, 0), row(to, Infinity)];
  return {
    ...(sheet === undefined ? {} : { sheet }),
    top: Math.min(top, bottom),
    bottom: Math.max(top, bottom),
    left: Math.min(left, right),
    right: Math.max(left, right),
  };
}

/** The cells and names that a formula uses directly; undefined for text that can't be read as a formula. */
export function usedBy(
  formula: string,
): { readonly areas: readonly CellArea[]; readonly names: readonly string[] } | undefined {
  try {
    const nodes = nodesOf(parsed(formula));
    return {
      areas: nodes.flatMap((node) => (node.type === 'reference' ? (cellArea(node.text) ?? []) : [])),
      names: nodes.flatMap((node) => (node.type === 'name' ? [node.name] : [])),
    };
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return undefined;
    throw error;
  }
}
