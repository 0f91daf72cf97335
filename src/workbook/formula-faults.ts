import { FormulaMistake, formulaFault, measured, type CheckScope } from '../formula/formula-check.ts';
import { plainFormula } from '../formula/guard-places.ts';
import { isCell } from '../formula/guard-uses.ts';
import { type Measured, measuring, word } from '../formula/measured.ts';
import { nodesOf, printed } from '../formula/syntax.ts';
import type { Column } from '../sheet/declaration.ts';
import { declaredFormula, slotParts } from '../sheet/declared-formula.ts';
import { nearest } from '../units/nearest.ts';
import { isWords, quantities, type QuantityKind } from '../units/quantities.ts';
import type { DeclaredNames } from './declared-names.ts';

/** What is wrong with declared formulas: functions, names, arguments, units, and what is declared beside a formula. */

const ofKind = (kind: QuantityKind): Measured => (isWords(kind) ? word : measuring(quantities[kind].dimension));

/** What a name that there is not may be meant for. */
function meant(node: Parameters<CheckScope['unknown']>[0], own: string, names: DeclaredNames): string {
  const near = (text: string, known: readonly string[], shown = (name: string): string => name): string =>
    nearest(text, known, 1).map((name) => `; the nearest is ${shown(name)}`)[0] ?? '';
  if (node.type === 'name') return near(node.name, names.allNamed);
  const { sheet, header } = slotParts(node.name);
  const target = names.sheets.find(({ name }) => name === (sheet ?? own));
  if (target === undefined) {
    const sheets = names.sheets.map(({ name }) => name);
    return near(sheet ?? '', sheets, (name) => `${name}.${header}`);
  }
  const headers = target.columns.map((column) => column.header);
  return near(header, headers, (name) => (sheet === undefined ? name : `${sheet}.${name}`));
}

function scopeOf(sheet: string, names: DeclaredNames): CheckScope {
  return {
    functions: names.functions,
    column(placeholder) {
      const column = names.column(sheet, placeholder);
      return column === undefined ? undefined : ofKind(column.kind);
    },
    named(name) {
      const [value, dimension] = [names.named(name), names.dimension(name)];
      return dimension !== undefined ? measuring(dimension) : value === undefined ? undefined : ofKind(value.kind);
    },
    unknown: (node) =>
      `${printed(node)} is no ${node.type === 'name' ? 'named value' : 'column'}${meant(node, sheet, names)}`,
  };
}

/** What is wrong with what a column declares beside its formula. */
function* besides(column: Column, scope: CheckScope): Generator<string> {
  const declared = declaredFormula(column);
  if (declared === undefined) return;
  const used = new Set(nodesOf(declared.formula).map((node) => (node.type === 'placeholder' ? node.name : '')));
  for (const header of declared.optional.keys())
    if (!used.has(header)) yield `{${header}} is declared optional, and the formula does not use it`;
  for (const cell of declared.emptyWithout) {
    if (!isCell(cell) || measured(cell, scope).type !== 'number')
      yield `emptyWithout names cells with numbers, ${printed(cell)} is none`;
  }
  for (const condition of declared.must)
    if (measured(condition, scope).type !== 'truth') yield `${printed(condition)} must hold, and is no condition`;
}

function faultsOf(column: Column, scope: CheckScope): readonly string[] {
  const declared = declaredFormula(column);
  if (declared === undefined) return [];
  try {
    const fault = formulaFault(plainFormula(declared), ofKind(column.kind), scope);
    return [...(fault === undefined ? [] : [fault]), ...besides(column, scope)];
  } catch (error) {
    if (error instanceof FormulaMistake) return [error.message];
    throw error;
  }
}

/** The faults of every declared formula: sheet, column, and what is wrong, with the parameter where there is one. */
export const formulaFaults = (names: DeclaredNames): string[] =>
  names.sheets.flatMap(({ name, columns }) => {
    const scope = scopeOf(name, names);
    return columns.flatMap((column) => faultsOf(column, scope).map((fault) => `${name}, ${column.header}: ${fault}`));
  });
