import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Without this LibreOffice trusts the values in the file and computes nothing. */
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>
`;

/** Lets LibreOffice load a book, compute every formula anew and save it, and waits for as long as that takes. */
export function resavedIn(folder: string, book: string): void {
  const profile = join(folder, 'profile');
  mkdirSync(join(profile, 'user'), { recursive: true });
  writeFileSync(join(profile, 'user', 'registrymodifications.xcu'), alwaysRecalculate);
  const { status, stderr, error } = spawnSync(
    'soffice',
    [
      `-env:UserInstallation=${pathToFileURL(profile).href}`,
      '--headless',
      '--convert-to',
      'xlsx:Calc MS Excel 2007 XML',
      '--outdir',
      join(folder, 'resaved'),
      book,
    ],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`LibreOffice could not compute ${book}: ${error?.message ?? stderr}`);
}
