import { belts } from '../../sheets/belts/index.ts';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { isVerdict, verdictOf } from '../functions/checks.ts';
import { isFault, type Value } from '../formula/values.ts';
import { Belt, beltColumn } from '../records/belt.ts';
import type { Table, TableBook } from '../sheet/table.ts';
import { headerWithUnit } from '../sheet/header.ts';
import { amount, listed, rounded } from '../sheet/words.ts';
import { unitOf, type UnitSystem } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Variant, variantBook } from './variants.ts';

/** What a variant changes: of each belt every column that differs, verdicts gained and lost, and what it costs. */

interface ColumnDifference {
  readonly header: BeltHeader;
  readonly before: Value;
  readonly after: Value;
}

interface BeltDifference {
  readonly belt: Belt;
  readonly columns: readonly ColumnDifference[];
  /** Checks that pass with the variant and do not now, and the other way round. */
  readonly gained: readonly string[];
  readonly lost: readonly string[];
}

/** Sums over belts, of those that are known both times. */
export const totalColumns = ['Joint cost', 'Labour hours', 'Downtime'] as const satisfies readonly BeltHeader[];

interface Total {
  readonly header: (typeof totalColumns)[number];
  readonly before: number;
  readonly after: number;
}

export interface VariantDifferences {
  readonly variant: Variant;
  readonly belts: readonly BeltDifference[];
  readonly totals: readonly Total[];
}

const isSame = (one: Value, other: Value): boolean =>
  one === other || (isFault(one) && isFault(other) && one.code === other.code);

const passes = (value: Value): boolean => {
  const verdict = verdictOf(value);
  return verdict === 'fits' || verdict === 'tight';
};

function beltDifference(now: Belt, then: Belt): BeltDifference {
  const columns = belts.columns.flatMap(({ header }): ColumnDifference[] => {
    const [before, after] = [now.value(header), then.value(header)];
    return isSame(before, after) ? [] : [{ header, before, after }];
  });
  const turned = checkColumns.filter(({ header }) => passes(now.value(header)) !== passes(then.value(header)));
  const word = (gained: boolean): string[] =>
    turned.flatMap((check) => (passes(then.value(check.header)) === gained ? [check.word] : []));
  return { belt: now, columns, gained: word(true), lost: word(false) };
}

/** A variant against the book as it is, for some belts. Throws ChangeRefused for one that can't be made. */
export function variantDifferences(book: Workbook, variant: Variant, records: readonly number[]): VariantDifferences {
  const other = variantBook(book, variant);
  try {
    const pairs = records.map((record) => [new Belt(book, record), new Belt(other, record)] as const);
    return {
      variant,
      belts: pairs.map(([now, then]) => beltDifference(now, then)).filter(({ columns }) => columns.length > 0),
      totals: totalColumns.map((header) => {
        const known = pairs.flatMap(([now, then]) => {
          const [before, after] = [now.number(header), then.number(header)];
          return before === undefined || after === undefined ? [] : [[before, after] as const];
        });
        return {
          header,
          before: known.reduce((sum, [before]) => sum + before, 0),
          after: known.reduce((sum, [, after]) => sum + after, 0),
        };
      }),
    };
  } finally {
    other.destroy();
  }
}

const signed = (header: BeltHeader, value: number, units: UnitSystem): string =>
  `${value < 0 ? '\u2212' : '+'}${amount(Math.abs(value), beltColumn(header), units)}`;

