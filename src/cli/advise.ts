import {
  beltPulleys,
  cheapest,
  ownJoint,
  presentText,
  pulleyText,
  rangesText,
  reachedText,
  type SeriesSkews,
  seriesSkews,
  whyNone,
} from '../advice/belt-skews.ts';
import { figureColumns, pulleyColumn, seriesNames } from '../advice/skew-question.ts';
import { beltColumn } from '../records/belt.ts';
import { amount, listed, withUnit } from '../sheet/words.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { unitOf } from '../units/quantities.ts';
import { deferrals } from '../workbook/safety.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { aligned } from './aligned.ts';
import type { Given } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { FileError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** A figure as its column shows it, its unit left to the head of the table. */
function figure(book: Workbook, header: BeltHeader, value: number | undefined): string {
  if (value === undefined) return '?';
  const { digits = 0 } = beltColumn(header);
  return value.toFixed(typeof digits === 'object' ? digits[book.units] : digits);
}

const signed = (text: string): string => (text.startsWith('-') ? text : `+${text}`);

const headed = (book: Workbook, header: BeltHeader): string => {
  const unit = unitOf(beltColumn(header).kind, book.units);
  return unit === '' ? header : `${header} (${unit})`;
};

/** What the advisor says of a belt: a row for each series that passes at some skew, a line for each that does not. */
function adviceLines(
  book: Workbook,
  belt: string,
  own: ReturnType<typeof ownJoint>,
  all: readonly SeriesSkews[],
): string[] {
  const passing = all.flatMap((one) => (one.least === undefined ? [] : [{ ...one, least: one.least }]));
  const rows = passing.map(({ series, least }) => [
    series,
    `${least.skew}°`,
    least.tight.length === 0 ? 'fits' : `tight: ${least.tight.join(', ')}`,
    ...figureColumns.map((header) => {
      const more = least.extra[header];
      return (
        `${figure(book, header, least.figures[header])}` +
        `${more === undefined ? '' : ` (${signed(figure(book, header, more))})`}`
      );
    }),
  ]);
  const best = cheapest(all);
  const size = (diameter: number): string => amount(diameter, beltColumn(pulleyColumn), book.units);
  return [
    `${belt}, now ${own.skew === undefined ? 'without a skew' : withUnit(String(own.skew), '°')}, ` +
      `${own.series === '' ? 'without a plate ' + 'series' : own.series}`,
    ...(rows.length === 0
      ? []
      : aligned([
          ['Series', 'Minimum skew', 'Verdict', ...figureColumns.map((header) => headed(book, header))],
          ...rows,
        ])),
    ...(rows.length === 0 ? [] : ['In brackets: difference from the square joint of the same series.']),
    ...(best === undefined || passing.length < 2 ? [] : [`Cheapest: ${best}.`]),
    ...passing.map(({ series, passes, least, hindrances }) => {
      const why = least.skew === 0 ? [] : hindrances.map(({ check }) => check);
      return (
        `${series} passes ` +
        `${rangesText(passes)}${why.length === 0 ? '' : `; the square joint fails ` + `${listed(why)}`}.`
      );
    }),
    ...all
      .filter(({ least }) => least === undefined)
      .map(({ series, hindrances }) => `${series}: no skew passes; ${whyNone(hindrances)}.`),
    ...passing.flatMap(({ series, pulleys }) =>
      pulleys.length === 0
        ? []
        : [
            `${series} runs over: ${listed(
              pulleys.map((pulley) => `${pulleyText(pulley, size)} ${reachedText(pulley.from)}`),
              'and',
              40,
            )}.`,
          ],
    ),
  ];
}

/** Prints the skews at which one belt's joint passes. */
export async function run(typed: Given): Promise<number> {
  const [file = '', name = ''] = typed.words;
  const { book, supposed } = listBook(file, listOptions(typed));
  const record = beltRecord(book, file, name);
  const names = seriesNames(book).map(String);
  if (names.length === 0)
    throw new FileError(`${file} has no plate series. Give a book that has them with --series BOOK.xlsx.`);
  const pulleys = beltPulleys(book, record);
  const all = names.map((series) => seriesSkews(book, record, series, pulleys));
  const lines = adviceLines(book, String(book.read(belts.name, record, belts.key)), ownJoint(book, record), all);
  const present = presentText(book, record);
  process.stdout.write(
    visibleLines([...supposed, ...lines, ...(present === undefined ? [] : [present]), deferrals.skew]),
  );
  return 0;
}
