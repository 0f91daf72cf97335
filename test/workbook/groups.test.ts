import { expect, test } from 'vitest';
import { beltGroups } from '../../sheets/belts/groups.ts';
import { belts } from '../../sheets/belts/index.ts';

test('every column but the name of the belt stands in one group', () => {
  const grouped = beltGroups.flatMap(({ headers }) => headers);
  expect(grouped.toSorted()).toEqual(
    belts.columns
      .map(({ header }) => header)
      .filter((header) => header !== belts.key)
      .toSorted(),
  );
});
