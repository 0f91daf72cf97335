import { packPrice } from './offers.ts';
import { itemKey } from './order-list.ts';
import type { Chance, Need } from './supply-program.ts';

/** A supply to begin with: every item from the offer that is cheapest for it by itself. */

/** Packs by chance. */
export type Packs = Map<Chance, number>;

/** What is needed by the time that the chance arrives, less what is bought. */
const lacking = (need: Need, packs: Packs): number =>
  need.quantity -
  [...packs].reduce(
    (sum, [{ covers }, number]) =>
      sum +
      covers.reduce(
        (held, { need: other, quantity }) =>
          itemKey(other.item) === itemKey(need.item) ? held + number * quantity : held,
        0,
      ),
    0,
  );

const packsToBuy = ({ offer, covers }: Chance, need: Need, lack: number): number => {
  const held = covers.find((one) => one.need === need)?.quantity ?? 0;
  return Math.max(offer.minimumPacks ?? 1, Math.ceil((lack / held) * (1 - 1e-9)));
};

/**
 * Each need's own cheapest offer, of those that arrive first; where its supplier has a minimum order that is not
 * reached, more packs of it.
 */
export function cheapestOffers(chances: readonly Chance[], needs: readonly Need[]): Packs {
  const packs: Packs = new Map();
  for (const need of needs) {
    const lack = lacking(need, packs);
    if (lack <= 1e-9 * need.quantity) continue;
    const able = chances.filter(({ covers }) => covers.some((one) => one.need === need));
    const soonest = Math.min(...able.map(({ offer }) => offer.arrival ?? Number.NEGATIVE_INFINITY));
    const cost = (chance: Chance): number => {
      const number = packsToBuy(chance, need, lack);
      return number * packPrice(number, chance.offer) * chance.rate;
    };
    const [best] = able
      .filter(({ offer }) => need.before.length === 0 || (offer.arrival ?? Number.NEGATIVE_INFINITY) === soonest)
      .toSorted((one, other) => cost(one) - cost(other));
    if (best !== undefined) packs.set(best, (packs.get(best) ?? 0) + packsToBuy(best, need, lack));
  }
  for (const [chance, number] of packs) {
    const { supplier } = chance;
    const short = (supplier.minimumOrder ?? 0) - goodsOf(packs, chance);
    const price = packPrice(number, chance.offer);
    if (short > 0 && price > 0) {
      let more = Math.ceil(short / price);
      // A price break may lower what was bought before.
      while (goodsOf(new Map(packs).set(chance, number + more), chance) < (supplier.minimumOrder ?? 0)) more += 1;
      packs.set(chance, number + more);
    }
  }
  return packs;
}

/** Goods of a chance's supplier, in its currency. */
const goodsOf = (packs: Packs, { supplier }: Chance): number =>
  [...packs].reduce(
    (sum, [chance, number]) =>
      chance.supplier === supplier ? sum + number * packPrice(ofOffer(packs, chance), chance.offer) : sum,
    0,
  );

/** Packs of an offer for all the items that it serves: its price depends on them together. */
export const ofOffer = (packs: Packs, { offer }: Chance): number =>
  [...packs].reduce((sum, [chance, number]) => (chance.offer === offer ? sum + number : sum), 0);
