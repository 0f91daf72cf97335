import { belts } from '../../sheets/belts/index.ts';
import { type BeltHeader, namedSheets, type ValueName } from '../../sheets/index.ts';
import type { Belt } from '../records/belt.ts';
import { isComputed } from '../sheet/declaration.ts';
import { listed } from '../sheet/words.ts';
import { nearest } from '../units/nearest.ts';
import type { QuantityKind } from '../units/quantities.ts';
import { columnNamed } from '../workbook/declared.ts';
import { columnDependents, nameDependents } from '../workbook/dependence.ts';
import { BookNames } from '../workbook/names.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { cellFactor, plateFactors, pulleyFactors, seriesFactors } from './cell-factors.ts';
import type { Factor } from './factor.ts';
import { ChangeRefused, namedPlaces } from './typed-change.ts';

/** The factors of a book and of a belt, and the one that somebody names. */

const beltsOnly = (followers: readonly { readonly sheet: string; readonly column: number }[]): ReadonlySet<number> =>
  new Set(followers.flatMap(({ sheet, column }) => (sheet === belts.name ? [column] : [])));

function inputFactor(header: BeltHeader, column: number, kind: QuantityKind): Factor {
  return {
    name: header,
    kind,
    of: 'belt',
    place: ({ record }) => ({ sheet: belts.name, record, column }),
    change: (value) => ({ inputs: { [header]: value } }),
    columns: beltsOnly(columnDependents(belts.name, column)),
  };
}

const inputs: readonly Factor[] = belts.columns.flatMap((column, position) =>
  isComputed(column) ? [] : [inputFactor(column.header, position, column.kind)],
);

/** Units are what they are, and a review date is a day, so neither is tried. */
const named: readonly { readonly name: ValueName; readonly kind: QuantityKind }[] = namedSheets.flatMap(
  ({ values, editable }) =>
    editable
      ? // The list of all sheets forgets the names that its parts declare.
        values.flatMap(({ name, kind }) => (kind === 'date' ? [] : [{ name: name as ValueName, kind }]))
      : [],
);

/** The factors of a book; named values that the user has taken out of it are none. */
export function factorsOf(book: Workbook): readonly Factor[] {
  const places = new Map(new BookNames(book.state).places.map((place) => [place.name, place] as const));
  return [
    ...inputs,
    ...named.flatMap(({ name, kind }): Factor[] => {
      const place = places.get(name);
      if (place === undefined) return [];
      const { sheet, record, column } = place;
      return [
        {
          name,
          kind,
          of: 'book',
          place: () => ({ sheet, record, column }),
          change: (value) => ({ named: { [name]: value } }),
          columns: beltsOnly(nameDependents(name)),
        },
      ];
    }),
  ];
}

/** What all belts share: named values, figures of plates. */
export const sharedFactors = (book: Workbook): readonly Factor[] => [
  ...factorsOf(book).filter(({ of }) => of === 'book'),
  ...seriesFactors(book),
];

/** What a belt has of its own: its inputs, figures of its pulleys. */
export const beltFactors = (belt: Belt): readonly Factor[] => [...inputs, ...pulleyFactors(belt)];

/** All that a belt follows from. */
export const factorsFor = (belt: Belt): readonly Factor[] => [
  ...factorsOf(belt.book),
  ...plateFactors(belt),
  ...pulleyFactors(belt),
];

/** The one cell of another sheet that is typed as "Plate series!Lapwing:Pitch". */
function typedCell(book: Workbook, typed: string): Factor {
  const places = namedPlaces(book, typed);
  const [place] = places;
  if (place === undefined || places.length > 1)
    throw new ChangeRefused(`"${typed}" names ${places.length} cells. Name one of them to vary it.`);
  const header = book.columnAt(place)?.header ?? '';
  if (place.sheet === belts.name)
    throw new ChangeRefused(`An input of the belt itself is named by its column alone: ${header}.`);
  const found = cellFactor(book, place);
  if (found !== undefined) return found;
  throw new ChangeRefused(
    book.columnAt(place)?.computed === true
      ? `${typed} is calculated, so it cannot be varied. Name an input.`
      : `No belt follows from ${typed}. Name another figure.`,
  );
}

/** The factor of a name, or of a cell of another sheet, as people type it. Throws ChangeRefused where there is none. */
export function factorNamed(book: Workbook, typed: string): Factor {
  const all = factorsOf(book);
  const column = columnNamed(book.sheet(belts.name), typed.trim());
  const header = column === undefined ? undefined : belts.columns[column]?.header;
  const found =
    all.find(({ name }) => name === header) ??
    all.find(({ name }) => name.toLowerCase() === typed.trim().toLowerCase());
  if (found !== undefined) return found;
  if (header !== undefined)
    throw new ChangeRefused(`${header} is calculated, so it cannot be varied. Name an input or a named value.`);
  if (typed.includes(':')) return typedCell(book, typed);
  const near = nearest(
    typed,
    all.map(({ name }) => name),
  );
  throw new ChangeRefused(
    `There is no input and no named value ` +
      `"${typed}".${near.length === 0 ? '' : ` Did you mean ` + `${listed(near, 'or')}?`}`,
  );
}
