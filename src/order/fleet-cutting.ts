import { assumed } from '../records/assumed.ts';
import type { Limits, Solver } from '../solver/program.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { FleetOrder } from './fleet-order.ts';
import { offerOf } from './order-figures.ts';
import { type CuttingPlan, cuttingPlan } from './search/cutting-plan.ts';
import type { CuttingQuestion, Piece } from './search/cutting-question.ts';
import { type Item, itemKey } from './search/order-list.ts';
import type { Supply } from './search/supply.ts';

/** How the strips and belt inserts of an order are cut from the rolls that there are, that come, and that it buys. */

export interface CutItem {
  readonly item: Item;
  /** Its shelf has the rolls that there are and that come; `sold` what more could be bought. */
  readonly question: CuttingQuestion;
}

export interface ItemPlan extends CutItem {
  readonly plan: CuttingPlan;
  /** Rolls that the order buys, and what they cost in it: rolls that are not begun included. */
  readonly rollsBought: number;
  readonly cost: number;
}

/** What can be told on a tape: a millimetre, 1/16 inch. */
const tapeStep = { metric: 0.001, us: 1 / 16 / 12 } as const;

/** The questions of an order, all lengths in long units. */
export function cutItems(
  book: Workbook,
  { joints, stock, offered: { offers, suppliers, rates } }: FleetOrder,
): CutItem[] {
  const pieces = new Map<string, { readonly item: Item; readonly pieces: Piece[] }>();
  for (const { due, pieces: own } of joints.belts) {
    for (const { item, belt, length, quantity } of own) {
      const group = pieces.get(itemKey(item)) ?? { item, pieces: [] };
      group.pieces.push({ belt, length, quantity, due });
      pieces.set(itemKey(item), group);
    }
  }
  const rate = new Map(suppliers.map(({ name, currency }) => [name, rates[currency] ?? 1]));
  const sawLoss = assumed(book, 'Kerf') / assumed(book, 'ShortPerLong');
  return [...pieces.values()].map(({ item, pieces: own }): CutItem => ({
    item,
    question: {
      pieces: own,
      shelf: stock.rolls.filter((roll) => itemKey(roll.item) === itemKey(item)),
      sold: offers
        .filter((offer) => itemKey(offer.item) === itemKey(item))
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

const boughtOf = ({ purchases }: Pick<Supply, 'purchases'>, item: Item): Supply['purchases'][number][] =>
  purchases.filter((purchase) => itemKey(purchase.item) === itemKey(item));

/** The question with what an order buys among the rolls; with nothing more for sale. */
function withBought(
  { item, question }: CutItem,
  { offered: { offers } }: Pick<FleetOrder, 'offered'>,
  supply: Supply,
): CuttingQuestion {
  return {
    ...question,
    sold: [],
    shelf: [
      ...question.shelf,
      ...boughtOf(supply, item).map((purchase) => ({
        name: offerOf(purchase, offers)?.article ?? purchase.supplier,
        length: purchase.pack,
        quantity: purchase.packs,
        source: 'bought' as const,
        paid: purchase.cost / purchase.packs,
      })),
    ],
  };
}

/**
 * Length to buy of an item so that its pieces can be cut, where what the order buys is not enough: that of its rolls
 * and of those that a plan then still takes. undefined when it is enough, or nobody sells a roll that is long enough.
 */
export async function lackingLength(
  cut: CutItem,
  order: Pick<FleetOrder, 'offered'>,
  supply: Supply,
  solver: Solver,
  limits: Limits,
): Promise<number | undefined> {
  const question = withBought(cut, order, supply);
  const { uncut } = await cuttingPlan(question, solver, { ...limits, costOnly: true });
  if (uncut.length === 0) return undefined;
  // Articles may share a name: their places tell them apart.
  const sold = cut.question.sold.map((roll, place) => ({ ...roll, name: String(place) }));
  const plan = await cuttingPlan({ ...question, sold }, solver, { ...limits, costOnly: true });
  const added = plan.bought.reduce((sum, { name, rolls }) => sum + rolls * (sold[Number(name)]?.length ?? 0), 0);
  if (added === 0) return undefined;
  return added + boughtOf(supply, cut.item).reduce((sum, { quantity }) => sum + quantity, 0);
}

/** The plan of one item, cut from the rolls of the order and those that there are. */
export async function itemPlan(
  cut: CutItem,
  order: Pick<FleetOrder, 'offered'>,
  supply: Supply,
  solver: Solver,
  { progress, ...limits }: Limits = {},
): Promise<ItemPlan> {
  const question = withBought(cut, order, supply);
  const plan = await cuttingPlan(question, solver, {
    ...limits,
    ...(progress === undefined
      ? {}
      : { progress: (told) => progress({ ...told, stage: `${cut.item.name}: ${told.stage}` }) }),
  });
  const bought = boughtOf(supply, cut.item);
  return {
    item: cut.item,
    question,
    plan,
    rollsBought: bought.reduce((sum, { packs }) => sum + packs, 0),
    cost: bought.reduce((sum, { cost }) => sum + cost, 0),
  };
}
