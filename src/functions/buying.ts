import { define, Refusal } from '../formula/define.ts';
import { normalQuantile } from './normal-quantile.ts';
import { need, prices, quantities } from './parameters.ts';
import { poissonQuantile } from './poisson-quantile.ts';
import { settled } from './rounding.ts';

/** What to buy and how much to keep: packs, price breaks, order quantity, stock for the lead time. */

/** Whole packs that cover a need, counted after rounding to 9 decimals; none for no need. */
export const packs = define({
  name: 'PACKS',
  summary: 'whole packs that cover a need',
  parameters: { need, pack: { kind: 'number', above: 0, doc: 'items in a pack' } },
  result: { kind: 'count', doc: 'packs' },
  source: 'counting',
  example: ['=PACKS(126,50)', 3],
  calculate({ need, pack }) {
    return Math.ceil(settled(need / pack));
  },
  formula: 'ROUNDUP(ROUND({need}/{pack},9),0)',
});

function ascending(quantities: readonly number[]): void {
  if (quantities.some((quantity, index) => index > 0 && quantity <= (quantities[index - 1] ?? 0))) {
    throw new Refusal('quantities', 'must be ascending, each more than the one before', '#VALUE!');
  }
}

/** Price at a quantity: that of the highest break not above it; undefined below the first break. */
const priceAt = (quantity: number, quantities: readonly number[], prices: readonly number[]): number | undefined =>
  prices[quantities.findLastIndex((from) => from <= quantity)];

/**
 * When the breaks are not ascending: sorted by their own places they differ from themselves, or two are equal, which
 * makes the sum of their places fall short.
 */
const disorder =
  'OR(SUMPRODUCT(--(SMALL({quantities},MATCH({quantities},{quantities},0))<>{quantities}))>0,' +
  'SUMPRODUCT(MATCH({quantities},{quantities},0))<>COUNT({quantities})*(COUNT({quantities})+1)/2)';
const unlessDisordered = (value: string): string => `IF(${disorder},"?"+1,${value})`;

/**
 * Unit price at a quantity, when the price of all units depends on how many are bought.
 *
 * The price of the highest break that is not above the quantity. Below the first break there is no price: #N/A.
 */
export const breakPrice = define({
  name: 'BREAKPRICE',
  summary: 'unit price at a quantity, by price breaks',
  parameters: { quantity: { kind: 'number', min: 0, doc: 'number bought' }, quantities, prices },
  result: { kind: 'money', doc: 'price of one' },
  source: 'all-units price breaks: common practice, no source',
  example: ['=BREAKPRICE(250,{1;100;200;500},{3.2;2.9;2.7;2.5})', 2.7],
  calculate({ quantity, quantities, prices }) {
    ascending(quantities);
    const price = priceAt(quantity, quantities, prices);
    if (price === undefined)
      throw new Refusal(
        'quantity',
        `must be at least the first break (${quantities[0]}): below it there is no price`,
        '#N/A',
      );
    return price;
  },
  formula: unlessDisordered(
    'IF({quantity}<MIN({quantities}),NA(),INDEX({prices},IF(ROWS({prices})=1,1,MATCH({quantity},{quantities},1)),' +
      'IF(ROWS({prices})=1,MATCH({quantity},{quantities},1),1)))',
  ),
});

/**
 * Costs that agree to so many digits count as equal: 3 at 0.1 and 1 at 0.3 cost the same, whatever the last digit says.
 */
const costDigits = 12;

const bought = '(({quantities}>{need})*{quantities}+({quantities}<={need})*{need})';
/** Cost of each candidate; a break below the one that holds at the need is out of the question. */
const cost = `(${bought}*{prices}+({quantities}<MAX(({quantities}<={need})*{quantities}))*10^300)`;

/**
 * The quantity, at least the need, whose total cost is least.
 *
 * With all-units breaks it pays to buy up to a break when the lower price outweighs the surplus. The cheapest is either
 * the need itself or one of the breaks above it; of equal costs the smaller quantity. A need below the first break is
 * raised to a break; no need buys nothing. What the surplus costs to keep is not in it.
 */
export const bestBuy = define({
  name: 'BESTBUY',
  summary: 'quantity, at least the need, with the minimum total cost',
  parameters: { need, quantities, prices },
  result: { kind: 'number', doc: 'quantity to buy' },
  source: 'all-units price breaks: common practice, no source',
  example: ['=BESTBUY(185,{1;100;200;500},{3.2;2.9;2.6;2.5})', 200],
  calculate({ need, quantities, prices }) {
    ascending(quantities);
    if (need === 0) return 0;
    const candidates = [need, ...quantities.filter((quantity) => quantity > need)].flatMap((quantity) => {
      const price = priceAt(quantity, quantities, prices);
      return price === undefined ? [] : [{ quantity, cost: quantity * price }];
    });
    const leastCost = Math.min(...candidates.map((candidate) => candidate.cost));
    return candidates.find((candidate) => candidate.cost <= leastCost * (1 + 10 ** -costDigits))?.quantity ?? need;
  },
  formula: unlessDisordered(
    `IF({need}=0,0,SUMPRODUCT(MIN(${bought}+(${cost}>MIN(${cost})*(1+10^-${costDigits}))*10^300)))`,
  ),
});

