import { expect, test } from 'vitest';
import { replacedCuts } from '../oracles/replaced-cuts.ts';
import { solving } from './search/solving.ts';

test('cutting and order agree in rolls and cost: each cut lies on a roll there is, comes or is bought', async () => {
  const solver = await solving();
  const wrong = [];
  for (let seed = 1; seed <= 4; seed += 1) wrong.push(...(await replacedCuts(seed, solver)));
  expect(wrong).toEqual([]);
}, 60_000);
