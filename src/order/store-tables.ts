import { unitOf, type UnitSystem } from '../units/quantities.ts';
import type { FormulaCell, Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { ItemPlan } from './fleet-cutting.ts';
import type { RollPlan } from './search/cutting-plan.ts';
import type { CuttingQuestion } from './search/cutting-question.ts';
import { amountKind, itemText } from './items.ts';
import { listColumns, orderTableNames } from './order-table-columns.ts';
import { itemKey, type OrderLine } from './search/order-list.ts';
import { type FleetShelf, type FleetShelfLine, played } from './shelf-lines.ts';
import { TableCells } from '../sheet/table-cells.ts';

/** The shelf and the cutting plan as tables; what is not counted out by chance or by search is a live formula. */

const storeTableNames = { shelf: 'Shelf', plans: 'Cutting plan', rolls: 'Rolls', cuts: 'Cuts' } as const;

const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });
const amounts = { kind: 'number', digits: 2 } as const;
const lengths = { kind: 'distance', digits: { metric: 3, us: 3 } } as const;
const money = { kind: 'money', digits: 2, currency: 'book' } as const;
const shares = { kind: 'ratio', percent: true, digits: 1 } as const;

const shelfColumns: readonly TableColumn[] = [
  { header: 'Bin', kind: 'text' },
  { header: 'Item', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Criticality', kind: 'text' },
  { header: 'Target service level', ...shares, note: 'chance of no shortage in one lead time' },
  { header: 'Planned use per year', ...amounts, note: 'use by joints that reach their life' },
  { header: 'Unplanned use per year', ...amounts, note: 'use by joints that fail early' },
  { header: 'Use per year', ...amounts, computed: true },
  { header: 'Lead time', kind: 'number', digits: 0 },
  { header: 'Lead time deviation', kind: 'number', digits: 0 },
  {
    header: 'Use left to the shelf',
    ...amounts,
    note: 'per year: joints that fail early, and those that are not ordered by their day',
  },
  { header: 'Use in lead time', ...amounts, computed: true, note: 'of that, expected from order to delivery' },
  {
    header: 'Demand model',
    kind: 'text',
    note: 'lumpy: joint by joint (Poisson); steady: normal; unused: no joint uses it',
  },
  {
    header: 'Reorder point',
    ...amounts,
    note:
      'order when stock on shelf plus on order falls to this; calculated from the probability of use at the ' +
      'time of export',
  },
  { header: 'Safety stock', ...amounts, computed: true, note: 'reorder point less use in lead time' },
  { header: 'On shelf', ...amounts },
  { header: 'On order', ...amounts },
  { header: 'Shortage', ...amounts, computed: true, note: 'reorder point less on shelf and on order' },
  { header: 'Pack', ...amounts },
  { header: 'Packs per order', kind: 'count', note: 'lowest cost per year, price breaks included' },
  { header: 'Years of use', kind: 'number', digits: 1, computed: true },
  { header: 'Dead stock', kind: 'text', computed: true, note: 'on the shelf, and no joint uses it' },
  { header: 'Pack price', ...money, note: "in the book's money" },
  { header: 'Value', ...money, computed: true, note: 'of the stock on the shelf' },
  { header: 'Cost per year', ...money, note: 'goods, ordering and storage of the order quantity' },
  { header: 'Simulated service level', ...shares, note: 'share of orders in time, simulated with a fixed seed' },
  { header: 'Service level from', ...shares, note: '99 % confidence interval' },
  { header: 'Service level to', ...shares },
  { header: 'Simulated years', kind: 'count' },
];

const shelfRow = (
  line: FleetShelfLine,
  record: number,
  cells: TableCells,
  daysPerYear: number,
  units: UnitSystem,
): TableCell[] => {
  const at = (header: string): string => cells.cell(header, record);
  const result = played(line);
  const use = line.planned + line.unplanned;
  const unit = unitOf(amountKind(line.item), units);
  const pack = line.offer?.pack ?? 1;
  const unused = line.use === 'unused';
  return [
    line.bin,
    itemText(line.item, units),
    unit === '' ? 'pieces' : unit,
    line.criticality,
    line.service,
    line.planned,
    line.unplanned,
    formula(`${at('Planned use per year')}+${at('Unplanned use per year')}`, use),
    line.lead.mean * daysPerYear,
    line.lead.deviation * daysPerYear,
    line.chance,
    formula(`${at('Use left to the shelf')}*${at('Lead time')}/${daysPerYear}`, line.useInLead),
    line.use,
    line.reorderPoint,
    formula(`${at('Reorder point')}-${at('Use in lead time')}`, line.safety),
    line.onShelf,
    line.onOrder,
    formula(
      `IF(${at('Use per year')}=0,0,MAX(0,${at('Reorder point')}-${at('On shelf')}-${at('On order')}))`,
      line.short,
    ),
    pack,
    line.orderPacks,
    formula(`IF(${at('Use per year')}=0,"",${at('On shelf')}/${at('Use per year')})`, unused ? '' : line.cover),
    formula(`IF(AND(${at('Use per year')}=0,${at('On shelf')}>0),"dead stock","")`, line.dead ? 'dead stock' : ''),
    line.onShelf > 0 && line.offer !== undefined ? (line.value * pack) / line.onShelf : null,
    line.dead && line.offer === undefined
      ? 'unknown (no price)'
      : formula(`${at('On shelf')}/${at('Pack')}*${at('Pack price')}`, line.value),
    line.yearlyCost,
    result?.service ?? null,
    result?.interval?.[0] ?? null,
    result?.interval?.[1] ?? null,
    result?.years ?? null,
  ];
};

/** Where the table of the shelf has its cells. */
export const shelfCells = (lines: number): TableCells => new TableCells(storeTableNames.shelf, shelfColumns, lines);

export function shelfTable({ lines, daysPerYear }: FleetShelf, units: UnitSystem): Table {
  const cells = shelfCells(lines.length);
  return {
    name: storeTableNames.shelf,
    columns: shelfColumns,
    keys: 2,
    rows: lines.map((line, record) => shelfRow(line, record, cells, daysPerYear, units)),
  };
}

const planColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Pieces', kind: 'count', computed: true },
  { header: 'Rolls used', kind: 'count', computed: true },
  { header: 'Rolls bought', kind: 'count', note: 'in the order; those that are not used stay whole' },
  { header: 'Cut', ...lengths, computed: true, note: 'length of all pieces' },
  { header: 'Kept', ...lengths, computed: true, note: 'offcuts that go back to the shelf' },
  { header: 'Waste', ...lengths, computed: true, note: 'kerf, and offcuts that are not kept' },
  { header: 'Cost', ...money, computed: true, note: 'of the rolls bought, as in the order list' },
  { header: 'Most kept', kind: 'text', note: 'yes: no plan with these rolls keeps more useful length (proven)' },
  { header: 'Pieces not cut', kind: 'count', note: 'no roll is left or long enough' },
];

