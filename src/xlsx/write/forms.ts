import { belts } from '../../../sheets/belts/index.ts';
import type { BeltInput } from '../../../sheets/belts/inputs.ts';
import { isoDate } from '../../units/dates.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { spelt } from '../../units/spelling.ts';
import { today } from '../../workbook/present-day.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import type { FormColumn, ListForm } from './list-form.ts';
import type { CheckedPair } from './row-check.ts';

/** Sheets for people without this program: a blank list for a site, and what to look at on a round. */

/** What a site can say of its belts, in the order in which it stands at the belt. */
const listed: readonly BeltInput[] = [
  'Belt',
  'Area',
  'Material',
  'Width',
  'Construction',
  'Thickness',
  'Top cover',
  'Smallest pulley',
  'Head pulley',
  'Tail pulley',
  'Pulley centres',
  'Lift',
  'Speed',
  'Power',
  'Capacity',
  'Wrap angle',
  'Drive pulley surface',
  'Drive pulley condition',
  'Take-up type',
  'Take-up travel',
  'Skew',
  'Plate series',
  'Skive depth',
  'Joints',
  'Installed',
  'Hours per year',
  'Joint life',
  'Service',
];

/** Without these hardly a check of a joint can be made. */
const needed: readonly BeltInput[] = ['Belt', 'Width', 'Construction', 'Smallest pulley', 'Pulley centres', 'Speed'];

const pairs: readonly (CheckedPair & { readonly column: BeltInput; readonly than: BeltInput })[] = [
  { column: 'Top cover', than: 'Thickness' },
  { column: 'Skive depth', than: 'Thickness' },
  { column: 'Smallest pulley', than: 'Head pulley', orEqual: true },
  { column: 'Smallest pulley', than: 'Tail pulley', orEqual: true },
  { column: 'Lift', than: 'Pulley centres', orEqual: true },
];

/** What is looked at on a round, and may be another than last time. */
const observed: readonly BeltInput[] = [
  'Thickness',
  'Top cover',
  'Drive pulley surface',
  'Drive pulley condition',
  'Take-up travel',
  'Plate series',
  'Joints',
  'Installed',
];
const identifying: readonly BeltInput[] = ['Belt', 'Area'];

/** What a round says beside its figures: columns of the book's own, once they come back. */
const remarks: readonly FormColumn[] = [
  { header: 'Inspected on', kind: 'date', doc: 'the day on which somebody looked at the belt' },
  { header: 'Inspected by', kind: 'text', doc: 'who looked' },
  { header: 'Inspection remark', kind: 'text', doc: 'anything more to say of the belt or its joints' },
];

function formColumn(header: BeltInput, rest: Partial<FormColumn> = {}): FormColumn {
  const column = belts.columns.find((one) => one.header === header);
  if (column === undefined) throw new Error(`there is no column ${header}`);
  return { header, kind: column.kind, doc: column.doc, column, ...rest };
}

const blankRows = 200;

/** A blank list of belts. */
export const blankList = (units: UnitSystem): ListForm => ({
  sheet: belts.name,
  title: 'List of belts',
  lines: [
    spelt(
      'One row per belt. Leave blank what is not known: nothing is guessed. Point at a header to see what it asks for.',
      units,
    ),
  ],
  columns: listed.map((header) => formColumn(header)),
  rows: [],
  room: blankRows,
  needed,
  pairs,
  key: belts.key,
  units,
  protect: false,
});

/** What the book holds of its belts, to be corrected on a round. */
export function roundSheet(book: Workbook, day = today()): ListForm {
  const series = book
    .sheet('Plate series')
    .rows.flatMap(({ cells: [name] }) => (typeof name === 'string' ? [name] : []));
  const columns = [
    ...identifying.map((header) => formColumn(header, { locked: true })),
    ...observed.map((header) => formColumn(header, header === 'Plate series' ? { words: series } : {})),
    ...remarks,
  ];
  const headers = book.columns(belts.name).map(({ header }) => header);
  const valueAt = (record: number, header: string): string | number | boolean | null => {
    const column = headers.indexOf(header);
    const value = column < 0 ? null : book.value({ sheet: belts.name, record, column });
    return typeof value === 'object' ? null : value;
  };
  return {
    sheet: belts.name,
    title:
      `Inspection round, ${book.state.title === '' ? 'belts' : book.state.title}, ` +
      `${day === undefined ? '' : isoDate(day)}`,
    lines: ['Write over what is another now, and leave the rest as it is. What you clear counts as not known.'],
    columns,
    rows: book.sheet(belts.name).rows.map((_, record) => columns.map(({ header }) => valueAt(record, header))),
    room: 0,
    needed: ['Belt'],
    pairs: pairs.filter(({ column, than }) =>
      [column, than].every((header) => columns.some((one) => one.header === header)),
    ),
    key: belts.key,
    units: book.units,
    protect: true,
  };
}
