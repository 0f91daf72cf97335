import type { Issue } from './inputs.ts';
import type { Column } from '../sheet/declaration.ts';
import { declarationOf } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { amounts } from '../sheet/words.ts';

/** Figures of one record, or of a record and a named value, that can't both be right. */
interface PairRule {
  readonly sheet: string;
  readonly column: string;
  /** The other figure: a column of the same record, or a named value. */
  readonly other: string;
  readonly named?: true;
  /** How the first must stand to the other. */
  readonly must: 'not be more than' | 'be less than' | 'not be less than' | 'not be after' | 'be after';
}

const rules: readonly PairRule[] = [
  { sheet: 'Belts', column: 'Installed', other: 'ReviewDate', named: true, must: 'not be after' },
  { sheet: 'Belts', column: 'Skive', other: 'Thickness', must: 'be less than' },
  { sheet: 'Belts', column: 'Carcass thickness', other: 'Thickness', must: 'not be more than' },
  { sheet: 'Belts', column: 'Top cover', other: 'Thickness', must: 'be less than' },
  { sheet: 'Belts', column: 'Smallest pulley', other: 'Head pulley', must: 'not be more than' },
  { sheet: 'Belts', column: 'Smallest pulley', other: 'Tail pulley', must: 'not be more than' },
  { sheet: 'Plate series', column: 'Greatest thickness', other: 'Least thickness', must: 'not be less than' },
  { sheet: 'Plate series', column: 'Greatest edge', other: 'Least edge', must: 'not be less than' },
  { sheet: 'Windows', column: 'End', other: 'Start', must: 'be after' },
  { sheet: 'Crews', column: 'There to', other: 'There from', must: 'be after' },
  { sheet: 'Plate series', column: 'Pitch', other: 'Plate size', must: 'not be less than' },
];

const holds: Readonly<Record<PairRule['must'], (one: number, other: number) => boolean>> = {
  'not be more than': (one, other) => one <= other,
  'be less than': (one, other) => one < other,
  'not be less than': (one, other) => one >= other,
  'not be after': (one, other) => one <= other,
  'be after': (one, other) => one > other,
};

const rulesByColumn = new Map<Column, readonly PairRule[]>();
for (const { sheet, column } of rules) {
  const declared = declarationOf(sheet)?.columns.find(({ header }) => header === column);
  if (declared === undefined) throw new Error(`a rule names the column ${column}, which the sheet ${sheet} has not`);
  rulesByColumn.set(
    declared,
    rules.filter((rule) => rule.sheet === sheet && rule.column === column),
  );
}

/**
 * A cell's number that does not go with another of its record; undefined when all go together or the other is no
 * number.
 */
export function pairIssue(book: Workbook, { sheet, record, column }: CellPlace): Issue | undefined {
  const declared = declarationOf(sheet)?.columns[column];
  const value = book.value({ sheet, record, column });
  if (declared === undefined || typeof value !== 'number') return undefined;
  for (const { other, named, must } of rulesByColumn.get(declared) ?? []) {
    const beside = named === true ? book.named(other) : book.read(sheet, record, other);
    if (typeof beside !== 'number' || holds[must](value, beside)) continue;
    const [one, two] = amounts(value, beside, declared, book.units);
    return { wrong: `${declared.header}, ${one}, must ${must} ${other}, ${two}`, remedy: 'correct one of the two' };
  }
  return undefined;
}
