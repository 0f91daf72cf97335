import { counted } from '../units/phrases.ts';
import { Refusal } from '../formula/define.ts';
import { tableBook } from '../xlsx/write/table-book.ts';
import { loadSolver } from '../solver/solver.ts';
import { type Solver } from '../solver/program.ts';
import { cutItems, fleetCutting, type ItemPlan } from '../order/fleet-cutting.ts';
import { chosenSupply, fleetOrder, suppliedOrder } from '../order/fleet-order.ts';
import { itemText } from '../order/items.ts';
import { type MadeOrder, orderBook } from '../order/order-files.ts';
import { feasibleFleet, fleetSeries, seriesChanges } from '../order/fleet-series.ts';
import { fleetShelf, type FleetShelf } from '../order/shelf-lines.ts';
import { deadStockText, restockText } from '../order/shelf-words.ts';
import { fleetComparison } from '../order/square-or-skew.ts';
import { deferrals } from '../workbook/safety.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { notUnderstoodLine } from './import-report.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkFolder, writeOrders } from './order-folder.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { scopeOf, secondsOf, solverRuntime } from './planning-options.ts';
import type { SourcePlaces } from './source-places.ts';
import { FileError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** The order list, the shelf and the cutting plan of a list of belts, as a workbook of live formulas. */

const usualSeconds = 30;

const money = (value: number): string =>
  value.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });

type Answers = MadeOrder & { readonly shelf: FleetShelf };

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
  return {
    order,
    supplied,
    shelf,
    plans,
    series: typed.options.has('fewest-series')
      ? await bestSeries(book, solver, typed.options.has('any-skew'), () => left(1))
      : undefined,
    comparison: typed.options.has('compare') ? fleetComparison(book) : undefined,
  };
}

const provenText = (proven: boolean, bound: number): string =>
  proven ? 'cheapest, proven' : `lower bound ${money(bound)}`;

/** Whom it is for, and who sells it. */
function listLines(book: Workbook, places: SourcePlaces, { order, supplied, plans }: Answers): string[] {
  const supply = chosenSupply(supplied);
  const { joints, remarks, lines } = order;
  const number = joints.belts.reduce((sum, one) => sum + one.joints, 0);
  const alone = supplied.single.supply;
  return [
    ...remarks.map((remark) => `Left out: ${places.of(remark)}: ${remark.message}.`),
    ...joints.leftOut.map(
      ({ record, belt, reason, column, cell }) =>
        `Not ordered: ${belt}: ${reason} (${places.of({ sheet: 'Belts', record, column, cell })}).`,
    ),
    ...joints.belts
      .filter(({ unknown }) => unknown.length > 0)
      .map(({ belt, unknown }) => `Ordered with checks not known: ${belt}: ${unknown.join(', ')}.`),
    `${counted(number, 'joint')} of ${counted(joints.belts.length, 'belt')}: ${counted(lines.length, 'item')}, ` +
      `${lines.filter(({ toOrder }) => toOrder > 0).length} to order.`,
    ...supply.unsupplied.map((item) => `No offer for ${itemText(item, book.units)}: enter one in the sheet Offers.`),
    `Order: ${money(supply.goods)} and ${money(supply.freight)} freight, ${money(supply.total)} in total, from ` +
      `${counted(supply.orders.length, 'supplier')} (${provenText(supply.proven, supply.bound)}).`,
    ...plans
      .filter(({ rollsMore }) => rollsMore > 0)
      .map(
        ({ item, rollsMore }) =>
          `Warning: to cut ${itemText(item, book.units)}, buy ${counted(rollsMore, 'roll')} more than this order ` +
          `does: ` +
          `it orders by length.`,
      ),
    alone === undefined
      ? 'No single supplier sells everything.'
      : `Single supplier: ${money(alone.total)}, ${alone.orders[0]?.supplier ?? 'nobody'}.`,
  ];
}

function shelfLines({ units }: Workbook, { lines, uncounted }: FleetShelf): string[] {
  const restock = restockText(lines, units);
  return [
    ...(restock === undefined ? [] : [restock]),
    ...lines.filter((line) => line.dead).map((line) => `Dead stock: ${deadStockText(line, units)}.`),
    ...uncounted.map(({ belt, reason }) => `Not counted for stock: ${belt}: ${reason}.`),
  ];
}

const cuttingLine = ({ units }: Workbook, { item, plan }: ItemPlan): string =>
  `${[
    `Cutting ${itemText(item, units)}: ${counted(plan.pieces, 'piece')} from ${counted(plan.rolls.length, 'roll')}, ` +
      `${money(plan.cost)} (${provenText(plan.proven, plan.bound)})`,
    ...(plan.uncut.length === 0
      ? []
      : [`${plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0)} not cut: no roll left or long enough`]),
  ].join('; ')}.`;

const seriesLines = ({ best, curve, unserved, reasons }: NonNullable<Answers['series']>['answer']): string[] => [
  best === undefined
    ? 'Plate series: no set covers all belts that can be covered.'
    : `Plate series: ${best.series.join(', ')} cover the fleet at ${money(best.cost)} per year ` +
      `(${provenText(best.proven, best.bound)}). Cheapest: ${best.series.length} series. Fewest possible: ` +
      `${curve.find(({ choice }) => choice !== undefined)?.series ?? best.series.length}.` +
      (unserved.length === 0 ? '' : ` Leaves out ${counted(unserved.length, 'belt')}.`),
  ...unserved.map((belt) => `No series covers ${belt}: ${reasons.get(belt) ?? 'no series passes'}.`),
];

const orderLines = (book: Workbook, places: SourcePlaces, made: Answers): string[] => [
  ...listLines(book, places, made),
  ...shelfLines(book, made.shelf),
  ...made.plans.map((plan) => cuttingLine(book, plan)),
  ...(made.series === undefined ? [] : seriesLines(made.series.answer)),
];

/** Writes the order's workbook and says what is in it. */
export async function run(typed: Given): Promise<number> {
  const [input = '', output = ''] = typed.words;
  const options = listOptions(typed);
  const inputs = [input, ...(options.series === undefined ? [] : [options.series])];
  checkOutput(output, inputs);
  const folder = optionValue(typed, 'orders');
  if (folder !== undefined) checkFolder(folder);
  const { book, report, places } = listBook(input, options);
  const solver = await loadSolver(() => solverRuntime);
  let made: Answers;
  try {
    made = await answers(typed, book, input, solver);
  } catch (error) {
    if (error instanceof Refusal)
      throw new FileError(`No order could be made for ${input}: ${error.argument} ${error.message}.`, { cause: error });
    throw error;
  }
  const bytes = await tableBook(book, orderBook(book.state, made, input));
  checkOutput(output, inputs);
  const replaced = replaces(output);
  writeWhole(output, bytes);
  const sent = folder === undefined ? [] : await writeOrders(book, places, made, { folder, inputs, options: typed });
  const lines = [
    ...report.notUnderstood.map((item) => notUnderstoodLine(input, item).trim()),
    ...orderLines(book, places, made),
    `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    ...sent,
    deferrals.order,
  ];
  process.stdout.write(visibleLines(lines));
  return 0;
}
