import { spawn, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadEnv, preview } from 'vite';
import { repository } from './built.mjs';

/**
 * `npm start`: builds the page and the command line, serves the page on this machine only, opens a browser where there
 * is one.
 */

const browserCommands = { darwin: ['open'], win32: ['cmd', '/c', 'start', ''], linux: ['xdg-open'] };

/** Opens an address; without a browser or a screen the address printed has to do. */
function open(address) {
  const headless = process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY;
  if (headless || process.env.BROWSER === 'none' || process.env.CI) return;
  const [command, ...args] = browserCommands[process.platform] ?? browserCommands.linux;
  spawn(command, [...args, address], { stdio: 'ignore', detached: true })
    .on('error', () => undefined)
    .unref();
}

/** Whoever starts the page without a key of the grid is told on what terms, before it is there. */
const terms = JSON.parse(readFileSync(join(repository, 'src/page/grid/grid-terms.json'), 'utf8'));
if ((loadEnv('production', repository, 'SKEWBOOK_')[terms.variable] ?? '').trim() === '')
  console.log(`${terms.evaluation}\n${terms.inPlant}`);

console.log('Building the page and the command line (some seconds) …');
const built = spawnSync(process.execPath, [join(repository, 'src/launch/build.mjs'), '--if-older'], {
  stdio: 'inherit',
});
if (built.status !== 0) process.exit(built.status ?? 1);

const port = 4173;

/**
 * Whether Skewbook answers at its usual port already. A second one would be another origin, with a store of its own.
 */
async function answers() {
  try {
    const response = await fetch(`http://127.0.0.1:${port}/`, { signal: AbortSignal.timeout(2_000) });
    return /<title>Skewbook/.test(await response.text());
  } catch {
    return false;
  }
}

if (await answers()) {
  const running = `http://127.0.0.1:${port}/`;
  console.log(
    `Skewbook is already running at ${running}, and holds your book there. Stop it before you start it again.`,
  );
  open(running);
  process.exit(0);
}

// A port that is taken is passed over for the next free one.
const server = await preview({
  configFile: join(repository, 'vite.config.ts'),
  logLevel: 'error',
  preview: {
    host: '127.0.0.1',
    port,
    strictPort: false,
    // No page of another address may read this one's, one of this machine included.
    cors: false,
    headers: {
      'Content-Security-Policy': "frame-ancestors 'none'",
      'Cross-Origin-Resource-Policy': 'same-origin',
      'Referrer-Policy': 'no-referrer',
      'X-Content-Type-Options': 'nosniff',
    },
  },
});
const [address] = server.resolvedUrls.local;
console.log(`Skewbook is at ${address} (this machine only). To stop it, press Ctrl+C.`);
if (new URL(address).port !== String(port))
  console.log(
    `Another program uses port ${port}. The browser keeps one book per port: a book made at port ${port} is not ` +
      `shown here. Free that port and start again to see it.`,
  );
open(address);
