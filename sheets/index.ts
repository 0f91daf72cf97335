import type { SheetDeclaration } from '../src/sheet/declaration.ts';
import { namedSheet, type NamedSheet } from '../src/sheet/named-values.ts';
import { areas } from './areas.ts';
import { assumptionValues } from './assumptions.ts';
import { belts } from './belts.ts';
import { crews } from './crews.ts';
import { offers } from './offers.ts';
import { outageJobs } from './outage-jobs.ts';
import { plateSeries } from './plate-series.ts';
import { pulleys } from './pulleys.ts';
import { shelf } from './shelf.ts';
import { steps } from './steps.ts';
import { strips } from './strips.ts';
import { suppliers } from './suppliers.ts';
import { tableValues } from './tables.ts';
import { unitValues } from './units.ts';
import { windows } from './windows.ts';

/** The sheets of records, in the order of their tabs. */
export const recordSheets: readonly SheetDeclaration[] = [belts, pulleys, plateSeries, strips, suppliers, offers, shelf, steps, crews, windows, areas, outageJobs];

/** The sheets of named values, after them. */
export const namedSheets: readonly NamedSheet[] = [
  namedSheet('Assumptions', 'Named values the whole book uses; change one and every belt follows', assumptionValues, true),
  namedSheet('Tables', 'Printed tables that the book reads, a figure a row; change one and every belt follows', tableValues, true),
  namedSheet('Units', 'What turns one kind of quantity into another; set by the unit system of the book', unitValues, false),
];

export const declarations: readonly SheetDeclaration[] = [...recordSheets, ...namedSheets.map(({ declaration }) => declaration)];
