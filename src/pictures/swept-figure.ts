import type { BeltHeader } from '../../sheets/index.ts';
import { Belt, beltColumn, beltTitle } from '../records/belt.ts';
import { amount } from '../sheet/words.ts';
import { isWords } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { factorNamed } from '../what-if/known-factors.ts';
import { figureAt } from '../what-if/solved-belt.ts';
import { ChangeRefused } from '../what-if/typed-change.ts';
import { variantBook, variantNamed } from '../what-if/variants.ts';
import { axisLabel, beltColumnNamed, numberAxis, tableColumn } from './belt-figures.ts';
import type { Axis, LinePoint, PictureOf } from './picture.ts';
import { type TriedValues, triedValues, type TypedRange } from './tried-values.ts';

/** A figure of a belt while one input or named value changes, in the book as it is and in variants of it. */

export interface SweepAsked {
  readonly record: number;
  readonly header: BeltHeader;
  readonly range: TypedRange;
  /** Names of variants. */
  readonly variants: readonly string[];
}

export interface SweptFigure {
  readonly asked: SweepAsked;
  readonly tried: TriedValues;
  /** A line for the book as it is and for each variant: what the figure comes to; null where it is no number. */
  readonly lines: readonly { readonly name: string; readonly figures: readonly (number | null)[] }[];
  /** Why a variant has no line. */
  readonly refused: readonly string[];
}

/** Values that are tried: so many that a curve looks like one. */
const mostTried = 121;
/** For tests: the first line is named. */
export const asItIs = 'book as it is';

/**
 * Works it out value by value and yields the share that is done. Throws ChangeRefused for what can't be asked; a
 * variant that can't be made is told.
 */
export function* sweptFigure(book: Workbook, asked: SweepAsked): Generator<number, SweptFigure> {
  const { record, header, range, variants } = asked;
  if (isWords(beltColumn(header).kind))
    throw new ChangeRefused(`${header} holds words: a verdict over two inputs is shown by the verdict map.`);
  const { factor, tried } = triedValues(new Belt(book, record), range, mostTried);
  const lines: { readonly name: string; readonly figures: readonly (number | null)[] }[] = [];
  const refused: string[] = [];
  const count = (variants.length + 1) * tried.values.length;
  for (const [place, name] of [asItIs, ...variants].entries()) {
    let other: Workbook | undefined;
    try {
      other = place === 0 ? undefined : variantBook(book, variantNamed(book, name));
    } catch (error) {
      if (!(error instanceof ChangeRefused)) throw error;
      refused.push(error.message);
      continue;
    }
    const there = other ?? book;
    const belt = new Belt(there, record);
    const figure = figureAt(belt, other === undefined ? factor : factorNamed(there, factor.name), { header });
    const figures: (number | null)[] = [];
    for (const [index, value] of tried.values.entries()) {
      const found = figure(value);
      figures.push(typeof found === 'number' && Number.isFinite(found) ? found : null);
      yield (place * tried.values.length + index + 1) / count;
    }
    lines.push({ name, figures });
    other?.destroy();
  }
  return { asked, tried, lines, refused };
}

function triedAxis({ label, kind, chosen, words }: TriedValues): Axis {
  if (chosen) return { label, scale: 'names', names: words };
  return { label, scale: kind === 'date' ? 'date' : 'number', ...(kind === 'count' ? { whole: true as const } : {}) };
}

/** Points of a line, in runs between the values at which the figure is not known. */
function points(book: Workbook, { asked, tried, lines }: SweptFigure, lineAt: number): LinePoint[] {
  const line = lines[lineAt];
  let run = 0;
  return (line?.figures ?? []).flatMap((figure, place): LinePoint[] => {
    if (figure === null) {
      run += 1;
      return [];
    }
    const value = tried.values[place];
    const shown = amount(figure, beltColumn(asked.header), book.units);
    return [
      {
        says: `${lines.length > 1 ? `${line?.name ?? ''}, ` : ''}${tried.name} ${tried.words[place] ?? ''}: ${shown}`,
        records: [asked.record],
        at: [place, lines.length - lineAt],
        x: tried.chosen || typeof value !== 'number' ? place : value,
        y: figure,
        line: lineAt,
        run,
        // Of a variant it would take the variant, too.
        ...(lineAt > 0 || value === undefined
          ? {}
          : { entered: [{ name: tried.name, value, words: tried.words[place] ?? '' }] }),
      },
    ];
  });
}

export function sweptPicture(book: Workbook, swept: SweptFigure): PictureOf<'lines'> {
  const { asked, tried, lines, refused } = swept;
  const column = beltColumnNamed(book, asked.header);
  if (column === undefined) throw new Error(`the sheet Belts has no column ${asked.header}`);
  const belt = new Belt(book, asked.record);
  const parts = lines.flatMap((_, place) => points(book, swept, place));
  const unknown = lines.reduce((sum, { figures }) => sum + figures.filter((figure) => figure === null).length, 0);
  const title = `${axisLabel(column, book.units)} of ${belt.name || beltTitle('').toLowerCase()} over ${tried.label}`;
  const present =
    !tried.chosen && typeof tried.present === 'number' ? tried.present : tried.values.indexOf(tried.present ?? '');
  const [first, last] = [tried.words[0] ?? '', tried.words.at(-1) ?? ''];
  return {
    id: 'sweep',
    of: 'lines',
    title,
    says:
      parts.length === 0
        ? `${asked.header} is not known at any value that was tried.`
        : `${tried.values.length} values${tried.chosen ? '' : `, from ${first} to ${last}`}; now ` +
          `${asked.header} is ${belt.shown(asked.header)}.`,
    leftOut: [
      ...(unknown === 0 ? [] : [`Left out: ${unknown} values at which ${asked.header} is not known.`]),
      ...refused,
    ].join(' '),
    x: triedAxis(tried),
    y: numberAxis(column, book.units),
    names: lines.map(({ name }) => name),
    present: tried.present === undefined || (tried.chosen && present < 0) ? undefined : present,
    parts,
    table: {
      name: title,
      keys: 1,
      columns: [
        { header: tried.label, kind: tried.chosen ? 'text' : tried.kind, digits: 6 },
        ...lines.map(({ name }) => ({
          ...tableColumn(column, book.units),
          ...(lines.length > 1 ? { header: name } : {}),
        })),
      ],
      rows: tried.values.map((value, place) => [value, ...lines.map(({ figures }) => figures[place] ?? null)]),
    },
  };
}
