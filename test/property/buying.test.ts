import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Matrix } from '../../src/formula/values.ts';
import { normalQuantile } from '../../src/functions/normal-quantile.ts';
import { poissonQuantile } from '../../src/functions/poisson-quantile.ts';
import { close, named, number, refusal } from '../evaluation.ts';
import { breaks, decimals } from './arguments.ts';

const column = (numbers: readonly number[]): Matrix => numbers.map((one) => [one]);

describe('packs', () => {
  test('cover the need, and one less would not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100000 }), fc.integer({ min: 1, max: 500 }), (need, pack) => {
        const packs = number('PACKS', need, pack);
        expect(packs * pack).toBeGreaterThanOrEqual(need);
        expect((packs - 1) * pack).toBeLessThan(need);
        expect(number('PACKS', need * 0.1, pack * 0.1)).toBe(packs);
      }),
    );
  });
});

describe('price breaks', () => {
  const priceBelow = (
    quantity: number,
    quantities: readonly number[],
    prices: readonly number[],
  ): number | undefined => {
    let price: number | undefined;
    quantities.forEach((from, index) => {
      if (from <= quantity) price = prices[index];
    });
    return price;
  };

  test('the price is that of the last break reached', () => {
    fc.assert(
      fc.property(breaks, fc.integer({ min: 0, max: 400 }), ({ quantities, prices }, quantity) => {
        const price = priceBelow(quantity, quantities, prices);
        if (price === undefined)
          expect(String(named('BREAKPRICE').evaluate([quantity, column(quantities), column(prices)]))).toContain(
            '#N/A BREAKPRICE: quantity must be at least the first break',
          );
        else expect(number('BREAKPRICE', quantity, column(quantities), column(prices))).toBe(price);
      }),
    );
  });
  test('a row of breaks says the same as a column', () => {
    fc.assert(
      fc.property(breaks, fc.integer({ min: 1, max: 400 }), ({ quantities, prices }, quantity) => {
        expect(number('BREAKPRICE', quantity, [quantities], [prices])).toBe(
          number('BREAKPRICE', quantity, column(quantities), column(prices)),
        );
      }),
    );
  });
  test('the best buy is the cheapest of all whole quantities that cover the need', () => {
    fc.assert(
      fc.property(breaks, fc.integer({ min: 1, max: 250 }), ({ quantities, prices }, need) => {
        const far = Math.max(need, ...quantities) + 5;
        let best = { quantity: Number.NaN, cost: Number.POSITIVE_INFINITY };
        for (let quantity = need; quantity <= far; quantity += 1) {
          const price = priceBelow(quantity, quantities, prices);
          // Prices are whole cents, so that costs can be compared without rounding.
          const cost = price === undefined ? Number.POSITIVE_INFINITY : quantity * Math.round(price * 100);
          if (cost < best.cost) best = { quantity, cost };
        }
        expect(number('BESTBUY', need, column(quantities), column(prices))).toBe(best.quantity);
      }),
      { numRuns: 400 },
    );
  });
  test('of equal costs the smaller quantity, whatever the last digit of the products says', () => {
    expect(number('BESTBUY', 1, column([1, 3]), column([0.3, 0.1]))).toBe(1);
    expect(0.1 * 3).toBeGreaterThan(0.3);
    expect(number('BESTBUY', 3, column([3, 6]), column([1.1, 0.55]))).toBe(3);
    expect(number('BESTBUY', 7, column([1, 10]), column([1.1, 0.77]))).toBe(7);
  });
  test('breaks out of order or repeated, sizes that differ and blanks are refused', () => {
    for (const name of ['BREAKPRICE', 'BESTBUY']) {
      expect(String(refusal(`=${name}(5,{1;20;10},{3;2;1})`))).toBe(
        `#VALUE! ${name}: quantities must be ascending, each more than the one before; 1, 20, 10 was given`,
      );
      expect(refusal(`=${name}(5,{1;10;10},{3;2;1})`).code).toBe('#VALUE!');
      expect(String(refusal(`=${name}(5,{1;10;20},{3;2})`))).toBe(
        `#VALUE! ${name}: prices must have the size of quantities, a range of 3 rows and 1 column; a range of 2 rows ` +
          `and 1 column was given`,
      );
      expect(String(refusal(`=${name}(5,{1;10},{3,2})`))).toContain('#VALUE!');
      expect(String(refusal(`=${name}(5,{1,10;20,30},{4,3;2,1})`))).toBe(
        `#VALUE! ${name}: quantities must be one row or one column; a range of 2 rows and 2 columns was given`,
      );
      expect(String(named(name).evaluate([5, [[1], [null]], [[3], [2]]]))).toBe(
        `#VALUE! ${name}: quantities must hold only numbers; nothing (an empty cell) is among them`,
      );
      expect(String(refusal(`=${name}(5,{1;10},{3;-2})`))).toBe(
        `#NUM! ${name}: each number of prices must be at least 0; -2 was given`,
      );
    }
  });
});

