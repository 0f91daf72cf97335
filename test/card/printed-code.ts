import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

function output(command: string, args: readonly string[], passing: readonly (number | null)[] = [0]): string {
  const { status, stdout, stderr, error } = spawnSync(command, args, { encoding: 'utf8' });
  if (error !== undefined || !passing.includes(status))
    throw new Error(`${command} failed: ${error?.message ?? stderr}`);
  return stdout;
}

/**
 * What another program reads in the codes on the first page of a PDF, printed in grey at 150 dots an inch; '' for a
 * page without.
 */
export function printedCode(pdf: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-code-'));
  try {
    writeFileSync(join(folder, 'card.pdf'), pdf);
    output('pdftoppm', [
      '-gray',
      '-r',
      '150',
      '-f',
      '1',
      '-l',
      '1',
      '-singlefile',
      join(folder, 'card.pdf'),
      join(folder, 'page'),
    ]);
    // It ends with 4 when it finds no code (its manual page, "EXIT STATUS").
    return output('zbarimg', ['--quiet', '--raw', '--nodbus', join(folder, 'page.pgm')], [0, 4]).replace(/\n$/, '');
  } finally {
    rmSync(folder, { recursive: true });
  }
}
