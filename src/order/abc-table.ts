import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { FleetOrder } from './fleet-order.ts';
import { itemText } from './items.ts';
import { formula, totalRow, unitText } from './order-table-cells.ts';
import type { FleetShelf, FleetShelfLine } from './shelf-lines.ts';
import { shelfCells } from './store-tables.ts';

/** Which items of the shelf the money goes to in a year, and what lies there. */

const name = 'ABC';

/**
 * Items that come first by yearly value are A until this share of the whole is reached, and then B. Common practice,
 * no source.
 */
const shares = { A: 0.8, B: 0.95 } as const;

const amounts = { kind: 'number', digits: 2 } as const;
const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;
const percents = { kind: 'ratio', percent: true, digits: 1 } as const;

const abcColumns: readonly TableColumn[] = [
  { header: 'Item', kind: 'text' },
  { header: 'Bin', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Use per year', ...amounts, computed: true, note: 'from the sheet Shelf' },
  {
    header: 'Unit price',
    kind: 'money',
    digits: 4,
    currency: 'book',
    note: "in the book's money, of a single pack of the offer with the lowest cost per year: you can change it",
  },
  { header: 'Value per year', ...bookMoney, computed: true },
  { header: 'Share', ...percents, computed: true, note: 'of the value per year of all items' },
  { header: 'Cumulative share', ...percents, computed: true, note: 'with all items of at least this value' },
  {
    header: 'Class',
    kind: 'text',
    computed: true,
    note: 'A: the first 80 % of the value per year, B: up to 95 %, C: the rest',
  },
  { header: 'On shelf', ...amounts, computed: true, note: 'from the sheet Shelf' },
  { header: 'Stock value', ...bookMoney, computed: true },
  { header: 'Years of use', kind: 'number', digits: 1, computed: true },
];

interface AbcRow {
  /** Of the sheet Shelf. */
  readonly record: number;
  readonly line: FleetShelfLine;
  readonly use: number;
  /** Of one piece or unit of length; undefined when nobody offers it. */
  readonly price: number | undefined;
  readonly value: number;
}

function abcRows({ lines }: FleetShelf, { offered: { suppliers, rates } }: FleetOrder): AbcRow[] {
  return lines
    .map((line, record): AbcRow => {
      const { offer } = line;
      const currency = suppliers.find((supplier) => supplier.name === offer?.supplier)?.currency ?? '';
      const pack = offer?.breaks[0]?.price;
      const price =
        offer === undefined || pack === undefined ? undefined : (pack * (rates[currency] ?? 1)) / offer.pack;
      const use = line.planned + line.unplanned;
      return { record, line, use, price, value: use * (price ?? 0) };
    })
    .toSorted((one, other) => other.value - one.value);
}

const classOf = (value: number, before: number): string =>
  value > 0 && before < shares.A ? 'A' : value > 0 && before < shares.B ? 'B' : 'C';

/** Share of the value of all items that those of at least a value have. */
const reachedBy = (rows: readonly AbcRow[], from: number, total: number): number =>
  total === 0 ? 0 : rows.reduce((sum, { value }) => (value >= from ? sum + value : sum), 0) / total;

const stockOf = ({ line, price = 0 }: AbcRow): number => line.onShelf * price;

interface AbcFigures {
  readonly class: string;
  /** In the book's money; undefined where nobody offers the item. */
  readonly stockValue: number | undefined;
}

/** Class and stock value of each line of the shelf, in their order. */
export function abcFigures(shelf: FleetShelf, order: FleetOrder): AbcFigures[] {
  const rows = abcRows(shelf, order);
  const total = rows.reduce((sum, { value }) => sum + value, 0);
  return rows
    .toSorted((one, other) => one.record - other.record)
    .map((row) => ({
      class: classOf(row.value, reachedBy(rows, row.value, total) - (total === 0 ? 0 : row.value / total)),
      stockValue: row.price === undefined ? undefined : stockOf(row),
    }));
}

/** The items of the shelf by what they cost in a year, the dearest first when it was written. */
export function abcTable(shelf: FleetShelf, order: FleetOrder, units: UnitSystem): Table {
  const rows = abcRows(shelf, order);
  const cells = new TableCells(name, abcColumns, rows.length);
  const listed = shelfCells(shelf.lines.length);
  const values = cells.column('Value per year');
  const total = rows.reduce((sum, { value }) => sum + value, 0);
  return {
    name,
    columns: abcColumns,
    keys: 1,
    total: true,
    currency: order.offered.currency,
    rows: [
      ...rows.map((row, place): TableCell[] => {
        const { record, line, use, price, value } = row;
        const at = (header: string): string => cells.cell(header, place);
        const ofShelf = (header: string): string => `INDEX(${listed.column(header)},${record + 1})`;
        const [share, cumulative] = [total === 0 ? 0 : value / total, reachedBy(rows, value, total)];
        const before = `${at('Cumulative share')}-${at('Share')}`;
        return [
          itemText(line.item, units),
          line.bin,
          unitText(line, units),
          formula(ofShelf('Use per year'), use),
          price ?? null,
          formula(`${at('Use per year')}*N(${at('Unit price')})`, value),
          formula(`IF(SUM(${values})=0,0,${at('Value per year')}/SUM(${values}))`, share),
          formula(
            `IF(SUM(${values})=0,0,SUMPRODUCT((${values}>=${at('Value per year')})*${values})/SUM(${values}))`,
            cumulative,
          ),
          formula(
            `IF(${at('Value per year')}<=0,"C",IF(${before}<${shares.A},"A",IF(${before}<${shares.B},"B","C")))`,
            classOf(value, cumulative - share),
          ),
          formula(ofShelf('On shelf'), line.onShelf),
          formula(`${at('On shelf')}*N(${at('Unit price')})`, stockOf(row)),
          formula(
            `IF(${at('Use per year')}=0,"",${at('On shelf')}/${at('Use per year')})`,
            use === 0 ? '' : line.onShelf / use,
          ),
        ];
      }),
      totalRow(
        abcColumns,
        cells,
        { 'Value per year': total, 'Stock value': rows.reduce((sum, row) => sum + stockOf(row), 0) },
        rows.length,
      ),
    ],
  };
}
