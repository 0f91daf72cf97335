import { belts } from '../../sheets/belts/index.ts';
import { isWords } from '../units/quantities.ts';
import { beltColumn } from '../records/belt.ts';
import { type SimulationTask, typedCorrelations, typedTolerances } from '../what-if/simulation-task.ts';
import { fleetLines, simulatedLines } from '../what-if/simulation-words.ts';
import { type Given, optionValue } from './arguments.ts';
import { beltHeader } from './belt-column.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { orUsageError } from './refused-change.ts';
import { simulatedInThreads } from './simulation-threads.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** How sure belts and figures are, with inputs and assumptions that are not known exactly. */

const usualDraws = 1000;
/** Fewer tell nothing of a chance, more take hours. */
const [leastDraws, mostDraws] = [100, 1_000_000];

function whole(typed: Given, name: string, usual: number, least: number, most: number): number {
  const text = optionValue(typed, name) ?? String(usual);
  const number = Number(text);
  if (!/^\d+$/.test(text) || number < least || number > most)
    throw new UsageError(`--${name} must be a whole number from ${least} to ${most}; "${text}" was given`);
  return number;
}

/** Milliseconds after which, and between which, a person is told how far it is. */
const patience = 1000;

/** Tells beside the answer which share of the draws is done. */
function showProgress(): (share: number) => void {
  const begun = performance.now();
  let told = begun;
  return (share) => {
    const now = performance.now();
    if (now - told < patience) return;
    told = now;
    process.stderr.write(`${Math.floor(share * 100)} % of the draws are done; Ctrl+C stops.\n`);
  };
}

export async function run(typed: Given): Promise<number> {
  const [file = '', name] = typed.words;
  const { book, supposed } = listBook(file, listOptions(typed));
  const columns = (typed.options.get('column') ?? []).map((text) => {
    const header = beltHeader(book, text);
    if (isWords(beltColumn(header).kind))
      throw new UsageError(`--column: ${header} holds words; checks are always printed`);
    return header;
  });
  const draws = whole(typed, 'draws', usualDraws, leastDraws, mostDraws);
  const seed = whole(typed, 'seed', 1, 0, 2 ** 32 - 1);
  const records = name === undefined ? [...book.sheet(belts.name).rows.keys()] : [beltRecord(book, file, name)];
  const task: SimulationTask = {
    state: book.state,
    records,
    columns,
    draws,
    seed,
    tolerances: typed.options.get('tolerance') ?? [],
    correlations: typed.options.get('correlation') ?? [],
  };
  orUsageError(() => typedTolerances(book, task.tolerances), '--tolerance');
  orUsageError(() => typedCorrelations(book, task.correlations), '--correlation');
  const answer = await simulatedInThreads(book, task, showProgress());
  process.stdout.write(
    visibleLines([
      ...supposed,
      ...answer.belts.flatMap((one) => simulatedLines(one, draws)),
      ...(records.length > 1 ? fleetLines(answer, book.units) : []),
      `${draws.toLocaleString('en-US')} draws, seed ${seed}. Errors in the figures only: rules are taken to be right.`,
    ]),
  );
  return 0;
}
