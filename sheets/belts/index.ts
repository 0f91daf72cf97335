import { declareSheet } from '../../src/sheet/declaration.ts';
import { withNames } from '../also-called.ts';
import { verdictColumns } from './check-columns.ts';
import { beltChecks } from './checks/index.ts';
import { figureColumns } from './figures.ts';
import { beltNames } from './names.ts';

/** The fleet: one row a belt, inputs first, what the book works out after them. */
export const belts = declareSheet({
  name: 'Belts',
  purpose: 'The fleet, one row per belt: your data on the left, the results for each joint (splice) on the right',
  record: 'belt',
  key: 'Belt',
  columns: withNames([...figureColumns, ...verdictColumns(beltChecks)], beltNames),
});