const rollColumns: readonly TableColumn[] = [
  { header: 'Roll no.', kind: 'count' },
  { header: 'Item', kind: 'text' },
  { header: 'Roll', kind: 'text', note: 'a bin of the shelf, or an article of the order' },
  { header: 'From', kind: 'text', note: 'shelf, on order, or bought in this order' },
  { header: 'Roll length', ...lengths },
  { header: 'Pieces', kind: 'count', computed: true },
  { header: 'Cut', ...lengths, computed: true },
  { header: 'Kerf', kind: 'distance', digits: 4, note: 'of one cut' },
  { header: 'Offcut', ...lengths, computed: true },
  { header: 'Minimum offcut', ...lengths },
  { header: 'Offcut is', kind: 'text', computed: true },
  { header: 'Kept', ...lengths, computed: true },
  { header: 'Waste', ...lengths, computed: true },
  { header: 'Price', ...money, note: 'of a roll that is bought' },
];

const cutColumns: readonly TableColumn[] = [
  { header: 'Roll no.', kind: 'count' },
  { header: 'Item', kind: 'text' },
  { header: 'Roll', kind: 'text' },
  { header: 'Belt', kind: 'text' },
  { header: 'Piece', ...lengths },
  { header: 'Begins at', ...lengths, computed: true, note: "from the roll's free end" },
  { header: 'Ends at', ...lengths, computed: true },
];

/** Rolls of all plans, cuts of all rolls, and where each table has its cells. */
class CuttingRows {
  readonly plans: readonly ItemPlan[];
  readonly units: UnitSystem;
  readonly rolls: readonly { readonly name: string; readonly roll: RollPlan; readonly question: CuttingQuestion }[];
  readonly cells: Readonly<Record<'plans' | 'rolls' | 'cuts', TableCells>>;

  constructor(plans: readonly ItemPlan[], units: UnitSystem) {
    this.plans = plans;
    this.units = units;
    this.rolls = plans.flatMap(({ item, question, plan }) =>
      plan.rolls.map((roll) => ({ name: itemText(item, units), roll, question })),
    );
    this.cells = {
      plans: new TableCells(storeTableNames.plans, planColumns, plans.length),
      rolls: new TableCells(storeTableNames.rolls, rollColumns, this.rolls.length),
      cuts: new TableCells(storeTableNames.cuts, cutColumns, this.cuts.length),
    };
  }

