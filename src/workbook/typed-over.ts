import { sheetRow } from '../formula/address.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { guarded } from '../formula/guard-places.ts';
import { refused, spelledForEngine } from '../formula/guards.ts';
import { mapped, type Node, nodesOf, parsed, printed } from '../formula/syntax.ts';
import { referencesIn } from '../formula/reference-text.ts';
import { declaredFormula } from '../sheet/declared-formula.ts';
import { withColumnNames } from './column-references.ts';
import { compiledSheets, guardScope } from './declared.ts';
import type { CellPlace } from './place.ts';
import { type BookState, sheetOf } from './state.ts';

/**
 * Formulas typed over those of computed columns. They stand behind the same guards as the sheet's own: a blank input
 * counts as 0 in no spreadsheet formula without one, and a figure worked out so would pass for a true one. People see
 * and type them without guards, cells and files hold them with theirs.
 *
 * Where it stops: guarded are the cells of the record in columns of the sheet, named values, and what INDEX looks up.
 * Other cells, ranges and the user's own columns count as in any spreadsheet.
 */

interface Read {
  /** Over `{Column}` and `{Sheet.Column}`. */
  readonly tree: Node;
  /** What was written for each. */
  readonly written: ReadonlyMap<string, string>;
}

/** A formula with what it names of the sheets' own columns told apart from other cells. */
function read(formula: string, place: CellPlace, state: BookState): Read {
  const written = new Map<string, string>();
  const named = (text: string): string | undefined => {
    const [found] = referencesIn(text);
    if (found === undefined || found.start > 0 || found.end < text.length) return undefined;
    const { sheet: other, from, to } = found.reference;
    const name = state.sheets.find((sheet) => sheet.name.toLowerCase() === (other ?? place.sheet).toLowerCase())?.name;
    const header = name === undefined ? undefined : compiledSheets.get(name)?.columns[from.column ?? -1]?.header;
    if (name === undefined || header === undefined) return undefined;
    const isHere = other === undefined && to === undefined && from.row === sheetRow(place.record) - 1 && !from.rowFixed;
    if (isHere) return header;
    const last = sheetOf(state, name).rows.length;
    const isWhole =
      to !== undefined &&
      to.column === from.column &&
      from.row === 1 &&
      to.row === last &&
      from.rowFixed &&
      to.rowFixed;
    return isWhole ? `${name}.${header}` : undefined;
  };
  const tree = mapped(parsed(formula), (node) => {
    if (node.type !== 'reference') return undefined;
    const name = named(node.text);
    if (name === undefined) return undefined;
    written.set(name, node.text);
    return { type: 'placeholder', name };
  });
  return { tree, written };
}

const isCall = (node: Node | undefined, name: string): node is Node & { readonly type: 'call' } =>
  node?.type === 'call' && node.name === name;

const asksForNumbers = (condition: Node): boolean =>
  condition.type === 'call' &&
  (condition.name === 'ISNUMBER' ||
    (condition.name === 'AND' && condition.args.every((part) => isCall(part, 'ISNUMBER'))));

/** A guard's answer to a cell without a number, as `guards.ts` spells it. */
const isNotANumber = (node: Node, cell: Node): boolean => {
  const text = printed(cell);
  return [`0+(${text}&"?")`, `0+((${text})&"?")`].includes(printed(node));
};

/** A formula without the guards that stand in it; with `empty`, also without those that answer nothing. */
const unguarded = (tree: Node, empty: boolean): Node =>
  mapped(tree, (node) => {
    if (!isCall(node, 'IF')) return undefined;
    const [condition, value, otherwise] = node.args;
    if (condition === undefined || value === undefined || otherwise === undefined) return undefined;
    const [cell] = isCall(condition, 'ISNUMBER') ? condition.args : [];
    if (cell !== undefined && isNotANumber(otherwise, cell)) return value;
    if (printed(otherwise) === printed(refused)) return value;
    return empty && otherwise.type === 'text' && otherwise.value === '' && asksForNumbers(condition)
      ? value
      : undefined;
  });

/** What guards stand before, as the column's own declaration says it of the cells that a formula uses. */
function withGuards({ tree, written }: Read, { sheet, column }: CellPlace): string {
  const own = declaredFormula(compiledSheets.get(sheet)?.columns[column] ?? {});
  const names = new Set(nodesOf(tree).flatMap((node) => (node.type === 'placeholder' ? [node.name] : [])));
  const isUsed = (part: Node): boolean =>
    nodesOf(part).every((node) => node.type !== 'placeholder' || names.has(node.name));
  const handedOn = [...(own?.optional ?? [])].filter(([, stands]) => stands === null);
  const declared = {
    formula: tree,
    optional: new Map(handedOn),
    must: (own?.must ?? []).filter(isUsed),
    emptyWithout: (own?.emptyWithout ?? []).filter(isUsed),
  };
  const scope = guardScope(sheet);
  const known = { ...scope, named: (name: string) => scope.named(name) ?? { words: true } };
  const made = ((): Node => {
    try {
      return guarded(declared, known);
    } catch (error) {
      // What must hold between cells that this formula uses apart is asked for by none of its parts.
      if (error instanceof Error && declared.must.length > 0) return guarded({ ...declared, must: [] }, known);
      throw error;
    }
  })();
  const cells = mapped(spelledForEngine(made), (node) =>
    node.type === 'placeholder' ? { type: 'reference', text: written.get(node.name) ?? node.name } : undefined,
  );
  return `=${printed(cells)}`;
}

/** A formula over cells with the guards that a computed column's own has; in other columns, and unread, as it is. */
export function guardedOver(formula: string, place: CellPlace, state: BookState): string {
  if (declaredFormula(compiledSheets.get(place.sheet)?.columns[place.column] ?? {}) === undefined) return formula;
  try {
    const { tree, written } = read(formula, place, state);
    const whole = withGuards({ tree: unguarded(tree, true), written }, place);
    const given = `=${printed(parsed(formula))}`;
    return whole === given ? whole : withGuards({ tree: unguarded(tree, false), written }, place);
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** A user's formula without the guards that typing put in. */
export function withoutGuards(formula: string, place: CellPlace, state: BookState): string {
  if (declaredFormula(compiledSheets.get(place.sheet)?.columns[place.column] ?? {}) === undefined) return formula;
  try {
    const tree = parsed(formula);
    const without = [true, false].map((empty) => `=${printed(unguarded(tree, empty))}`);
    return without.find((text) => guardedOver(text, place, state) === formula) ?? formula;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** A user's formula as it is typed: columns by their names, and none of the guards that typing puts in. */
export const typedWords = (formula: string, place: CellPlace, state: BookState): string =>
  withColumnNames(withoutGuards(formula, place, state), place, state);