/**
 * The classic economic order quantity.
 *
 * Ordering costs fall and holding costs rise with the size of an order; their sum is least where they are equal. For
 * steady demand, one price and no shortage; the sum is flat, so a near round quantity costs little more.
 */
export const orderQuantity = define({
  name: 'ORDERQUANTITY',
  summary: 'economic order quantity',
  parameters: {
    demand: { kind: 'number', min: 0, doc: 'demand per period' },
    orderCost: { kind: 'money', min: 0, doc: 'cost of placing one order' },
    holdingCost: { kind: 'money', above: 0, doc: 'cost of keeping one for the same period' },
  },
  result: { kind: 'number', doc: 'quantity per order' },
  source: 'economic order quantity (Harris 1913, from memory); checked against the stockpyl documentation',
  example: ['=ORDERQUANTITY(1300,8,0.225)', 304.0467800264368],
  calculate({ demand, orderCost, holdingCost }) {
    return Math.sqrt((2 * demand * orderCost) / holdingCost);
  },
  formula: 'SQRT(2*{demand}*{orderCost}/{holdingCost})',
});

/**
 * Stock at which to order again, for demand that is normal and steady.
 *
 * The mean over the lead time plus a safety stock: the deviation over the lead time (variances add up, so it grows with
 * the root of the lead) times the normal quantile of the service. Service is the chance of no shortage in one lead
 * time. For a mean below about 9 in the lead time use POISSONSTOCK.
 */
export const reorderPoint = define({
  name: 'REORDERPOINT',
  summary: 'reorder point (stock at which to order again), normal demand',
  parameters: {
    mean: { kind: 'number', min: 0, doc: 'mean demand per period' },
    deviation: { kind: 'number', min: 0, doc: 'standard deviation of the demand of one period' },
    lead: { kind: 'number', min: 0, doc: 'lead time in the same periods' },
    service: {
      kind: 'number',
      min: 0.5,
      below: 1,
      doc: 'chance of no shortage in one lead time, as a share',
      advice: 'A service of 95 per cent is 0.95',
    },
  },
  result: { kind: 'number', doc: 'stock on the shelf and on order' },
  source: 'normal demand over the lead time; limits after ETH Zurich, opess 11.3.3',
  example: ['=REORDERPOINT(5,2,3,0.95)', 20.69794010578779],
  calculate({ mean, deviation, lead, service }) {
    return mean * lead + normalQuantile(service) * deviation * Math.sqrt(lead);
  },
  formula: '{mean}*{lead}+NORMSINV({service})*{deviation}*SQRT({lead})',
});

/** Where the plain formula begins to look: well below the normal approximation with its skewness term. */
const poissonBase = 'MAX(0,INT({mean}+NORMSINV({service})*SQRT({mean})+(NORMSINV({service})^2-1)/6)-20)';
const poissonWindow = `{${Array.from({ length: 41 }, (_, index) => index).join(',')}}`;

/**
 * Stock that covers lumpy demand in the lead time with the wanted service.
 *
 * Joints fail one at a time and independently, so the use in a lead time is Poisson about its mean. The answer is the
 * least whole number not exceeded with at least the service. Where plates are used in whole joints count joints, not
 * plates. A mean of 0 needs no stock.
 *
 * The plain formula counts how many of 41 successive numbers, laid around the normal approximation, fall short; that
 * approximation is within a few of the answer for services from 10^-12 to 1 - 10^-12.
 */
export const poissonStock = define({
  name: 'POISSONSTOCK',
  summary: 'minimum stock that covers lumpy demand at the target service level',
  parameters: {
    mean: { kind: 'number', min: 0, max: 1e6, doc: 'expected demand in the lead time' },
    service: {
      kind: 'number',
      above: 0,
      below: 1,
      doc: 'chance of no shortage in one lead time, as a share',
      advice: 'A service of 95 per cent is 0.95',
    },
  },
  result: { kind: 'count', doc: 'stock' },
  source: 'Poisson distribution; use for small means after ETH Zurich, opess 11.3.3',
  example: ['=POISSONSTOCK(4,0.95)', 8],
  calculate({ mean, service }) {
    return poissonQuantile(mean, service);
  },
  formula:
    `IF({mean}=0,0,${poissonBase}+SUMPRODUCT(--(POISSON(${poissonBase}+${poissonWindow},{mean},` +
    `TRUE())<{service})))`,
});
