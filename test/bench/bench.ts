import { cpus } from 'node:os';
import { compared, comparisonTable } from '../standard/compared.ts';
import { calcBench } from './calc-bench.ts';
import { allFormulaCells, engineBench } from './engine-bench.ts';
import { chanceBench } from './chance-bench.ts';
import { importBench } from './import-bench.ts';
import { largePageBench } from './large-page-bench.ts';
import { longListsBench } from './long-lists-bench.ts';
import { mergeBench } from './merge-bench.ts';
import { pageBench } from './page-bench.ts';
import { pageFilesBench } from './page-files-bench.ts';
import { planningBench } from './planning-bench.ts';
import { sheetEditsBench } from './sheet-edits-bench.ts';
import { startBench } from './start-bench.ts';
import { typedFormulasBench } from './typed-formulas-bench.ts';

/**
 * `npm run bench`: measures and prints; writes nothing into the repository. `npm run bench functions` prints the table
 * of the standard functions, which is kept as test/standard/standard-functions.md; `npm run bench chance` measures
 * simulations alone, `npm run bench page` the page with 10,000 and 100,000 belts (`npm run bench page 10000` that size
 * alone), `npm run bench files 10000` what it does with files of so many, `npm run bench lists 10000 100000` the
 * command line with lists of these lengths.
 */
const write = (text: string): void => void process.stdout.write(`${text}\n`);

async function measured(): Promise<void> {
  write(`Node ${process.version}, ${cpus().length} x ${cpus()[0]?.model ?? 'processor'}`);
  for (const count of [1000, 10_000]) engineBench(count, write);
  allFormulaCells(1000, write);
  typedFormulasBench(10_000, write);
  importBench(10_000, write);
  mergeBench(10_000, write);
  startBench(write);
  await planningBench(1000, write);
  for (const count of [1000, 10_000]) await pageBench(count, write);
  await calcBench(10_000, write);
  await longListsBench([10_000, 100_000], write);
  await chanceBench(write);
  sheetEditsBench(2000, write);
}

const calls = 200;

/** The sizes that stand behind a part's name, else the usual ones; nothing where the part is not asked for. */
function sizes(part: string, usual: readonly number[]): readonly number[] | undefined {
  const at = process.argv.indexOf(part);
  const given = process.argv.slice(at + 1).map(Number);
  return at < 0 ? undefined : given.length === 0 ? usual : given;
}

const lists = sizes('lists', [10_000, 100_000]);
const page = sizes('page', [10_000, 100_000]);
const files = sizes('files', [10_000]);
if (process.argv.includes('functions')) process.stdout.write(comparisonTable(await compared(calls, 1), calls));
else if (process.argv.includes('chance')) await chanceBench(write);
else if (page !== undefined) for (const count of page) await largePageBench(count, write);
else if (files !== undefined) for (const count of files) await pageFilesBench(count, write);
else if (lists !== undefined) await longListsBench(lists, write);
else await measured();
