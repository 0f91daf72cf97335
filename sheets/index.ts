import type { SheetDeclaration } from '../src/sheet/declaration.ts';
import { namedSheet, type NamedSheet } from '../src/sheet/named-values.ts';
import { areas } from './work/areas.ts';
import { assumptionValues } from './values/assumptions.ts';
import { belts } from './belts/index.ts';
import { crews } from './work/crews.ts';
import { offers } from './buying/offers.ts';
import { outageJobs } from './work/outage-jobs.ts';
import { plateSeries } from './series/plate-series.ts';
import { pulleys } from './series/pulleys.ts';
import { shelf } from './buying/shelf.ts';
import { steps } from './work/steps.ts';
import { strips } from './series/strips.ts';
import { suppliers } from './buying/suppliers.ts';
import { tableValues } from './values/tables.ts';
import { unitValues } from './values/units.ts';
import { windows } from './work/windows.ts';

/** The sheets of records, in the order of their tabs. */
export const recordSheets: readonly SheetDeclaration[] = [
  belts,
  pulleys,
  plateSeries,
  strips,
  suppliers,
  offers,
  shelf,
  steps,
  crews,
  windows,
  areas,
  outageJobs,
];

/** The sheets of named values, after them. */
export const namedSheets: readonly NamedSheet[] = [
  namedSheet(
    'Assumptions',
    'Named values the whole book uses; change one and every belt follows',
    assumptionValues,
    true,
  ),
  namedSheet(
    'Tables',
    'Printed tables that the book reads, a figure a row; change one and every belt follows',
    tableValues,
    true,
  ),
  namedSheet(
    'Units',
    'What turns one kind of quantity into another; set by the unit system of the book',
    unitValues,
    false,
  ),
];

export const declarations: readonly SheetDeclaration[] = [
  ...recordSheets,
  ...namedSheets.map(({ declaration }) => declaration),
];
