import type { FormulaCell, Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { FleetSeries, SeriesChange } from './fleet-series.ts';
import type { FleetComparison } from './square-or-skew.ts';
import { TableCells } from '../sheet/table-cells.ts';

/** The curve of series and the comparison of square with skew as tables. */

const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });
const money = { kind: 'money', digits: 2, currency: 'book' } as const;

const curveColumns: readonly TableColumn[] = [
  { header: 'Maximum series', kind: 'count', note: 'number of plate series in stock' },
  { header: 'Series kept', kind: 'count' },
  { header: 'Series', kind: 'text' },
  { header: 'Joint cost per year', ...money, note: 'parts, belt, labour hours and lost production of all joints' },
  { header: 'Stock cost per year', ...money, note: 'of keeping the series in stock' },
  { header: 'Cost per year', ...money, computed: true },
  { header: 'Lower bound', ...money, note: 'proven: no set of that many series costs less' },
  { header: 'Optimal', kind: 'text' },
];
const changeColumns: readonly TableColumn[] = [
  { header: 'Belt', kind: 'text' },
  { header: 'Present series', kind: 'text' },
  { header: 'Present skew', kind: 'angle', digits: 1 },
  { header: 'New series', kind: 'text' },
  { header: 'New skew', kind: 'angle', digits: 1 },
];

export function seriesTables(
  { curve, forced, unserved, reasons }: FleetSeries,
  changes: readonly SeriesChange[],
): Table[] {
  const cells = new TableCells('Series curve', curveColumns, curve.length);
  return [
    {
      name: 'Series curve',
      columns: curveColumns,
      keys: 1,
      rows: curve.map(({ series, choice }, record): TableCell[] =>
        choice === undefined
          ? [series, null, 'cannot cover all belts that can be covered']
          : [
              series,
              choice.series.length,
              choice.series.join(', '),
              choice.jointCost,
              choice.keepingCost,
              formula(
                `${cells.cell('Joint cost per year', record)}+${cells.cell('Stock cost per year', record)}`,
                choice.cost,
              ),
              choice.bound,
              choice.proven ? 'yes' : 'no',
            ],
      ),
    },
    {
      name: 'Series changes',
      columns: changeColumns,
      keys: 1,
      rows: changes.map(({ belt, from, to }): TableCell[] => [
        belt,
        from.series,
        from.skew ?? null,
        to.series,
        to.skew,
      ]),
    },
    {
      name: 'Series forced',
      columns: [
        { header: 'Belt', kind: 'text' },
        { header: 'Only series', kind: 'text' },
        { header: 'Reason', kind: 'text' },
      ],
      keys: 1,
      rows: [
        ...forced.flatMap(({ series, belts }) => belts.map((belt): TableCell[] => [belt, series, null])),
        ...unserved.map((belt): TableCell[] => [belt, null, reasons.get(belt) ?? '']),
      ],
    },
  ];
}

const parts = ['Parts', 'Belt taken by the joint', 'Labour hours', 'Lost production', 'Larger pulleys'] as const;
const keys = ['parts', 'belt', 'hours', 'lostProduction', 'pulleys'] as const;

/** Square against skew, a belt a row; the cost of each part is a figure, sums and differences are formulas. */
export function comparisonTable({ rows, total, apart, skews }: FleetComparison): Table[] {
  const columns: readonly TableColumn[] = [
    { header: 'Belt', kind: 'text' },
    { header: 'Skew', kind: 'angle', digits: 1 },
    ...(['square', 'skew'] as const).flatMap((side) => [
      ...parts.map((part): TableColumn => ({ header: `${part}, ${side}`, ...money })),
      { header: `Total per year, ${side}`, ...money, computed: true as const },
    ]),
    { header: 'Skew costs more', ...money, computed: true, note: 'negative where it costs less' },
  ];
  const cells = new TableCells('Square or skew', columns, rows.length);
  const totals = { square: total.square, skew: total.skew };
  return [
    {
      name: 'Square or skew',
      columns,
      keys: 1,
      total: true,
      rows: [
        ...rows.map((row, record): TableCell[] => [
          row.belt,
          skews.get(row.belt) ?? null,
          ...(['square', 'skew'] as const).flatMap((side): TableCell[] => [
            ...keys.map((key) => row[side][key]),
            formula(parts.map((part) => cells.cell(`${part}, ${side}`, record)).join('+'), row[side].total),
          ]),
          formula(
            `${cells.cell('Total per year, skew', record)}-${cells.cell('Total per year, square', record)}`,
            -row.saved.total,
          ),
        ]),
        [
          'Total',
          null,
          ...columns.slice(2).map(({ header }, place): TableCell => {
            const side = place < 6 ? totals.square : totals.skew;
            const value = place === 12 ? -total.saved.total : side[keys[place % 6] ?? 'total'];
            return rows.length === 0 ? 0 : formula(`SUM(${cells.above(header)})`, value);
          }),
        ],
      ],
    },
    {
      name: 'Not compared',
      columns: [
        { header: 'Belt', kind: 'text' },
        { header: 'Joint', kind: 'text' },
        { header: 'Reason', kind: 'text' },
      ],
      keys: 1,
      rows: apart.map(({ belt, way, reason }): TableCell[] => [belt, way === 'both' ? 'square or skew' : way, reason]),
    },
  ];
}
