import { deferrals } from '../workbook/safety.ts';
import { findings } from '../checks/findings.ts';
import { buyingFindings } from '../order/buying-findings.ts';
import type { FindingsJson } from '../reference/findings-json.ts';
import type { Given } from './arguments.ts';
import { compareText, countLine, countsOf, findingLines } from './finding-lines.ts';
import { notUnderstoodLine } from './import-report.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { visibleLines } from './visible-text.ts';

/** The findings of a list, for people or as JSON; the exit code says whether any fails. */
export async function run(typed: Given): Promise<number> {
  const [file = ''] = typed.words;
  const { book, report, places, reviewed } = listBook(file, listOptions(typed));
  const found = [...findings(book), ...buyingFindings(book)];
  const counts = countsOf(book);
  if (typed.options.has('json')) {
    const shape: FindingsJson = {
      file,
      units: book.units,
      reviewDate: reviewed.day ?? null,
      counts,
      findings: found.map((finding) => ({ ...finding, place: places.of(finding) })),
      notUnderstood: report.notUnderstood,
    };
    process.stdout.write(`${JSON.stringify(shape, null, 2)}\n`);
  } else {
    const lines = [
      ...report.notUnderstood.map((item) => notUnderstoodLine(file, item).trim()),
      ...found.flatMap((finding) => findingLines(finding, places.of(finding))),
      ...(reviewed.day === undefined ? [] : [`Joint age is counted to ${reviewed.day} (${reviewed.why}).`]),
      `${file}: ${countLine(counts)}${compareText(found)}`,
      deferrals.use,
    ];
    process.stdout.write(visibleLines(lines));
  }
  return found.some(({ verdict }) => verdict === 'fails') ? 1 : 0;
}
