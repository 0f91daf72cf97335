import type { BookState } from '../workbook/state.ts';
import type { Desk } from './desk.ts';
import { download, fileName } from './downloading.ts';
import { turnOfPage } from './idle.ts';
import { headOf, runAt, runsOf } from './stored-runs.ts';

/** The book as a file that only this program reads: what a workbook of 100,000 belts is too large for. */

/** Milliseconds of work before the page has its turn. */
const slice = 12;

/** For tests: the text is read back. In pieces, each with the share of the rows that are in it. */
export function* copyText(state: BookState): Generator<{ readonly text: string; readonly share: number }, void> {
  const all = Math.max(
    1,
    state.sheets.reduce((sum, { rows }) => sum + rows.length, 0),
  );
  let written = 0;
  yield { text: `{"head":${JSON.stringify(headOf(state))},"runs":[`, share: 0 };
  for (const [sheet, { rows }] of state.sheets.entries())
    for (let run = 0; run < runsOf(rows); run += 1) {
      const own = runAt(rows, run);
      const text = `${written === 0 ? '' : ','}\n${JSON.stringify({ key: [sheet, run], rows: own })}`;
      written += own.length;
      yield { text, share: written / all };
    }
  yield { text: ']}\n', share: 1 };
}

/** Hands the open book out as such a file. */
export async function exportCopy(desk: Desk): Promise<void> {
  if (desk.exporting !== undefined) return;
  const name = fileName(desk.book.state.title, '.json');
  const pieces: string[] = [];
  let stopped = false;
  let end = performance.now() + slice;
  for (const { text, share } of copyText(desk.book.state)) {
    pieces.push(text);
    desk.exporting = { name, share, stop: () => (stopped = true) };
    if (performance.now() < end) continue;
    desk.changed();
    await turnOfPage();
    if (stopped) break;
    end = performance.now() + slice;
  }
  desk.exporting = undefined;
  if (!stopped) download(new Blob(pieces, { type: 'application/json' }), 'application/json', name);
  desk.say(stopped ? `${name} was not written: you stopped it.` : `${name} was written. Import reads it anywhere.`);
}
