import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { readBook } from '../../src/xlsx/read/read.ts';
import type { RawBook } from '../../src/xlsx/read/raw-book.ts';

/** A spreadsheet program that is not ours, asked to work a file out again. */

const run = promisify(execFile);

/** Without this the program trusts the values that stand in the file, and a comparison proves nothing. */
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>
`;

const missing =
  'LibreOffice Calc is needed to recalculate exported files: apt-get install --no-install-recommends libreoffice-calc';

/** The file after another program has read it, computed every formula anew and saved it. */
export async function resaved(file: Uint8Array): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'skewbook-recalculation-'));
  try {
    const profile = join(folder, 'profile');
    await mkdir(join(profile, 'user'), { recursive: true });
    await mkdir(join(folder, 'out'));
    await writeFile(join(profile, 'user', 'registrymodifications.xcu'), alwaysRecalculate);
    await writeFile(join(folder, 'book.xlsx'), file);
    const convert = [
      '--headless',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      join(folder, 'out'),
      join(folder, 'book.xlsx'),
    ];
    try {
      await run('soffice', [`-env:UserInstallation=${pathToFileURL(profile).href}`, ...convert], { timeout: 180_000 });
    } catch (error) {
      throw error instanceof Error && 'code' in error && error.code === 'ENOENT'
        ? new Error(missing, { cause: error })
        : error;
    }
    return new Uint8Array(await readFile(join(folder, 'out', 'book.xlsx')));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

export const recalculated = async (file: Uint8Array): Promise<RawBook> => readBook(await resaved(file));
