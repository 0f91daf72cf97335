import { counted } from '../units/phrases.ts';
import { Refusal } from '../formula/define.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import { loadSolver } from '../solver/solver.ts';
import { type Solver } from '../solver/program.ts';
import type { ItemPlan } from '../order/fleet-cutting.ts';
import { chosenSupply, fleetOrder, usualScope } from '../order/fleet-order.ts';
import { surplusTexts } from '../order/surplus-words.ts';
import { settledOrder } from '../order/settled-order.ts';
import { itemText } from '../order/items.ts';
import { type MadeOrder, orderBook } from '../order/order-files.ts';
import { feasibleFleet, fleetSeries, seriesChanges } from '../order/fleet-series.ts';
import { fleetShelf, type FleetShelf } from '../order/shelf-lines.ts';
import { deadStockText } from '../order/shelf-words.ts';
import { fleetComparison } from '../order/square-or-skew.ts';
import { deferrals } from '../workbook/safety.ts';
import type { Supply } from '../order/search/supply.ts';
import type { Scope } from '../records/chosen-belts.ts';
import { isoDate } from '../units/dates.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { auditTables } from '../purchase/audit-tables.ts';
import { scheduleTables } from '../purchase/schedule-tables.ts';
import { orderBooks, type OrderBooks } from './joined-books.ts';
import { listOptions } from './list-options.ts';
import { checkFolder, hashedInputs, typedOptions, writeOrders } from './order-folder.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { scopeOf, secondsOf, solverRuntime } from './planning-options.ts';
import { FileError, UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** The order list, the shelf and the cutting plan of a list of belts, as a workbook of live formulas. */

/** Series are searched with cutting plans: both need their time. */
const usualSeconds = { order: 2, series: 30 } as const;

const money = (value: number): string =>
  value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

type Answers = MadeOrder & { readonly shelf: FleetShelf; readonly scope: Scope };

/** `seconds` are those left for the search, asked when it begins. */
async function bestSeries(
  book: Workbook,
  solver: Solver,
  anySkew: boolean,
  seconds: () => number,
): Promise<NonNullable<MadeOrder['series']>> {
  const feasible = await feasibleFleet(book, { anySkew });
  const answer = await fleetSeries(book, feasible, solver, { seconds: seconds() });
  return { answer, changes: answer.best === undefined ? [] : seriesChanges(book, feasible, answer.best) };
}

async function answers(typed: Given, { book, sites }: OrderBooks, file: string, solver: Solver): Promise<Answers> {
  const asked = scopeOf(typed, book, file, 'order');
  if (typed.options.has('all') && asked.which !== 'all')
    throw new UsageError('--all is given with --belt or --due: order for all belts, or for those');
  const scope = asked.which === 'all' && !typed.options.has('all') ? usualScope(book) : asked;
  const fewest = typed.options.has('fewest-series');
  const seconds = secondsOf(typed, fewest ? usualSeconds.series : usualSeconds.order);
  const begun = performance.now();
  const left = (): number => Math.max(0.1, seconds - (performance.now() - begun) / 1000);
  const { order, supplied, plans } = await settledOrder(
    book,
    fleetOrder(book, scope, {
      ...(typed.options.has('failing') ? { failing: true } : {}),
      ...(sites === undefined ? {} : { sites: { ...sites, apart: !typed.options.has('one-delivery') } }),
    }),
    solver,
    { seconds: (fewest ? 0.6 : 1) * seconds, from: typed.options.has('one-supplier') ? 'single' : 'split' },
  );
  return {
    scope,
    order,
    supplied,
    shelf: fleetShelf(book, order),
    plans,
    series: typed.options.has('fewest-series')
      ? await bestSeries(book, solver, typed.options.has('any-skew'), left)
      : undefined,
    comparison: typed.options.has('compare') ? fleetComparison(book) : undefined,
  };
}

const provenText = (proven: boolean, bound: number): string =>
  proven ? 'cheapest, proven' : `lower bound ${money(bound)}`;

/** An order of one supplier, in its own currency where that is another. */
function supplierLine(
  { supplier, currency, goods, charges, invoiced, deliveries }: Supply['orders'][number],
  own: string,
): string {
  const total = invoiced.goods - invoiced.discount + invoiced.surcharge + invoiced.freight;
  const theirs = currency === own ? '' : `${currency} ${money(total)}, `;
  const apart = deliveries > 1 ? `, delivered to ${deliveries} sites` : '';
  return `${supplier}: ${theirs}${own} ${money(goods + charges)}${apart}.`;
}

/** Whom it is for, and who sells it. */
function listLines(book: Workbook, places: OrderBooks['places'], { scope, order, supplied }: Answers): string[] {
  const supply = chosenSupply(supplied);
  const { joints, remarks, lines } = order;
  const { currency } = order.offered;
  const number = joints.belts.reduce((sum, one) => sum + one.joints, 0);
  const alone = supplied.single.supply;
  return [
    ...remarks.map((remark) => `Remark: ${places.of(remark)}: ${remark.message}.`),
    ...joints.leftOut.map(
      ({ record, belt, reason, column, cell }) =>
        `Not ordered: ${belt}: ${reason} (${places.of({ sheet: 'Belts', record, column, cell })}).`,
    ),
    ...joints.belts
      .filter(({ unknown }) => unknown.length > 0)
      .map(({ belt, unknown }) => `Ordered with checks not known: ${belt}: ${unknown.join(', ')}.`),
    `${counted(number, 'joint')} of ${counted(new Set(joints.belts.map(({ record }) => record)).size, 'belt')}` +
      `${scope.which === 'due' ? ` due by ${isoDate(scope.until)}` : ''}: ${counted(lines.length, 'item')}, ` +
      `${lines.filter(({ toOrder }) => toOrder > 0).length} to order.`,
    ...supply.unsupplied.map(
      (item) => `No offer for ${itemText(item, book.units)}, not in the total: enter one in the sheet Offers.`,
    ),
    ...surplusTexts(order, supply, book.units).map((text) => `Surplus: ${text}.`),
    ...supply.orders.map((one) => supplierLine(one, order.offered.currency)),
    `Order: ${currency} ${money(supply.goods)} and ${money(supply.charges)} freight and charges, ` +
      `${currency} ${money(supply.total)} in total, from ` +
      `${counted(supply.orders.length, 'supplier')} (${provenText(supply.proven, supply.bound)}).`,
    alone === undefined
      ? 'No single supplier sells everything.'
      : `Single supplier: ${currency} ${money(alone.total)}, ${alone.orders[0]?.supplier ?? 'nobody'}.`,
  ];
}

function shelfLines({ units }: Workbook, { lines, uncounted }: FleetShelf): string[] {
  return [
    ...lines.filter((line) => line.dead).map((line) => `Dead stock: ${deadStockText(line, units)}.`),
    ...uncounted.map(({ belt, reason }) => `Not counted for stock: ${belt}: ${reason}.`),
  ];
}

const cuttingLine = ({ units }: Workbook, currency: string, { item, plan, rollsBought, cost }: ItemPlan): string =>
  `${[
    `Cutting ${itemText(item, units)}: ${counted(plan.pieces, 'piece')} from ${counted(plan.rolls.length, 'roll')}; ` +
      (rollsBought === 0
        ? 'nothing to buy'
        : `the order buys ${counted(rollsBought, 'roll')} for ${currency} ${money(cost)}`),
    ...(plan.uncut.length === 0
      ? []
      : [`${plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0)} not cut: no roll left or long enough`]),
  ].join('; ')}.`;

