import { expect, test } from 'vitest';
import { actions } from '../../src/page/actions/index.ts';

test('no two actions have the same key', () => {
  const keys = actions.flatMap(({ key }) => key ?? []);
  expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
});
