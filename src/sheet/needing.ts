import { mapped, type Node, parsed, printed } from '../formula/syntax.ts';
import type { Column, NamedValue, SheetDeclaration } from './declaration.ts';

/** What a formula may refer to, with the bounds that are declared for it. */
export interface Known {
  readonly columns: readonly Column[];
  /** Sheets that formulas look into, as INDEX({Sheet.Column},row). */
  readonly sheets?: readonly Pick<SheetDeclaration, 'name' | 'columns'>[];
  readonly named?: readonly NamedValue[];
}

interface Bounds {
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
}

/** The cells that a formula computes with, each as it is written, with the column or name whose bounds hold for it. */
function cellsOf(node: Node, found = new Map<string, string>()): Map<string, string> {
  switch (node.type) {
    case 'placeholder':
    case 'name':
      found.set(printed(node), node.name);
      break;
    case 'call': {
      const [column] = node.args;
      if (node.name === 'INDEX' && column?.type === 'placeholder') found.set(printed(node), column.name);
      else for (const argument of node.args) if (argument !== undefined) cellsOf(argument, found);
      break;
    }
    case 'unary':
    case 'percent':
    case 'group':
      cellsOf(node.value, found);
      break;
    case 'binary':
      cellsOf(node.left, found);
      cellsOf(node.right, found);
      break;
    default:
  }
  return found;
}

const all = (conditions: readonly string[]): string =>
  conditions.length === 1 ? (conditions[0] ?? '') : `AND(${conditions.join(',')})`;

/**
 * Formulas that answer only when every cell they compute with holds a number within the bounds declared for it.
 *
 * Spreadsheet arithmetic takes an empty cell for 0 and, in some programs, a text for a number; a missing input must
 * never pass for one. An error in a cell comes through as itself, a blank or a text gives #VALUE!, a number out of
 * bounds, or for which `when` is false, #NUM!. Of several wrong cells the first speaks: they are looked at one after
 * the other, since programs differ in which of two errors an operator gives.
 */
export function needing({ columns, sheets = [], named = [] }: Known): (formula: string, when?: string) => string {
  const bounds = new Map<string, Bounds>([
    ...columns.map((column): [string, Bounds] => [column.header, column]),
    ...sheets.flatMap((sheet) =>
      sheet.columns.map((column): [string, Bounds] => [`${sheet.name}.${column.header}`, column]),
    ),
    ...named.map((value): [string, Bounds] => [value.name, value]),
  ]);
  return (formula, when) => {
    const cells = [...cellsOf(parsed(formula))];
    const within = cells.flatMap(([cell, key]) => {
      const { min, above, max } = bounds.get(key) ?? {};
      return [
        ...(min === undefined ? [] : [`${cell}>=${min}`]),
        ...(above === undefined ? [] : [`${cell}>${above}`]),
        ...(max === undefined ? [] : [`${cell}<=${max}`]),
      ];
    });
    const conditions = when === undefined ? within : [...within, when];
    const bounded = conditions.length === 0 ? formula : `IF(${all(conditions)},${formula},10^400)`;
    return cells.reduceRight((inner, [cell]) => `IF(ISNUMBER(${cell}),${inner},0+(${cell}&"?"))`, bounded);
  };
}

/** Whether a branch only says that a guard was not met. */
const isRefused = (branch: Node): boolean => {
  const text = printed(branch);
  return text === '10^400' || /^0\+\(.*&"\?"\)$/.test(text);
};

/** Whether a condition only asks if cells hold numbers. */
const asksForNumbers = (condition: Node): boolean =>
  condition.type === 'call' &&
  (condition.name === 'ISNUMBER' ||
    (condition.name === 'AND' && condition.args.every((part) => part !== undefined && asksForNumbers(part))));

/** A formula as people explain it: without the guards against cells that hold no number or one out of bounds. */
export const unguarded = (formula: Node): Node =>
  mapped(formula, (node) => {
    if (node.type !== 'call' || node.name !== 'IF') return undefined;
    const [condition, first, second] = node.args;
    if (condition === undefined || first === undefined || second === undefined) return undefined;
    if (isRefused(second)) return first;
    return asksForNumbers(condition) && second.type === 'text' && second.value === '' ? first : undefined;
  });
