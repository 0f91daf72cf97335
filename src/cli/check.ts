import { deferrals } from '../workbook/safety.ts';
import { findings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import type { FindingsJson } from '../reference/findings-json.ts';
import type { Given } from './arguments.ts';
import { comparedBelts, compareText, countLine, countsOf } from './finding-lines.ts';
import { notUnderstoodLines } from './import-report.ts';
import { listBook } from './list-book.ts';
import { type ListOptions, listOptions } from './list-options.ts';
import { commaLength, findingsText, withoutComma } from './long/findings-text.ts';
import type { JoinedResults } from './long/joined-results.ts';
import { type Dealing, longList, readWhole } from './long/long-list.ts';
import type { Wanted } from './long/part-model.ts';
import { visibleLines } from './visible-text.ts';

/** What is found in a list, ready to be told: the findings are told piece by piece, as there may be millions. */
interface Found {
  readonly units: FindingsJson['units'];
  readonly counts: FindingsJson['counts'];
  readonly day: string | undefined;
  readonly why: string;
  readonly supposed: readonly string[];
  readonly notUnderstood: FindingsJson['notUnderstood'];
  readonly compared: number;
  readonly fails: boolean;
  /** Lines, or items of a list of JSON. */
  readonly findings: Iterable<string>;
}

function whole(file: string, options: ListOptions, wanted: Wanted): Found {
  const { book, report, places, reviewed, supposed } = listBook(file, options);
  const found = [...findings(book), ...buyingFindings(book)];
  return {
    units: book.units,
    counts: countsOf(book),
    ...reviewed,
    supposed,
    notUnderstood: report.notUnderstood,
    compared: comparedBelts(found),
    fails: found.some(({ verdict }) => verdict === 'fails'),
    findings: [
      withoutComma(
        findingsText(
          found.map((finding) => ({ ...finding, place: places.of(finding) })),
          wanted,
        ),
        wanted,
      ),
    ],
  };
}

function inParts(results: JoinedResults, { date }: ListOptions, wanted: Wanted): Found {
  const { first, report } = results;
  if (first === undefined || report === undefined) throw new Error('a long list had no part');
  return {
    units: first.units,
    counts: results.counts,
    day: first.day,
    why: date === undefined ? 'today' : 'as given',
    supposed: [],
    notUnderstood: report.notUnderstood,
    compared: results.compared,
    fails: results.fails,
    findings: results.findings(wanted === 'json' ? commaLength : 0),
  };
}

function* answerLines(file: string, found: Found): Generator<string> {
  const { counts, day, why, supposed, notUnderstood, compared } = found;
  const before = [...supposed, ...notUnderstoodLines(file, notUnderstood).map((line) => line.trim())];
  if (before.length > 0) yield visibleLines(before);
  yield* found.findings;
  yield visibleLines([
    ...(day === undefined ? [] : [`Joint age is counted to ${day} (${why}).`]),
    `${file}: ${countLine(counts)}${compareText(compared)}`,
    deferrals.use,
  ]);
}

/**
 * What `check` answers, piece by piece, and whether any belt fails. For tests: long lists are compared with those that
 * are read whole.
 */
export async function checked(
  file: string,
  options: ListOptions,
  wanted: Wanted,
  dealing?: Dealing,
): Promise<{ readonly answer: Iterable<string>; readonly fails: boolean; readonly close: () => void }> {
  const results = await longList(file, options, wanted, dealing);
  const isLong = typeof results === 'object';
  const found = isLong
    ? inParts(results, options, wanted)
    : await readWhole(results, () => whole(file, options, wanted));
  return {
    answer: wanted === 'json' ? answerJson(file, found) : answerLines(file, found),
    fails: found.fails,
    close: () => {
      if (isLong) results.close();
    },
  };
}

/** The findings of a list, for people or as JSON; the exit code says whether any fails. */
export async function run(typed: Given): Promise<number> {
  const [file = ''] = typed.words;
  const { answer, fails, close } = await checked(
    file,
    listOptions(typed),
    typed.options.has('json') ? 'json' : 'lines',
  );
  for (const text of answer) await told(text);
  close();
  return fails ? 1 : 0;
}

/** Waits for the reader: a long answer would stand in memory meanwhile. */
const told = (text: string): Promise<void> =>
  new Promise((done) => {
    process.stdout.write(text, () => done());
  });

/** The object of `check --json`, its findings as they come. */
function* answerJson(file: string, found: Found): Generator<string> {
  const { units, counts, day, supposed, notUnderstood } = found;
  const head: Omit<FindingsJson, 'findings' | 'notUnderstood'> = {
    file,
    units,
    reviewDate: day ?? null,
    supposed,
    counts,
  };
  yield `${JSON.stringify(head, null, 2).slice(0, -2)},\n  "findings": [`;
  let none = true;
  for (const text of found.findings) {
    if (text === '') continue;
    yield none ? `\n${text}` : text;
    none = false;
  }
  const rest: Pick<FindingsJson, 'notUnderstood'> = { notUnderstood };
  yield `${none ? '' : '\n  '}],\n${JSON.stringify(rest, null, 2).slice(2)}\n`;
}
