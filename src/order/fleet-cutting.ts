import { type CuttingPlan, cuttingPlan } from './search/cutting-plan.ts';
import type { CuttingQuestion } from './search/cutting-question.ts';
import { type Item, itemKey } from './search/order-list.ts';
import type { Limits, Solver } from '../solver/program.ts';
import type { Supply } from './search/supply.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import type { FleetOrder } from './fleet-order.ts';

/** How the strips and belt inserts of an order are cut from rolls, item by item. */

interface CutItem {
  readonly item: Item;
  readonly question: CuttingQuestion;
}

export interface ItemPlan extends CutItem {
  readonly plan: CuttingPlan;
  /** Rolls that the plan needs beyond those that the order list buys by length alone; 0 when it buys enough. */
  readonly rollsMore: number;
}

/** What can be told on a tape: a millimetre, 1/16 inch. */
const tapeStep = { metric: 0.001, us: 1 / 16 / 12 } as const;

/** The questions of an order, all lengths in long units. */
export function cutItems(
  book: Workbook,
  { joints, stock, offered: { offers, suppliers, rates } }: FleetOrder,
): CutItem[] {
  const pieces = new Map<
    string,
    { readonly item: Item; readonly pieces: { belt: string; length: number; quantity: number }[] }
  >();
  for (const { item, belt, length, quantity } of joints.belts.flatMap((one) => one.pieces)) {
    const group = pieces.get(itemKey(item)) ?? { item, pieces: [] };
    group.pieces.push({ belt, length, quantity });
    pieces.set(itemKey(item), group);
  }
  const rate = new Map(suppliers.map(({ name, currency }) => [name, rates[currency] ?? 1]));
  const sawLoss = assumed(book, 'Kerf') / assumed(book, 'ShortPerLong');
  return [...pieces.values()].map(({ item, pieces: own }): CutItem => ({
    item,
    question: {
      pieces: own,
      shelf: stock.rolls
        .filter((roll) => itemKey(roll.item) === itemKey(item))
        .map(({ name, length, quantity = 1 }) => ({ name, length, quantity })),
      // A roll that costs nothing is one that its price is not known of.
      sold: offers
        .filter((offer) => itemKey(offer.item) === itemKey(item) && (offer.breaks[0]?.price ?? 0) > 0)
        .map(({ article, pack, breaks, supplier }) => ({
          name: article,
          length: pack,
          price: (breaks[0]?.price ?? 0) * (rate.get(supplier) ?? 1),
        })),
      sawLoss,
      keepFrom: assumed(book, 'MinimumOffcut'),
      step: tapeStep[book.units],
    },
  }));
}

/** The plans, one item after the other; the time limit is shared among them by their pieces. */
export async function fleetCutting(
  cuts: readonly CutItem[],
  supply: Supply | undefined,
  solver: Solver,
  { seconds, progress, signal }: Limits = {},
): Promise<ItemPlan[]> {
  const weight = ({ question }: CutItem): number => 1 + question.pieces.length;
  const total = cuts.reduce((sum, cut) => sum + weight(cut), 0);
  const plans: ItemPlan[] = [];
  for (const cut of cuts) {
    if (signal?.aborted === true) break;
    const plan = await cuttingPlan(cut.question, solver, {
      ...(signal === undefined ? {} : { signal }),
      ...(seconds === undefined ? {} : { seconds: (seconds * weight(cut)) / total }),
      ...(progress === undefined
        ? {}
        : { progress: (told) => progress({ ...told, stage: `${cut.item.name}: ${told.stage}` }) }),
    });
    const bought =
      supply?.purchases
        .filter(({ item }) => itemKey(item) === itemKey(cut.item))
        .reduce((sum, { packs }) => sum + packs, 0) ?? 0;
    const needed = plan.bought.reduce((sum, { rolls }) => sum + rolls, 0);
    plans.push({ ...cut, plan, rollsMore: Math.max(0, needed - bought) });
  }
  return plans;
}
