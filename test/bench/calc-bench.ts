import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import ExcelJS from 'exceljs';
import { unzipSync } from 'fflate';
import { belts } from '../../sheets/belts/index.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { headerWithUnit } from '../../src/sheet/header.ts';
import { isoDate } from '../../src/units/dates.ts';
import { nativePack } from '../../src/cli/native-packing.ts';
import { findings } from '../../src/checks/findings.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { resavedIn } from './other-program.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, timed, times } from './timing.ts';

const rounds = 3;

/** The fleet as a list of inputs, as a plant would bring it. */
async function writeList(path: string, count: number): Promise<void> {
  const rows = fleet(count).sheets.find(({ name }) => name === belts.name)?.rows ?? [];
  const inputs = belts.columns.flatMap((column, position) => (isComputed(column) ? [] : [{ column, position }]));
  const file = new ExcelJS.Workbook();
  const sheet = file.addWorksheet('Fleet');
  sheet.addRow(inputs.map(({ column }) => headerWithUnit(column.header, column.kind, 'metric')));
  for (const { cells } of rows) {
    sheet.addRow(
      inputs.map(({ column, position }) => {
        const content = cells[position] ?? null;
        return column.kind === 'date' && typeof content === 'number' ? isoDate(content) : content;
      }),
    );
  }
  await file.xlsx.writeFile(path);
}

/** Writing a book that is there, and packing the parts of its file, which any writer has to. */
async function writingTimes(count: number): Promise<{ readonly all: number; readonly packing: number; bytes: number }> {
  const book = new Workbook(fleet(count));
  const all: number[] = [];
  const packing: number[] = [];
  let length = 0;
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    const { bytes } = await exportedBook(book, [], { pack: nativePack });
    all.push(performance.now() - start);
    length = bytes.length;
    const parts = Object.values(unzipSync(bytes));
    packing.push(timed(() => parts.forEach((part) => void deflateRawSync(part, { level: 6 }))));
  }
  return { all: median(all), packing: median(packing), bytes: length };
}

/**
 * The command line's `calc`, from list to written book, against another program that loads the written book, works
 * every formula out anew and saves it; both as whole processes, in turn.
 */
export async function calcBench(count: number, write: (text: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-bench-'));
  try {
    const [list, plates, out] = [join(folder, 'list.xlsx'), join(folder, 'plates.xlsx'), join(folder, 'book.xlsx')];
    await writeList(list, count);
    const demo = new Workbook(demoBook('metric'));
    writeFileSync(plates, (await exportedBook(demo, findings(demo))).bytes);
    const calcs: number[] = [];
    const others: number[] = [];
    for (let round = 0; round < rounds; round += 1) {
      calcs.push(
        timed(() => {
          const { status, stderr } = spawnSync(
            process.execPath,
            ['src/launch/run.mjs', 'src/cli/main.ts', 'calc', list, out, '--series', plates, '--date', '2026-11-25'],
            { encoding: 'utf8' },
          );
          if (status !== 0) throw new Error(`calc ended with ${String(status)}: ${stderr}`);
        }),
      );
      others.push(timed(() => resavedIn(folder, out)));
    }
    write(
      `${count.toLocaleString('en-US')} belts, list to written book as a whole process (medians of ${rounds}, in turn)`,
    );
    const { all, packing, bytes } = await writingTimes(count);
    write(
      `  calc ${milliseconds(median(calcs))}, LibreOffice loading, recalculating and saving that book ` +
        `${milliseconds(median(others))}: ${times(median(calcs) / median(others))}`,
    );
    write(
      `  writing the book ${milliseconds(all)}, packing its parts alone ${milliseconds(packing)}: ` +
        `${times(all / packing)}; the file has ${Math.round(bytes / count).toLocaleString('en-US')} bytes a belt`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
