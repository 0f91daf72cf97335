import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { beltDots, PictureRefused } from '../pictures/belt-dots.ts';
import { beltColumnNamed, holdsWords } from '../pictures/belt-figures.ts';
import { pictureFile } from '../pictures/drawing/drawn-picture.ts';
import { drawnFigures, failingChances, figureDraws } from '../pictures/failing-chances.ts';
import { beltHistogram, drawnHistogram, pulleyUsed, ratingUsed } from '../pictures/histogram.ts';
import { expectedFailing, verdictsByArea } from '../pictures/fleet-areas.ts';
import { jointsDue, spendDue } from '../pictures/fleet-due.ts';
import type { Picture } from '../pictures/picture.ts';
import { sweptFigure, sweptPicture } from '../pictures/swept-figure.ts';
import type { TypedRange } from '../pictures/tried-values.ts';
import { mapPicture, verdictMap } from '../pictures/verdict-map.ts';
import { beltTitle } from '../records/belt.ts';
import { listed } from '../sheet/words.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { beltHeader } from './belt-column.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { checkOutput, replaces, writeWhole } from './output-file.ts';
import { orUsageError } from './refused-change.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** A picture of a list of belts as a file. */

interface Asked {
  readonly book: Workbook;
  readonly file: string;
  /** What is typed between the kind and the output. */
  readonly names: readonly string[];
  readonly typed: Given;
}

/** A step by step answer, all at once. */
function finished<Answer>(steps: Generator<number, Answer>): Answer {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

const named = ({ names }: Asked, place: number, what: string): string => {
  const name = names[place];
  if (name === undefined) throw new UsageError(`name ${what} after the kind of picture`);
  return name;
};

function column(asked: Asked, place: number): BookColumn {
  const header = named(asked, place, place === 0 ? 'a column' : 'a second column');
  return beltColumnNamed(asked.book, header) ?? columnAsDeclared(asked.book, header);
}

const columnAsDeclared = (book: Workbook, typed: string): BookColumn => {
  const found = beltColumnNamed(book, beltHeader(book, typed));
  if (found === undefined) throw new UsageError(`There is no column "${typed}".`);
  return found;
};

function numbers(asked: Asked): BookColumn {
  const found = column(asked, 0);
  if (holdsWords(found)) throw new UsageError(`${found.header} holds words: name a column of numbers`);
  return found;
}

function recordOf({ book, file, typed }: Asked): number {
  const name = optionValue(typed, 'belt');
  if (name === undefined) throw new UsageError('name the belt with --belt');
  return beltRecord(book, file, name);
}

function ranges({ typed }: Asked, count: number): readonly TypedRange[] {
  const given = (name: string): readonly string[] => typed.options.get(name) ?? [];
  if (given('by').length !== count)
    throw new UsageError(
      count === 1 ? 'name the input to change with --by, once' : 'name two inputs to change, each with --by',
    );
  return given('by').map((by, place) => ({ by, from: given('from')[place] ?? '', to: given('to')[place] ?? '' }));
}

function swept(asked: Asked): Picture {
  const [range] = ranges(asked, 1);
  if (range === undefined) throw new UsageError('name the input to change with --by');
  const header = beltHeader(asked.book, named(asked, 0, 'a column'));
  const variants = asked.typed.options.get('beside') ?? [];
  return orUsageError(() =>
    sweptPicture(asked.book, finished(sweptFigure(asked.book, { record: recordOf(asked), header, range, variants }))),
  );
}

function mapped(asked: Asked): Picture {
  const [across, upward] = ranges(asked, 2);
  const header = beltHeader(asked.book, named(asked, 0, 'Verdict or a check'));
  const check = ['Verdict' as const, ...checkColumns.map((one) => one.header)].find((one) => one === header);
  if (check === undefined || across === undefined || upward === undefined)
    throw new UsageError(`${header} is no check: name Verdict or a check, such as "Pulley check"`);
  return orUsageError(() =>
    mapPicture(
      asked.book,
      finished(verdictMap(asked.book, { record: recordOf(asked), header: check, across, upward })),
    ),
  );
}

function drawn(asked: Asked): Picture {
  const record = recordOf(asked);
  const found = numbers(asked);
  const figures = drawnFigures(asked.book, record, beltHeader(asked.book, found.header));
  const name = beltTitle(optionValue(asked.typed, 'belt') ?? '');
  return drawnHistogram(asked.book, found, { name, record }, { figures, draws: figureDraws });
}

const kinds: Readonly<Record<string, (asked: Asked) => Picture>> = {
  verdicts: ({ book }) => verdictsByArea(book),
  due: ({ book }) => jointsDue(book),
  spend: ({ book }) => spendDue(book),
  rating: ({ book }) => ratingUsed(book),
  pulley: ({ book }) => pulleyUsed(book),
  expected({ book }) {
    const { draws, chances } = finished(failingChances(book));
    return expectedFailing(book, new Map(chances), draws);
  },
  columns: (asked) => beltDots(asked.book, column(asked, 0), column(asked, 1)),
  spread: (asked) => beltHistogram(asked.book, numbers(asked)),
  draws: drawn,
  sweep: swept,
  map: mapped,
};

/** The size of a picture in a file, in CSS pixels: half a page across. */
const size = { width: 760, height: 420 };

export async function run(typed: Given): Promise<number> {
  const [input = '', kind = '', ...rest] = typed.words;
  const output = rest.at(-1);
  if (output === undefined) throw new UsageError('name the file to write, ending in .svg, as the last word');
  const options = listOptions(typed);
  checkOutput(output, [input, ...(options.series === undefined ? [] : [options.series])], ['svg']);
  const draw = Object.hasOwn(kinds, kind) ? kinds[kind] : undefined;
  if (draw === undefined)
    throw new UsageError(`there is no kind of picture "${kind}"; there are ${listed(Object.keys(kinds), 'and', 20)}`);
  const { book, supposed } = listBook(input, options);
  let picture: Picture;
  try {
    picture = draw({ book, file: input, names: rest.slice(0, -1), typed });
  } catch (error) {
    if (error instanceof PictureRefused) throw new UsageError(error.message);
    throw error;
  }
  const replaced = replaces(output);
  writeWhole(output, new TextEncoder().encode(pictureFile(picture, size, book.state.title || input)));
  process.stdout.write(
    visibleLines([
      ...supposed,
      `${picture.title}.`,
      `  ${picture.says}`,
      ...(picture.leftOut === '' ? [] : [`  ${picture.leftOut}`]),
      `Wrote ${output}${replaced ? ', replacing the existing file' : ''}.`,
    ]),
  );
  return 0;
}
