import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { escaped } from '../../src/sheet/words.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { readLimits } from '../../src/xlsx/read/read-limits.ts';
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

export const recalculated = async (file: Uint8Array): Promise<RawBook> =>
  readBook(await resaved(file), readLimits, true);

/** The parts of a profile that hold one macro. */
const library = (body: string): Readonly<Record<string, string>> => ({
  'script.xlc':
    '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE library:libraries PUBLIC ' +
    '"-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "libraries.dtd">\n' +
    '<library:libraries xmlns:library="http://openoffice.org/2000/library" ' +
    'xmlns:xlink="http://www.w3.org/1999/xlink"><library:library library:name="Standard" ' +
    'xlink:href="$(USER)/basic/Standard/script.xlb/" xlink:type="simple" library:link="false"/></library:libraries>\n',
  'Standard/script.xlb':
    '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument ' +
    '1.0//EN" "library.dtd">\n<library:library xmlns:library="http://openoffice.org/2000/library" ' +
    'library:name="Standard" library:readonly="false" library:passwordprotected="false"><library:element ' +
    'library:name="Edit"/></library:library>\n',
  'Standard/Edit.xba':
    '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument ' +
    '1.0//EN" "module.dtd">\n<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Edit" ' +
    `script:language="StarBasic">${escaped(body)}</script:module>\n`,
});

/**
 * The file after somebody has worked in another program: `steps` are lines of its Basic, `book` is the document. The
 * program moves formulas itself where rows are put in.
 */
export async function edited(file: Uint8Array, steps: readonly string[]): Promise<Uint8Array> {
  const folder = await mkdtemp(join(tmpdir(), 'skewbook-editing-'));
  try {
    const profile = join(folder, 'profile');
    const [from, to] = ['book.xlsx', 'edited.xlsx'].map((name) => join(folder, name));
    if (from === undefined || to === undefined) throw new Error('no paths');
    await writeFile(from, file);
    const body = [
      'Sub Main',
      'Dim hidden(0) As New com.sun.star.beans.PropertyValue',
      'hidden(0).Name = "Hidden"',
      'hidden(0).Value = True',
      `book = StarDesktop.loadComponentFromURL("${pathToFileURL(from).href}", "_blank", 0, hidden())`,
      ...steps,
      'Dim kind(0) As New com.sun.star.beans.PropertyValue',
      'kind(0).Name = "FilterName"',
      'kind(0).Value = "Calc MS Excel 2007 XML"',
      `book.storeToURL("${pathToFileURL(to).href}", kind())`,
      'book.close(True)',
      'StarDesktop.terminate()',
      'End Sub',
    ];
    const start = [`-env:UserInstallation=${pathToFileURL(profile).href}`, '--headless', '--norestore'];
    // The first start lays the profile out, and would write over a macro that is there.
    await run('soffice', [...start, '--terminate_after_init'], { timeout: 180_000 });
    for (const [path, text] of Object.entries(library(body.join('\n')))) {
      const part = join(profile, 'user', 'basic', path);
      await mkdir(join(part, '..'), { recursive: true });
      await writeFile(part, text);
    }
    await run('soffice', [...start, 'macro:///Standard.Edit.Main'], { timeout: 180_000 });
    return new Uint8Array(await readFile(to));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
