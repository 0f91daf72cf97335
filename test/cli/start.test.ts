import { spawn } from 'node:child_process';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { evaluation, inPlant } from '../../src/page/grid/grid-terms.json';

/**
 * `npm start`, without a screen: it prints the terms of the grid and an address at which the page is served, also when
 * its usual port is taken.
 */

const script = fileURLToPath(new URL('../../src/launch/start.mjs', import.meta.url));

test('serves the page at the address it prints, on this machine only', async () => {
  const other = createServer((_, response) => response.end('another program'));
  await new Promise<void>((resolve) => {
    // Taken already by something else is just as good here.
    other.once('error', () => resolve());
    other.listen(4173, '127.0.0.1', resolve);
  });
  // The page is built as users build it, not as tests see it.
  const { VITEST: _, SKEWBOOK_HANDSONTABLE_KEY: __, ...environment } = process.env;
  const child = spawn(process.execPath, [script], { env: { ...environment, CI: '1' } });
  let text = '';
  try {
    const address = await new Promise<string>((resolve, reject) => {
      const look = (piece: Buffer): void => {
        text += piece.toString();
        const found = /Skewbook is at (http:\S+)/.exec(text)?.[1];
        if (found !== undefined) resolve(found);
      };
      child.stdout.on('data', look);
      child.stderr.on('data', look);
      child.once('close', (code) => reject(new Error(`it ended with ${String(code)}: ${text}`)));
    });
    expect(text).toContain(`${evaluation}\n${inPlant}\n`);
    const { hostname, port } = new URL(address);
    expect(hostname).toBe('127.0.0.1');
    if (other.listening) expect(Number(port)).not.toBe((other.address() as AddressInfo).port);
    const response = await fetch(address);
    expect(response.status).toBe(200);
    expect(await response.text()).toMatch(/<title>[^<]*Skewbook/);
  } finally {
    child.removeAllListeners('close');
    child.kill();
    other.close();
  }
}, 180_000);
