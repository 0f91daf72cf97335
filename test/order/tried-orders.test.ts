import { expect, test } from 'vitest';
import { triedOrder } from '../oracles/tried-orders.ts';
import { solving } from './search/solving.ts';

test('an order costs what trying every number of packs finds, whatever suppliers ask', async () => {
  const solver = await solving();
  const wrong = Array.from({ length: 12 }, (_, seed) => triedOrder(seed + 1, solver)).filter(
    (difference) => difference !== undefined,
  );
  expect(wrong).toEqual([]);
}, 60_000);