/** A variant in sentences: what it changes of which belts. */
export function variantLines({ variant, belts: changed, totals }: VariantDifferences, units: UnitSystem): string[] {
  const verdicts = changed.flatMap(({ belt, columns }) => {
    const verdict = columns.find(({ header }) => header === 'Verdict');
    return verdict === undefined || !isVerdict(verdict.before) || !isVerdict(verdict.after)
      ? []
      : [`${belt.name} (${verdict.before} to ${verdict.after})`];
  });
  const checks = (which: 'gained' | 'lost'): string[] =>
    changed.flatMap((one) => (one[which].length === 0 ? [] : [`${one.belt.name}: ${listed(one[which])}`]));
  const [gained, lost] = [checks('gained'), checks('lost')];
  const money = totals.filter(({ before, after }) => before !== after);
  return [
    `${variant.name}: ${listed(
      variant.changes.map(
        ({ cell, value }) => `${cell}=${typeof value === 'number' ? rounded(value, 6) : String(value)}`,
      ),
      'and',
      8,
    )}.`,
    changed.length === 0
      ? '  No belt differs.'
      : `  Belts that differ: ${listed(
          changed.map(({ belt }) => belt.name),
          'and',
          12,
        )}.`,
    ...(verdicts.length === 0 ? [] : [`  Verdicts: ${verdicts.join(', ')}.`]),
    ...(gained.length === 0 ? [] : [`  Checks that pass then: ${gained.join('; ')}.`]),
    ...(lost.length === 0 ? [] : [`  Checks that no longer pass: ${lost.join('; ')}.`]),
    ...(money.length === 0
      ? []
      : [
          `  Together: ` +
            `${money
              .map(({ header, before, after }) => `${header} ` + `${signed(header, after - before, units)}`)
              .join(', ')}.`,
        ]),
  ];
}

const cell = (value: Value): Value => (isFault(value) ? value.code : value);

/** Every cell that differs in any variant, and what it is in each. */
function sideBySide(all: readonly VariantDifferences[], units: UnitSystem): Table {
  const text = (header: string): Table['columns'][number] => ({ header, kind: 'text' });
  const records = [...new Set(all.flatMap(({ belts: changed }) => changed.map(({ belt }) => belt.record)))];
  const rows = records
    .toSorted((one, other) => one - other)
    .flatMap((record) => {
      const of = all.map(({ belts: changed }) => changed.find(({ belt }) => belt.record === record));
      const belt = of.find((one) => one !== undefined)?.belt;
      return belts.columns.flatMap(({ header, kind }): Value[][] => {
        const after = of.map((one) => one?.columns.find((column) => column.header === header));
        const before = after.find((one) => one !== undefined)?.before;
        if (belt === undefined || before === undefined) return [];
        return [
          [
            belt.name,
            header,
            cell(before),
            ...after.map((one) => cell(one === undefined ? before : one.after)),
            unitOf(kind, units),
          ],
        ];
      });
    });
  return {
    name: 'Side by side',
    keys: 2,
    columns: ['Belt', 'Column', 'Now', ...all.map(({ variant }) => variant.name), 'Unit'].map(text),
    rows,
  };
}

/** The differences as a file's sheets: one of variants, one of every cell that differs, one of all side by side. */
export function variantTables(all: readonly VariantDifferences[], file: string, units: UnitSystem): TableBook {
  const text = (header: string): Table['columns'][number] => ({ header, kind: 'text' });
  return {
    title: `Variants of ${file}`,
    about: [['Made from', file]],
    tables: [
      {
        name: 'Variants',
        keys: 1,
        columns: [
          text('Variant'),
          { header: 'Belts that differ', kind: 'count' },
          { header: 'Checks gained', kind: 'count' },
          { header: 'Checks lost', kind: 'count' },
          ...totalColumns.map((header) => ({
            header: headerWithUnit(`${header}, change`, beltColumn(header).kind, units),
            kind: beltColumn(header).kind,
            digits: 2,
          })),
        ],
        rows: all.map(({ variant, belts: changed, totals }) => [
          variant.name,
          changed.length,
          changed.reduce((sum, { gained }) => sum + gained.length, 0),
          changed.reduce((sum, { lost }) => sum + lost.length, 0),
          ...totals.map(({ before, after }) => after - before),
        ]),
      },
      {
        name: 'Differences',
        keys: 3,
        columns: ['Variant', 'Belt', 'Column', 'Now', 'With the variant', 'Unit'].map(text),
        rows: all.flatMap(({ variant, belts: changed }) =>
          changed.flatMap(({ belt, columns }) =>
            columns.map(({ header, before, after }) => [
              variant.name,
              belt.name,
              header,
              cell(before),
              cell(after),
              unitOf(beltColumn(header).kind, units),
            ]),
          ),
        ),
      },
      sideBySide(all, units),
    ],
  };
}