const seriesLines = (
  { best, curve, unserved, reasons }: NonNullable<Answers['series']>['answer'],
  currency: string,
): string[] => [
  best === undefined
    ? 'Plate series: no set covers all belts that can be covered.'
    : `Plate series: ${best.series.join(', ')} cover the fleet at ${currency} ${money(best.cost)} per year ` +
      `(${provenText(best.proven, best.bound)}). Cheapest: ${best.series.length} series. Fewest possible: ` +
      `${curve.find(({ choice }) => choice !== undefined)?.series ?? best.series.length}.` +
      (unserved.length === 0 ? '' : ` Leaves out ${counted(unserved.length, 'belt')}.`),
  ...unserved.map((belt) => `No series covers ${belt}: ${reasons.get(belt) ?? 'no series passes'}.`),
];

const orderLines = (book: Workbook, places: OrderBooks['places'], made: Answers): string[] => [
  ...listLines(book, places, made),
  ...shelfLines(book, made.shelf),
  ...made.plans.map((plan) => cuttingLine(book, made.order.offered.currency, plan)),
  ...(made.series === undefined ? [] : seriesLines(made.series.answer, made.order.offered.currency)),
];

/** Writes the order's workbook and says what is in it. */
export async function run(typed: Given): Promise<number> {
  const files = typed.words.slice(0, -1);
  const [input, output = ''] = [files.join(', '), typed.words.at(-1)];
  const options = listOptions(typed);
  const inputs = [...files, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const folder = optionValue(typed, 'orders');
  if (folder !== undefined) checkFolder(folder);
  const books = orderBooks(files, options);
  const { book, places } = books;
  const solver = await loadSolver(() => solverRuntime);
  let made: Answers;
  try {
    made = await answers(typed, books, input, solver);
  } catch (error) {
    if (error instanceof Refusal)
      throw new FileError(`No order could be made for ${input}: ${error.argument} ${error.message}.`, { cause: error });
    throw error;
  }
  const audit = { inputs: hashedInputs(inputs), options: typedOptions(typed), unfinished: [] };
  const written = orderBook(book.state, made, input);
  const bytes = await tableBook(book, {
    ...written,
    tables: [
      ...written.tables,
      ...scheduleTables(book, made.order, made.supplied),
      ...auditTables(book, made.order, made.supplied, audit),
    ],
  });
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const sent = folder === undefined ? [] : await writeOrders(book, places, made, { folder, inputs, audit });
  const lines = [
    ...books.told,
    ...orderLines(book, places, made),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    ...sent,
    deferrals.order,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
