import { Refusal } from '../formula/define.ts';
import { counted } from '../xlsx/read/read-limits.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import { type Table } from '../sheet/table.ts';
import { loadSolver } from '../solver/solver.ts';
import { type Solver } from '../solver/program.ts';
import { cutItems, fleetCutting, type ItemPlan } from '../order/cutting.ts';
import { comparisonTable, seriesTables } from '../order/fleet-tables.ts';
import { chosenSupply, fleetOrder, type FleetOrder, suppliedOrder, type SuppliedOrder } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { orderTables } from '../order/order-tables.ts';
import { feasibleFleet, fleetSeries, type FleetSeries, seriesChanges } from '../order/series.ts';
import { fleetShelf, type FleetShelf } from '../order/shelf-lines.ts';
import { fleetComparison } from '../order/square-or-skew.ts';
import { cuttingTables, shelfTable } from '../order/store-tables.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Given } from './arguments.ts';
import { counted as countOf, notUnderstoodLine } from './import-report.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { scopeOf, secondsOf, solverRuntime } from './planning-options.ts';
import type { SourcePlaces } from './source-places.ts';
import { FileError } from './usage-error.ts';

/** The order list, the shelf and the cutting plan of a list of belts, as a workbook of live formulas. */

const usualSeconds = 30;

const money = (value: number): string =>
  value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

interface Answers {
  readonly order: FleetOrder;
  readonly supplied: SuppliedOrder;
  readonly shelf: FleetShelf;
  readonly plans: readonly ItemPlan[];
  readonly series?: FleetSeries;
  readonly tables: readonly Table[];
}

async function answers(typed: Given, book: Workbook, file: string, solver: Solver): Promise<Answers> {
  const scope = scopeOf(typed, book, file, 'order');
  const seconds = secondsOf(typed, usualSeconds);
  const begun = performance.now();
  const left = (share: number): number => Math.max(0.1, share * (seconds - (performance.now() - begun) / 1000));
  const terms = typed.options.has('failing') ? { failing: true } : {};
  const order = fleetOrder(book, scope, terms);
  const supplied = suppliedOrder(order, solver, {
    seconds: left(0.4),
    from: typed.options.has('one-supplier') ? 'single' : 'split',
  });
  const shelf = fleetShelf(book, scope.which === 'all' ? order : fleetOrder(book, { which: 'all' }, terms));
  const plans = await fleetCutting(cutItems(book, order), chosenSupply(supplied), solver, {
    seconds: left(typed.options.has('fewest-series') ? 0.6 : 1),
  });
  const feasible = typed.options.has('fewest-series')
    ? await feasibleFleet(book, { anySkew: typed.options.has('any-skew') })
    : undefined;
  const series = feasible === undefined ? undefined : await fleetSeries(book, feasible, solver, { seconds: left(1) });
  const changes =
    feasible === undefined || series?.best === undefined ? [] : seriesChanges(book, feasible, series.best);
  return {
    order,
    supplied,
    shelf,
    plans,
    ...(series === undefined ? {} : { series }),
    tables: [
      ...orderTables(order, supplied, book.units),
      shelfTable(shelf, book.units),
      ...cuttingTables(plans, book.units),
      ...(series === undefined ? [] : seriesTables(series, changes)),
      ...(typed.options.has('compare') ? comparisonTable(fleetComparison(book)) : []),
    ],
  };
}

