import { groupedText } from '../units/shown-mark.ts';
import { counted } from '../units/phrases.ts';
import type { Table } from '../sheet/table.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { quantile } from '../what-if/quantiles.ts';
import {
  axisLabel,
  beltColumnNamed,
  beltFigures,
  cellOf,
  figureWords,
  leftOutWords,
  namesOf,
  numberAxis,
  tableColumn,
} from './belt-figures.ts';
import { type BinsWanted, type CountedBin, countedBins } from './counted-bins.ts';
import type { Bin, PictureOf } from './picture.ts';

/** How figures are spread over the belts, and over draws by chance, with quantiles. */

type BinPicture = PictureOf<'bins'>;

/** Bins about: some dozens of belts show a shape in few, thousands of draws do not run together in many. */
const [fewBins, manyBins] = [12, 30];
/** Numbers from which many bins are drawn. */
const many = 400;

const quantiles = [
  { share: 0.05, name: '5 of 100 below' },
  { share: 0.5, name: 'middle' },
  { share: 0.95, name: '95 of 100 below' },
] as const;

/** Quantiles of a few numbers say little, so only their middle is marked. */
const fewest = 20;

interface Told {
  readonly id: string;
  readonly title: string;
  readonly of: string;
  readonly leftOut: string;
  /** The words of a bin: how many of what lie in it. */
  readonly counted: (bin: CountedBin) => string;
  readonly records: (bin: CountedBin) => readonly number[];
}

function marksOf(values: readonly number[]): { readonly at: number; readonly name: string }[] {
  const ascending = Float64Array.from(values).sort();
  return quantiles.flatMap(({ share, name }) =>
    ascending.length === 0 || (ascending.length < fewest && share !== 0.5)
      ? []
      : [{ at: quantile(ascending, share), name }],
  );
}

function binTable(column: BookColumn, book: Workbook, title: string, bins: readonly CountedBin[], what: string): Table {
  const shown = tableColumn(column, book.units);
  return {
    name: title,
    keys: 2,
    columns: [
      { ...shown, header: `${shown.header}, from` },
      { ...shown, header: 'to below' },
      { header: what, kind: 'count' },
    ],
    rows: bins.map(({ from, to, members }) => [from, to, members.length]),
  };
}

function binPicture(
  book: Workbook,
  column: BookColumn,
  values: readonly number[],
  told: Told,
  wanted: BinsWanted,
): BinPicture {
  const bins = countedBins(values, wanted);
  const marks = marksOf(values);
  const words = (value: number): string => figureWords(column, value, book.units);
  return {
    id: told.id,
    of: 'bins',
    title: told.title,
    says:
      values.length === 0
        ? `No ${told.of.replace(/s$/, '')} has a number here.`
        : `${counted(values.length, told.of.replace(/s$/, ''))}: ${marks
            .map(({ at, name }) => `${name} ${words(at)}`)
            .join(', ')}.`,
    leftOut: told.leftOut,
    x: numberAxis(column, book.units),
    counts: { label: told.of === 'belts' ? 'Belts' : 'Draws', scale: 'number', whole: true },
    marks,
    parts: bins.flatMap((bin, place): Bin[] =>
      bin.members.length === 0
        ? []
        : [
            {
              says: `${words(bin.from)} to ${words(bin.to)}: ${told.counted(bin)}`,
              records: told.records(bin),
              at: [place, 0],
              from: bin.from,
              to: bin.to,
              count: bin.members.length,
              tone: 'plain',
            },
          ],
    ),
    table: binTable(column, book, told.title, bins, told.of === 'belts' ? 'Belts' : 'Draws'),
  };
}

/** How a column of numbers is spread over the belts. */
export function beltHistogram(book: Workbook, column: BookColumn): BinPicture {
  const { known, unknown } = beltFigures(book, column);
  const records = (bin: CountedBin): number[] => bin.members.flatMap((place) => known[place]?.record ?? []);
  return binPicture(
    book,
    column,
    known.map(({ value }) => value),
    {
      id: 'spread',
      title: `${axisLabel(column, book.units)} over the belts`,
      of: 'belts',
      leftOut: leftOutWords(book, unknown, `${column.header} is no number`),
      records,
      counted: (bin) => `${counted(bin.members.length, 'belt')} (${namesOf(book, records(bin))})`,
    },
    { about: known.length >= many ? manyBins : fewBins, whole: column.kind === 'count' },
  );
}