  /** Each with the number of its roll; the first of a roll begins at its free end. */
  get cuts() {
    return this.rolls.flatMap(({ name, roll }, index) =>
      roll.cuts.map((cut, place) => ({ number: index + 1, name, roll: roll.name, ...cut, first: place === 0 })),
    );
  }
}

function summaryTable({ plans, units, rolls, cells }: CuttingRows, lines: readonly OrderLine[]): Table {
  const list = new TableCells(orderTableNames.list, listColumns, lines.length);
  return {
    name: storeTableNames.plans,
    columns: planColumns,
    keys: 2,
    rows: plans.map(({ item, plan, rollsBought, cost }, record): TableCell[] => {
      const at = (header: string): string => cells.plans.cell(header, record);
      const mine = `EXACT(${cells.rolls.column('Item')},${at('Item')})`;
      const ofRolls = (header: string, value: number): TableCell =>
        rolls.length === 0 ? 0 : formula(`SUMPRODUCT(${mine}*${cells.rolls.column(header)})`, value);
      return [
        lines.findIndex((line) => itemKey(line.item) === itemKey(item)) + 1,
        itemText(item, units),
        ofRolls('Pieces', plan.pieces),
        rolls.length === 0 ? 0 : formula(`SUMPRODUCT(--${mine})`, plan.rolls.length),
        rollsBought,
        ofRolls('Cut', plan.cutLength),
        ofRolls('Kept', plan.keptLength),
        ofRolls('Waste', plan.waste),
        formula(`INDEX(${list.column('Cost')},${at('No.')})`, cost),
        plan.offcutsProven ? 'yes' : 'not proven',
        plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0),
      ];
    }),
  };
}

function rollTable({ rolls, cells }: CuttingRows): Table {
  return {
    name: storeTableNames.rolls,
    columns: rollColumns,
    keys: 3,
    rows: rolls.map(({ name, roll, question }, record): TableCell[] => {
      const at = (header: string): string => cells.rolls.cell(header, record);
      const cut = roll.cuts.reduce((sum, { length }) => sum + length, 0);
      return [
        record + 1,
        name,
        roll.name,
        roll.source,
        roll.length,
        formula(`COUNTIFS(${cells.cuts.column('Roll no.')},${at('Roll no.')})`, roll.cuts.length),
        formula(`SUMIFS(${cells.cuts.column('Piece')},${cells.cuts.column('Roll no.')},${at('Roll no.')})`, cut),
        question.sawLoss,
        formula(`MAX(0,${at('Roll length')}-${at('Cut')}-${at('Pieces')}*${at('Kerf')})`, roll.offcut),
        question.keepFrom ?? null,
        formula(
          `IF(AND(ISNUMBER(${at('Minimum offcut')}),${at('Offcut')}>=${at('Minimum offcut')}),"kept","waste")`,
          roll.kept ? 'kept' : 'waste',
        ),
        formula(`IF(${at('Offcut is')}="kept",${at('Offcut')},0)`, roll.kept ? roll.offcut : 0),
        formula(`MAX(0,${at('Roll length')}-${at('Cut')}-${at('Kept')})`, roll.waste),
        roll.source === 'bought' ? roll.paid : null,
      ];
    }),
  };
}

function cutTable({ cuts, cells }: CuttingRows): Table {
  return {
    name: storeTableNames.cuts,
    columns: cutColumns,
    keys: 3,
    rows: cuts.map(({ number, name, roll, belt, length, from, first }, record): TableCell[] => {
      const at = (header: string): string => cells.cuts.cell(header, record);
      const loss = `INDEX(${cells.rolls.column('Kerf')},${at('Roll no.')})`;
      return [
        number,
        name,
        roll,
        belt,
        length,
        first ? formula('0', 0) : formula(`${cells.cuts.cell('Ends at', record - 1)}+${loss}`, from),
        formula(`${at('Begins at')}+${at('Piece')}`, from + length),
      ];
    }),
  };
}

/** The plans of all items: a summary, the rolls, and every cut with its belt. */
export function cuttingTables(plans: readonly ItemPlan[], lines: readonly OrderLine[], units: UnitSystem): Table[] {
  const rows = new CuttingRows(plans, units);
  return [summaryTable(rows, lines), rollTable(rows), cutTable(rows)];
}
