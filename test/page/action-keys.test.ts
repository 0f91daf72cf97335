import { expect, test } from 'vitest';
import { actions } from '../../src/page/actions/index.ts';

test('no key stands for two commands', () => {
  const keys = actions.flatMap(({ key }) => (key === undefined ? [] : [key]));
  expect(keys.length).toBeGreaterThan(20);
  expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
});