function orderLines(
  book: Workbook,
  places: SourcePlaces,
  { order, supplied, shelf, plans, series }: Answers,
): string[] {
  const { units } = book;
  const supply = chosenSupply(supplied);
  const { joints, remarks, lines } = order;
  const number = joints.belts.reduce((sum, one) => sum + one.joints, 0);
  const alone = supplied.single.supply;
  const short = shelf.lines.filter((line) => line.packsToday > 0);
  const dead = shelf.lines.filter((line) => line.dead);
  return [
    ...remarks.map((remark) => `Left out: ${places.of(remark)}: ${remark.message}.`),
    ...joints.leftOut.map(
      ({ record, belt, reason, column, cell }) =>
        `Nothing is ordered for ${belt}: ${reason} (${places.of({ sheet: 'Belts', record, column, cell })}).`,
    ),
    ...joints.belts
      .filter(({ unknown }) => unknown.length > 0)
      .map(({ belt, unknown }) => `Ordered for ${belt} although not every check could be made: ${unknown.join(', ')}.`),
    `${countOf(number, 'joint')} of ${countOf(joints.belts.length, 'belt')}: ${countOf(lines.length, 'item')}, ` +
      `${lines.filter(({ toOrder }) => toOrder > 0).length} to order.`,
    ...supply.unsupplied.map(
      (item) => `Nobody offers ${itemText(item, units)}: enter an offer of it in the sheet Offers.`,
    ),
    `Order: ${money(supply.goods)} and ${money(supply.freight)} freight, ${money(supply.total)} in all, from ` +
      `${countOf(supply.orders.length, 'supplier')} ` +
      `(${supply.proven ? 'proven least' : `at least ` + `${money(supply.bound)}`}).`,
    alone === undefined
      ? 'No supplier sells all of it alone.'
      : `From one supplier alone: ${money(alone.total)}, ${alone.orders[0]?.supplier ?? 'nobody'}.`,
    ...(short.length === 0
      ? []
      : [
          `Shelf: order today ` +
            `${short
              .map((line) => `${itemText(line.item, units)} ` + `(${countOf(line.packsToday, 'pack')})`)
              .join(', ')}.`,
        ]),
    ...(dead.length === 0
      ? []
      : [`Dead stock: ${dead.map((line) => `${itemText(line.item, units)} in ${line.bin}`).join(', ')}.`]),
    ...shelf.uncounted.map(({ belt, reason }) => `The shelf does not count ${belt}: ${reason}.`),
    ...plans.map(({ item, plan, rollsMore }) =>
      [
        `Cutting ${itemText(item, units)}: ${countOf(plan.pieces, 'piece')} from ` +
          `${countOf(plan.rolls.length, 'roll')}, ${money(plan.cost)} ` +
          `(${plan.proven ? 'proven least' : `at least ` + `${money(plan.bound)}`})`,
        ...(plan.uncut.length === 0
          ? []
          : [`${counted(plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0))} not cut for want of rolls`]),
        ...(rollsMore === 0 ? [] : [`${countOf(rollsMore, 'roll')} more than the order list buys by length`]),
      ]
        .join('; ')
        .concat('.'),
    ),
    ...(series === undefined
      ? []
      : [
          series.best === undefined
            ? 'Plate series: no choice serves every belt that can be served.'
            : `Plate series: ${series.best.series.join(', ')} serve the fleet at ${money(series.best.cost)} a year ` +
              `(${series.best.proven ? 'proven least' : `at least ${money(series.best.bound)}`}).`,
          ...series.unserved.map((belt) => `No joint for ${belt}: ${series.reasons.get(belt) ?? 'no series passes'}.`),
        ]),
  ];
}

const about = (book: Workbook, file: string, day: string | undefined): readonly (readonly string[])[] => [
  ['Order', `Made by Skewbook from ${file}${day === undefined ? '' : `, joint ages counted to ${day}`}.`],
  [
    'Formulas',
    'Cells in slanted headings are formulas: quantities add up from the sheet Belt by belt, packs are rounded up, ' +
      'costs are packs times price. Points to order at, the cutting plan and the choice of suppliers are figures of ' +
      'the day the file was written.',
  ],
  ...(book.state.invented
    ? [
        [
          'Invented',
          "Plate series, suppliers, prices and stock are invented: put your suppliers' figures in their place before " +
            'you order anything.',
        ],
      ]
    : []),
];

/** Writes the order's workbook and says what is in it. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const { book, report, places, reviewed } = listBook(input, options);
  const solver = await loadSolver(() => solverRuntime);
  let made: Answers;
  try {
    made = await answers(typed, book, input, solver);
  } catch (error) {
    if (error instanceof Refusal)
      throw new FileError(`${input} could not be ordered for: ${error.argument} ${error.message}.`, { cause: error });
    throw error;
  }
  const title = `${book.state.title === '' ? 'Order' : `${book.state.title}: order`}`;
  const bytes = await tableBook(book, { title, tables: made.tables, about: about(book, input, reviewed.day) });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const lines = [
    ...report.notUnderstood.map((item) => notUnderstoodLine(input, item).trim()),
    ...orderLines(book, places, made),
    `Wrote ${output}${replaced ? ', in place of the file that was there' : ''}.`,
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
  return 0;
}