describe('order quantity', () => {
  test('costs no more a year than any other', () => {
    fc.assert(
      fc.property(
        decimals(1, 1e5),
        decimals(0.1, 500),
        decimals(0.01, 100),
        decimals(0.1, 5),
        (demand, ordering, holding, other) => {
          const cost = (quantity: number): number => (demand * ordering) / quantity + (holding * quantity) / 2;
          const best = number('ORDERQUANTITY', demand, ordering, holding);
          expect(cost(best)).toBeLessThanOrEqual(cost(best * other) * (1 + 1e-12));
        },
      ),
    );
  });
});

describe('stock for normal demand', () => {
  test('the quantile is where the density adds up to the service', () => {
    // Simpson's rule on the density, from the middle outwards.
    const share = (to: number): number => {
      const steps = 2000;
      const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
      let sum = density(0) + density(to);
      for (let step = 1; step < steps; step += 1) sum += density((to * step) / steps) * (step % 2 === 1 ? 4 : 2);
      return 0.5 + (sum * to) / (3 * steps);
    };
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 0.9999999, noNaN: true }), (service) =>
        close(share(normalQuantile(service)), service, 1e-13),
      ),
    );
  });
  test('the quantile at the shares of every table, to all digits', () => {
    // Standard normal tables, 15 digits.
    const table = [
      [0.5, 0],
      [0.75, 0.674489750196082],
      [0.9, 1.2815515655446],
      [0.95, 1.64485362695147],
      [0.975, 1.95996398454005],
      [0.99, 2.32634787404084],
      [0.999, 3.09023230616781],
      [0.9999, 3.71901648545568],
    ] as const;
    for (const [share, quantile] of table) {
      // A share in binary is off by up to 1e-16, which the flat tail turns into some 1e-14 of the quantile.
      expect(close(normalQuantile(share), quantile, 1e-14, 1)).toBe(true);
      expect(close(normalQuantile(1 - share), -quantile, 1e-12, 1)).toBe(true);
    }
    // Far tails, worked out to 60 digits from the error function.
    expect(close(normalQuantile(1e-16), -8.22208221613044, 1e-14)).toBe(true);
    expect(close(normalQuantile(1e-300), -37.0470962993612, 1e-14)).toBe(true);
  });
  test('more service, lead or spread needs more stock', () => {
    fc.assert(
      fc.property(
        decimals(0, 100),
        decimals(0.1, 50),
        decimals(0.1, 30),
        decimals(0.5, 0.99),
        (mean, deviation, lead, service) => {
          const point = number('REORDERPOINT', mean, deviation, lead, service);
          expect(number('REORDERPOINT', mean, deviation, lead, service + 0.005)).toBeGreaterThan(point);
          expect(number('REORDERPOINT', mean, deviation, lead * 1.5, service)).toBeGreaterThanOrEqual(point);
          expect(number('REORDERPOINT', mean, deviation + 1, lead, service)).toBeGreaterThanOrEqual(point);
          expect(point).toBeGreaterThanOrEqual(mean * lead);
        },
      ),
    );
  });
});

describe('stock for lumpy demand', () => {
  test('is the least count whose probability reaches the service', () => {
    fc.assert(
      fc.property(decimals(0.001, 60), decimals(0.001, 0.999), (mean, service) => {
        let chance = Math.exp(-mean);
        let reached = chance;
        let stock = 0;
        while (reached < service) {
          stock += 1;
          chance *= mean / stock;
          reached += chance;
        }
        expect(number('POISSONSTOCK', mean, service)).toBe(stock);
      }),
      { numRuns: 500 },
    );
  });
  test('tells services very close to 1 apart', () => {
    // P(X > 0) is 1e-6 and P(X > 1) 5e-13 at a mean of a millionth.
    expect(poissonQuantile(1e-6, 1 - 2e-6)).toBe(0);
    expect(poissonQuantile(1e-6, 1 - 1e-9)).toBe(1);
    expect(poissonQuantile(1e-6, 1 - 1e-13)).toBe(2);
    expect(poissonQuantile(6, 1 - 2 ** -53)).toBeLessThan(40);
  });
  test('keeps to the normal approximation with its skewness where the mean is large', () => {
    fc.assert(
      fc.property(decimals(1000, 900000, 1), decimals(0.01, 0.99), (mean, service) => {
        const z = normalQuantile(service);
        // Cornish and Fisher's expansion to the second term; the answer is rounded up to a whole number.
        expect(
          Math.abs(number('POISSONSTOCK', mean, service) - (mean + z * Math.sqrt(mean) + (z * z - 1) / 6)),
        ).toBeLessThan(1.1);
      }),
      { numRuns: 40 },
    );
  });
  test('grows with the mean and with the service', () => {
    fc.assert(
      fc.property(
        decimals(0, 200),
        decimals(0.01, 20),
        decimals(0.01, 0.9),
        decimals(0, 0.09),
        (mean, more, service, better) => {
          const stock = number('POISSONSTOCK', mean, service);
          expect(number('POISSONSTOCK', mean + more, service)).toBeGreaterThanOrEqual(stock);
          expect(number('POISSONSTOCK', mean, service + better)).toBeGreaterThanOrEqual(stock);
        },
      ),
    );
  });
  test('no use needs no stock', () => {
    expect(number('POISSONSTOCK', 0, 0.999)).toBe(0);
  });
});