/** How a column of a belt is spread over draws by chance of what is not known exactly. */
export function drawnHistogram(
  book: Workbook,
  column: BookColumn,
  belt: { readonly name: string; readonly record: number },
  drawn: { readonly figures: readonly number[]; readonly draws: number },
): BinPicture {
  const { figures, draws } = drawn;
  const missing = draws - figures.length;
  return binPicture(
    book,
    column,
    figures,
    {
      id: 'draws',
      title: `${axisLabel(column, book.units)} of ${belt.name}, drawn by chance`,
      of: 'draws',
      leftOut: missing === 0 ? '' : `Left out: ${counted(missing, 'draw')} in which ${column.header} is no number.`,
      records: () => [belt.record],
      counted: (bin) => `${counted(bin.members.length, 'draw')} of ${groupedText(draws)}`,
    },
    { about: manyBins, whole: column.kind === 'count' },
  );
}

/** Tenths of what is allowed. */
const tenth = 0.1;
/** Shares beyond are counted with the last bin, so that one wrong figure does not press all others together. */
const mostShare = 2;
/** A share that counts as none, as in the checks: far below any measure. */
const atLimit = 1e-9;

/** How much of a limit the belts use: what is beyond the whole of it fails. */
function usedPicture(
  book: Workbook,
  { id, title, limit }: { readonly id: string; readonly title: string; readonly limit: string },
  known: readonly { readonly record: number; readonly value: number }[],
  leftOut: string,
): BinPicture {
  const percent = (value: number): string => `${Math.round(value * 100)} %`;
  const bins = countedBins(
    // What is used to the full is not beyond the limit, and a bin holds its beginning.
    known.map(({ value }) => Math.max(0, Math.min(value, mostShare) - atLimit)),
    { about: fewBins, width: tenth },
  );
  const over = known.filter(({ value }) => value > 1).length;
  const recordsOf = (bin: CountedBin): number[] => bin.members.flatMap((place) => known[place]?.record ?? []);
  const end = (bin: CountedBin): string => (bin.to >= mostShare ? ' and more' : ` to ${percent(bin.to)}`);
  return {
    id,
    of: 'bins',
    title,
    says: known.length === 0 ? 'Not known of any belt.' : `Over ${limit}: ${over} of ${counted(known.length, 'belt')}.`,
    leftOut,
    x: { label: `${title} (%)`, scale: 'percent' },
    counts: { label: 'Belts', scale: 'number', whole: true },
    marks: known.length === 0 ? [] : [{ at: 1, name: 'limit' }],
    parts: bins.flatMap((bin, place): Bin[] => {
      const records = recordsOf(bin);
      return records.length === 0
        ? []
        : [
            {
              says: `${percent(bin.from)}${end(bin)}: ${counted(records.length, 'belt')} (${namesOf(book, records)})`,
              records,
              at: [place, 0],
              from: bin.from,
              to: bin.to,
              count: records.length,
              tone: bin.from >= 1 - tenth / 2 ? 'over' : 'plain',
            },
          ];
    }),
    table: {
      name: title,
      keys: 2,
      columns: [
        { header: 'From', kind: 'ratio', percent: true, digits: 0 },
        { header: 'to below', kind: 'ratio', percent: true, digits: 0 },
        { header: 'Belts', kind: 'count' },
        { header: 'Which', kind: 'text' },
      ],
      rows: bins.map((bin) => [bin.from, bin.to, bin.members.length, namesOf(book, recordsOf(bin))]),
    },
  };
}

const declaredColumn = (
  book: Workbook,
  header: 'Rating used' | 'Joint minimum pulley' | 'Critical pulley',
): BookColumn => {
  const column = beltColumnNamed(book, header);
  if (column === undefined) throw new Error(`the sheet Belts has no column ${header}`);
  return column;
};

/** Working tension over the rating of the plate series. */
export function ratingUsed(book: Workbook): BinPicture {
  const { known, unknown } = beltFigures(book, declaredColumn(book, 'Rating used'));
  return usedPicture(
    book,
    { id: 'rating', title: 'Rating used', limit: "their series' rating" },
    known,
    leftOutWords(book, unknown, 'Rating used is not known'),
  );
}

/** Minimum pulley of the joint over the pulley that it has to pass. */
export function pulleyUsed(book: Workbook): BinPicture {
  const minimum = beltFigures(book, declaredColumn(book, 'Joint minimum pulley'));
  const critical = declaredColumn(book, 'Critical pulley');
  const shares = minimum.known.map(({ record, value }) => {
    const pulley = cellOf(book, record, critical);
    return { record, value: typeof pulley === 'number' && pulley > 0 ? value / pulley : NaN };
  });
  const known = shares.filter(({ value }) => Number.isFinite(value));
  const without = shares.filter(({ value }) => !Number.isFinite(value)).map(({ record }) => record);
  return usedPicture(
    book,
    { id: 'pulley', title: 'Pulley used', limit: 'what their pulley allows' },
    known,
    leftOutWords(book, [...minimum.unknown, ...without], 'Joint minimum pulley or Critical pulley is not known'),
  );
}
