import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The built command line as its users run it: a process of its own. */

/** The words after `node` that start it. */
export const book: readonly string[] = [
  fileURLToPath(new URL('../../src/launch/run.mjs', import.meta.url)),
  'src/cli/main.ts',
];

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs `book ARGS` and waits for its end. */
export function ran(
  args: readonly string[],
  {
    input = '',
    folder,
    environment = {},
  }: {
    readonly input?: string;
    readonly folder?: string;
    readonly environment?: Readonly<Record<string, string>>;
  } = {},
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [...book, ...args], {
      env: { ...process.env, ...environment },
      ...(folder === undefined ? {} : { cwd: folder }),
    });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', (piece: Buffer) => out.push(piece));
    child.stderr.on('data', (piece: Buffer) => err.push(piece));
    child.on('error', reject);
    child.on('close', (code) => {
      resolve({ code, out: Buffer.concat(out).toString('utf8'), err: Buffer.concat(err).toString('utf8') });
    });
    child.stdin.on('error', () => undefined);
    child.stdin.end(input);
  });
}

/** Sees to it that the program is built, which the first call does: not part of any test's time. */
export async function ready(): Promise<void> {
  const { code, err } = await ran(['--version']);
  if (code !== 0) throw new Error(`the program could not be built: ${err}`);
}
