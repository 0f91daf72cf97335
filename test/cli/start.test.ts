import { spawn } from 'node:child_process';
import { createServer, request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { evaluation, inPlant } from '../../src/page/grid/grid-terms.json';

/**
 * `npm start`, without a screen: it prints the terms of the grid and an address at which the page is served, also when
 * its usual port is taken.
 */

const script = fileURLToPath(new URL('../../src/launch/start.mjs', import.meta.url));

interface Answer {
  readonly status: number | undefined;
  readonly headers: Readonly<Record<string, unknown>>;
  readonly body: string;
}

/** Asks for a path as it is written: `fetch` would tidy it first. */
const asked = (address: string, path: string, headers: Readonly<Record<string, string>> = {}): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const { hostname, port } = new URL(address);
    request({ hostname, port, path, headers }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (piece: string) => {
        body += piece;
      });
      response.on('end', () => resolve({ status: response.statusCode, headers: response.headers, body }));
    })
      .on('error', reject)
      .end();
  });

/** It answers to its own name alone, gives away nothing but the build, and lets no other page read that. */
async function answersItself(address: string): Promise<void> {
  const { host, port } = new URL(address);
  for (const other of [`nowhere.invalid:${port}`, 'nowhere.invalid', `127.0.0.1.nowhere.invalid:${port}`]) {
    const { status, body } = await asked(address, '/', { Host: other });
    expect([other, status]).toEqual([other, 403]);
    expect(body).not.toContain('<title>');
  }
  const outside = [
    '/../../package.json',
    '/..%2f..%2fpackage.json',
    '/%2e%2e/%2e%2e/package.json',
    '/assets/../../../package.json',
    '/assets/..%5c..%5c..%5cpackage.json',
    '/package.json',
    '/src/page/main.ts',
    '/@fs/etc/passwd',
    '//etc/passwd',
    '/@fs//etc/passwd?raw',
    '/.env',
    '/.git/config',
    '/node_modules/vite/package.json',
    '/%00',
    '/%ff%fe',
  ];
  const index = (await asked(address, '/')).body;
  for (const path of outside) {
    const { status, body } = await asked(address, path, { Host: host });
    // An address of the page's own is answered by the page.
    if (status === 200) expect(body, path).toBe(index);
    else expect([path, status]).toEqual([path, expect.toSatisfy((code: number) => code >= 400 && code < 500)]);
  }
  for (const origin of ['http://nowhere.invalid', 'http://localhost:1', 'null']) {
    const { headers } = await asked(address, '/', { Origin: origin });
    expect([origin, headers['access-control-allow-origin']]).toEqual([origin, undefined]);
    expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer' });
  }
}

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
    await answersItself(address);
  } finally {
    child.removeAllListeners('close');
    child.kill();
    other.close();
  }
}, 180_000);
