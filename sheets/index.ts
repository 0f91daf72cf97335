import type { HeaderIn, NameIn, SheetDeclaration } from '../src/sheet/declaration.ts';
import { namedSheet, type NamedSheet } from '../src/sheet/named-values.ts';
import { areas } from './work/areas.ts';
import { assumptionValues } from './values/assumptions.ts';
import { belts } from './belts/index.ts';
import { crews } from './work/crews.ts';
import { offers } from './buying/offers.ts';
import { orders } from './buying/orders.ts';
import { priceHistory } from './buying/price-history.ts';
import { outageJobs } from './work/outage-jobs.ts';
import { plateSeries } from './series/plate-series.ts';
import { pulleys } from './series/pulleys.ts';
import { shelf } from './buying/shelf.ts';
import { sites } from './buying/sites.ts';
import { steps } from './work/steps.ts';
import { strips } from './series/strips.ts';
import { suppliers } from './buying/suppliers.ts';
import { tableValues } from './values/tables.ts';
import { unitValues } from './values/units.ts';
import { windows } from './work/windows.ts';

const declaredRecords = [
  belts,
  pulleys,
  plateSeries,
  strips,
  suppliers,
  offers,
  shelf,
  orders,
  priceHistory,
  sites,
  steps,
  crews,
  windows,
  areas,
  outageJobs,
] as const;

const declaredNames = [
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
] as const;

/** The sheets of records, in the order of their tabs. */
export const recordSheets: readonly SheetDeclaration[] = declaredRecords;

/** The sheets of named values, after them. */
export const namedSheets: readonly NamedSheet[] = declaredNames;

export const declarations: readonly SheetDeclaration[] = [
  ...recordSheets,
  ...namedSheets.map(({ declaration }) => declaration),
];

type Declared = (typeof declaredRecords)[number] | (typeof declaredNames)[number]['declaration'];

/** Each declared sheet's headers, by its name. For tests: types are held to the declarations. */
export type SheetHeaders = { readonly [Sheet in Declared as Sheet['name']]: HeaderIn<Sheet> };

/** The name of a declared sheet; a book's other sheets are the user's, and their names are any text. */
export type SheetName = keyof SheetHeaders;

/** The headers of a declared sheet; those of users' own columns are any text. */
export type HeaderOf<Sheet extends SheetName> = SheetHeaders[Sheet];

/** A header of any declared sheet. */
export type AnyHeader = HeaderOf<SheetName>;

export type BeltHeader = HeaderOf<'Belts'>;
export type SeriesHeader = HeaderOf<'Plate series'>;
export type PulleyHeader = HeaderOf<'Pulleys'>;

/** The name of a value of the sheet Assumptions. */
export type AssumptionName = NameIn<typeof assumptionValues>;

/** The name of a declared named value; users may add others to Assumptions and Tables. */
export type ValueName = NameIn<(typeof declaredNames)[number]['values']>;
