import type { Limits, Solver } from '../solver/program.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { cutItems, type CutItem, type ItemPlan, itemPlan, lackingLength } from './fleet-cutting.ts';
import { chosenSupply, firstOrder, type FleetOrder, type SuppliedOrder, suppliedOrder } from './fleet-order.ts';
import { type Item, itemKey } from './search/order-list.ts';
import type { Supply } from './search/supply.ts';

/** An order and its cutting plans that agree: what is cut is what is bought, and both cost the same. */

interface SettledOrder {
  /** With what cutting asks for beyond the lengths. */
  readonly order: FleetOrder;
  readonly supplied: SuppliedOrder;
  readonly plans: readonly ItemPlan[];
}

interface SettlingTerms extends Limits {
  readonly from?: 'split' | 'single';
  /** Told as soon as there is an order, and again when cutting asks for more. */
  readonly supply?: (order: FleetOrder, supplied: SuppliedOrder) => void;
  readonly plan?: (plan: ItemPlan, of: number) => void;
}

/** The order list with one line raised to a length. */
const raised = (order: FleetOrder, item: Item, length: number): FleetOrder => ({
  ...order,
  lines: order.lines.map((line) =>
    itemKey(line.item) === itemKey(item)
      ? { ...line, forCutting: line.forCutting + (length - line.toOrder), toOrder: length }
      : line,
  ),
});

/** Rounds of asking for more: each buys longer, so that few are ever needed. */
const mostRounds = 6;

/** Shares of the time: of the suppliers at first, of each round that follows, and of a question whether pieces fit. */
const shares = { suppliers: 0.4, again: 0.1, fits: 0.1 } as const;

class Settling {
  readonly #solver: Solver;
  readonly #terms: SettlingTerms;
  readonly #begun = performance.now();
  /** The list that was asked for, and its suppliers. */
  readonly #asked: FleetOrder;
  readonly #first: SuppliedOrder;
  order: FleetOrder;
  supplied: SuppliedOrder;

  constructor(order: FleetOrder, solver: Solver, terms: SettlingTerms) {
    this.#solver = solver;
    this.#terms = terms;
    this.order = order;
    this.#asked = order;
    terms.supply?.(order, firstOrder(order));
    this.#first = this.#search(shares.suppliers);
    this.supplied = this.#first;
    terms.supply?.(order, this.#first);
  }

  /** Where cutting asked for more, no supply is proven: the bound of the lengths alone stays. */
  #honest(supplied: SuppliedOrder): SuppliedOrder {
    if (this.order === this.#asked) return supplied;
    const unproven = (supply: Supply, before: Supply | undefined): Supply => ({
      ...supply,
      proven: false,
      bound: before?.bound ?? 0,
    });
    const { split, single } = supplied;
    const { supply } = single;
    return {
      ...supplied,
      split: unproven(split, this.#first.split),
      single: supply === undefined ? single : { ...single, supply: unproven(supply, this.#first.single.supply) },
    };
  }

  #limits(share: number): Limits {
    const { seconds = Number.POSITIVE_INFINITY, progress, signal } = this.#terms;
    const left = seconds - (performance.now() - this.#begun) / 1000;
    return {
      ...(Number.isFinite(seconds) ? { seconds: Math.max(0.05, Math.min(left, share * seconds)) } : {}),
      ...(progress === undefined ? {} : { progress }),
      ...(signal === undefined ? {} : { signal }),
    };
  }

  #search(share: number): SuppliedOrder {
    const { from } = this.#terms;
    return suppliedOrder(this.order, this.#solver, { ...this.#limits(share), ...(from === undefined ? {} : { from }) });
  }

  get #stopped(): boolean {
    return this.#terms.signal?.aborted === true;
  }

  /** Buys more until all pieces that can be cut are. */
  async buyForCutting(cuts: readonly CutItem[]): Promise<void> {
    for (let round = 0; round < mostRounds && !this.#stopped; round += 1) {
      let more = false;
      for (const cut of cuts) {
        const length = await lackingLength(
          cut,
          this.order,
          chosenSupply(this.supplied),
          this.#solver,
          this.#limits(shares.fits / cuts.length),
        );
        if (length === undefined) continue;
        this.order = raised(this.order, cut.item, length);
        more = true;
      }
      if (!more) return;
      this.supplied = this.#honest(this.#search(shares.again));
      this.#terms.supply?.(this.order, this.supplied);
    }
  }

  /** The plans, one item after the other; what is left of the time is shared among them by their pieces. */
  async plans(cuts: readonly CutItem[]): Promise<ItemPlan[]> {
    const weight = ({ question }: CutItem): number => 1 + question.pieces.length;
    let open = cuts.reduce((sum, cut) => sum + weight(cut), 0);
    const plans: ItemPlan[] = [];
    for (const cut of cuts) {
      if (this.#stopped) break;
      const { seconds, ...limits } = this.#limits(1);
      const plan = await itemPlan(cut, this.order, chosenSupply(this.supplied), this.#solver, {
        ...limits,
        ...(seconds === undefined ? {} : { seconds: (seconds * weight(cut)) / open }),
      });
      open -= weight(cut);
      plans.push(plan);
      this.#terms.plan?.(plan, cuts.length);
    }
    return plans;
  }
}

/**
 * The order of a list and how its rolls are cut.
 *
 * The list asks for lengths, and what is cut from whole rolls may ask for more: then the order buys that too, so that
 * there is one total. Where nothing had to be added, no order that the pieces can be cut from costs less; otherwise the
 * bound of the lengths alone stays.
 */
export async function settledOrder(
  book: Workbook,
  order: FleetOrder,
  solver: Solver,
  terms: SettlingTerms = {},
): Promise<SettledOrder> {
  const cuts = cutItems(book, order);
  const settling = new Settling(order, solver, terms);
  await settling.buyForCutting(cuts);
  const plans = await settling.plans(cuts);
  return { order: settling.order, supplied: settling.supplied, plans };
}
