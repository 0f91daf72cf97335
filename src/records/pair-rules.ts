import type { HeaderOf, SheetName, ValueName } from '../../sheets/index.ts';
import { ratedSkews, ratingColumn } from '../../sheets/series/skew-ratings.ts';
import type { Issue } from './inputs.ts';
import type { Column } from '../sheet/declaration.ts';
import { declarationOf } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { amounts } from '../sheet/words.ts';

/** How a figure must stand to another. */
type Must = 'not be more than' | 'be less than' | 'not be less than' | 'not be after' | 'be after' | 'be more than';

/** Figures of one record, or of a record and a named value, that can't both be right. */
interface RuleOf<Sheet extends SheetName> {
  readonly sheet: Sheet;
  readonly column: HeaderOf<Sheet>;
  readonly must: Must;
  /** The other figure. */
  readonly than: { readonly column: HeaderOf<Sheet> } | { readonly named: ValueName };
  /** The rule only counts where this column holds more than that; always without. */
  readonly where?: { readonly column: HeaderOf<Sheet>; readonly above: number };
}

type PairRule = { readonly [Sheet in SheetName]: RuleOf<Sheet> }[SheetName];

const rules: readonly PairRule[] = [
  { sheet: 'Belts', column: 'Installed', must: 'not be after', than: { named: 'ReviewDate' } },
  { sheet: 'Belts', column: 'Skive depth', must: 'be less than', than: { column: 'Thickness' } },
  { sheet: 'Belts', column: 'Carcass thickness', must: 'not be more than', than: { column: 'Thickness' } },
  { sheet: 'Belts', column: 'Top cover', must: 'be less than', than: { column: 'Thickness' } },
  { sheet: 'Belts', column: 'Lift', must: 'not be more than', than: { column: 'Pulley centres' } },
  { sheet: 'Belts', column: 'Smallest pulley', must: 'not be more than', than: { column: 'Head pulley' } },
  { sheet: 'Belts', column: 'Smallest pulley', must: 'not be more than', than: { column: 'Tail pulley' } },
  {
    sheet: 'Plate series',
    column: 'Maximum thickness',
    must: 'not be less than',
    than: { column: 'Minimum thickness' },
  },
  { sheet: 'Plate series', column: 'Maximum edge', must: 'not be less than', than: { column: 'Minimum edge' } },
  { sheet: 'Windows', column: 'End', must: 'be after', than: { column: 'Start' } },
  { sheet: 'Crews', column: 'Available until', must: 'be after', than: { column: 'Available from' } },
  { sheet: 'Plate series', column: 'Pitch', must: 'not be less than', than: { column: 'Plate width' } },
  ...ratedSkews.map((skew): PairRule => ({
    sheet: 'Plate series',
    column: ratingColumn(skew),
    must: 'not be more than',
    than: { column: 'Minimum pulley square' },
  })),
  { sheet: 'Plate series', column: 'Punch size', must: 'be less than', than: { column: 'Plate width' } },
  {
    sheet: 'Plate series',
    column: 'Hole spacing',
    must: 'be more than',
    than: { column: 'Punch size' },
    where: { column: 'Holes per side', above: 1 },
  },
  { sheet: 'Plate series', column: 'Plate length', must: 'be more than', than: { column: 'Hole setback' } },
  { sheet: 'Plate series', column: 'Punch size', must: 'be less than', than: { column: 'Pitch' } },
  { sheet: 'Plate series', column: 'Long bolt above', must: 'not be less than', than: { column: 'Minimum thickness' } },
  { sheet: 'Plate series', column: 'Long bolt above', must: 'not be more than', than: { column: 'Maximum thickness' } },
  { sheet: 'Plate series', column: 'Long bolt length', must: 'be more than', than: { column: 'Bolt length' } },
];

const holds: Readonly<Record<Must, (one: number, other: number) => boolean>> = {
  'not be more than': (one, other) => one <= other,
  'be less than': (one, other) => one < other,
  'not be less than': (one, other) => one >= other,
  'not be after': (one, other) => one <= other,
  'be after': (one, other) => one > other,
  'be more than': (one, other) => one > other,
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
  for (const { sheet: own, than, must, where } of rulesByColumn.get(declared) ?? []) {
    if (where !== undefined && !(Number(book.read(own, record, where.column)) > where.above)) continue;
    const beside = 'named' in than ? book.named(than.named) : book.read(own, record, than.column);
    if (typeof beside !== 'number' || holds[must](value, beside)) continue;
    const [one, two] = amounts(value, beside, declared, book.units);
    return {
      wrong: `${declared.header}, ${one}, must ${must} ${'named' in than ? than.named : than.column}, ${two}`,
      remedy: 'correct one of the two',
    };
  }
  return undefined;
}
