import type { PulleyHeader } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { type Column, isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import { isWords } from '../../units/quantities.ts';
import type { HeaderText } from './header-forms.ts';
import { type HeaderMatch, matchedHeaders } from './header-matching.ts';

/**
 * Whether a list holds parts of other records, such as pulleys: only one that clearly does, and never a list of belts.
 */

const measures = (column: Column | undefined): boolean =>
  column !== undefined && !isComputed(column) && !isWords(column.kind);

/** What a list of pulleys has: the belt, the pulley by name or size, and what it is or where. */
function namesPulleys(headers: ReadonlySet<string>): boolean {
  const is = (...names: readonly PulleyHeader[]): boolean => names.every((name) => headers.has(name));
  return is('Belt') && (is('Pulley') || is('Diameter')) && (is('Pulley type') || is('x', 'y'));
}

/**
 * Whether headers that could be those of parts are.
 *
 * More sizes must be the parts' alone than are the belts' alone: a list of belts with a pulley's diameter and its kind
 * has a width and a speed as well.
 */
export function isPartList(
  texts: readonly HeaderText[],
  matches: readonly HeaderMatch[],
  { partOf }: SheetDeclaration,
): boolean {
  if (partOf === undefined) return true;
  if (!namesPulleys(new Set(matches.flatMap(({ best }) => best?.column.header ?? [])))) return false;
  const asBelts = matchedHeaders(
    texts.map((text) => ({ text })),
    belts,
  );
  const only = (one: readonly HeaderMatch[], other: readonly HeaderMatch[]): number =>
    one.filter(({ best }, index) => measures(best?.column) && !measures(other[index]?.best?.column)).length;
  return only(matches, asBelts) > only(asBelts, matches);
}
