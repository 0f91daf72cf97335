import { belts } from '../../sheets/belts/index.ts';
import { type CheckHeader, checkColumns } from '../../sheets/belts/check-columns.ts';
import { type Verdict, verdictOf } from '../functions/checks.ts';
import { Belt, beltTitle } from '../records/belt.ts';
import { listed } from '../sheet/words.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { ChangeRefused } from '../what-if/typed-change.ts';
import type { MapCell, PictureOf } from './picture.ts';
import { combined, type TriedValues, triedValues, type TypedRange } from './tried-values.ts';
import { verdictOrder } from './verdict-marks.ts';

/** The verdict of a belt over two inputs or named values that change together. */

export interface MapAsked {
  readonly record: number;
  readonly header: CheckHeader | 'Verdict';
  readonly across: TypedRange;
  readonly upward: TypedRange;
}

interface MappedCell {
  readonly verdict: Verdict;
  /** The words of the checks because of which Verdict is what it is; none where it fits. */
  readonly because: readonly string[];
}

export interface VerdictMap {
  readonly asked: MapAsked;
  readonly across: TriedValues;
  readonly upward: TriedValues;
  /** Row by row, the first value upwards first. */
  readonly cells: readonly (readonly MappedCell[])[];
}

/** Values that are tried at most: so many cells can still be told apart, and read one by one. */
const [mostAcross, mostUpward] = [41, 25];

/** Works it out cell by cell and yields the share that is done. Throws ChangeRefused for what can't be asked. */
export function* verdictMap(book: Workbook, asked: MapAsked): Generator<number, VerdictMap> {
  const belt = new Belt(book, asked.record);
  const [one, other] = [triedValues(belt, asked.across, mostAcross), triedValues(belt, asked.upward, mostUpward)];
  if (one.factor.name === other.factor.name)
    throw new ChangeRefused(`${one.factor.name} is on both axes: choose two different inputs.`);
  const position = book.column(belts.name, asked.header);
  const checks = checkColumns.map(({ header, word }) => ({ word, column: book.column(belts.name, header) }));
  const cells: MappedCell[][] = [];
  for (const [place, up] of other.tried.values.entries()) {
    const row: MappedCell[] = [];
    for (const along of one.tried.values) {
      const {
        inputs = {},
        named = {},
        cells: others = [],
      } = combined(belt, [
        [one.factor, along],
        [other.factor, up],
      ]);
      const wanted = asked.header === 'Verdict' ? {} : { wanted: asked.header };
      const values = book.whatIf(belts.name, asked.record, inputs, { named, cells: others, ...wanted });
      const verdict = verdictOf(values[position]);
      const because =
        asked.header === 'Verdict' && verdict !== 'fits'
          ? checks.flatMap(({ word, column }) => (verdictOf(values[column]) === verdict ? [word] : []))
          : [];
      row.push({ verdict, because });
    }
    cells.push(row);
    yield (place + 1) / other.tried.values.length;
  }
  return { asked, across: one.tried, upward: other.tried, cells };
}

/** The value that was tried nearest to the present one; undefined where that lies outside of the range. */
function presentPlace({ values, chosen, present }: TriedValues): number | undefined {
  if (chosen || typeof present !== 'number') {
    const at = values.indexOf(present ?? '');
    return at < 0 ? undefined : at;
  }
  const numbers = values.filter((value) => typeof value === 'number');
  const [first = Infinity, last = -Infinity] = [numbers[0], numbers.at(-1)];
  if (present < first || present > last) return undefined;
  return numbers.reduce(
    (best, value, place) =>
      Math.abs(value - present) < Math.abs((numbers[best] ?? Infinity) - present) ? place : best,
    0,
  );
}

const enteredAt = (
  { name, values, words }: TriedValues,
  place: number,
): { readonly name: string; readonly value: number | string; readonly words: string } => ({
  name,
  value: values[place] ?? '',
  words: words[place] ?? '',
});

export function mapPicture(book: Workbook, { asked, across, upward, cells }: VerdictMap): PictureOf<'map'> {
  const belt = new Belt(book, asked.record);
  const name = belt.name || beltTitle('').toLowerCase();
  const parts = cells.flatMap((row, y) =>
    row.map(({ verdict, because }, x): MapCell => ({
      says:
        `${across.name} ${across.words[x] ?? ''}, ${upward.name} ${upward.words[y] ?? ''}: ${verdict}` +
        `${because.length === 0 ? '' : ` (${listed(because)})`}`,
      records: [asked.record],
      at: [x, y],
      x,
      y,
      verdict,
      entered: [enteredAt(across, x), enteredAt(upward, y)],
    })),
  );
  const counts = verdictOrder.flatMap((verdict) => {
    const count = parts.filter((part) => part.verdict === verdict).length;
    return count === 0 ? [] : [`${verdict}: ${count}`];
  });
  const [x, y] = [presentPlace(across), presentPlace(upward)];
  const title = `${asked.header} of ${name} over ${across.label} and ${upward.label}`;
  return {
    id: 'map',
    of: 'map',
    title,
    says: `${parts.length} pairs of values; ${counts.join(', ')}. Now: ${belt.verdict(asked.header)}.`,
    leftOut: '',
    x: { label: across.label, scale: 'names', names: across.words },
    y: { label: upward.label, scale: 'names', names: upward.words },
    present: x === undefined || y === undefined ? undefined : [x, y],
    tones: verdictOrder.filter((verdict) => parts.some((part) => part.verdict === verdict)),
    parts,
    table: {
      name: title,
      keys: 1,
      columns: [
        { header: `${upward.label}, then by ${across.label}`, kind: 'text' },
        ...across.words.map((word) => ({ header: word, kind: 'text' as const })),
      ],
      // As it is drawn: what lies above comes first.
      rows: upward.words
        .map((word, place) => [word, ...(cells[place] ?? []).map(({ verdict }) => verdict)])
        .toReversed(),
    },
  };
}
