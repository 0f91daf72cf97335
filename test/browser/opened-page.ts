import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';

/** The built page in a real browser, with everything it says on the console kept. */

const repository = fileURLToPath(new URL('../..', import.meta.url));
const built = join(repository, 'dist/page');
export const screenshots = join(repository, '.cache/screenshots');

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain',
  '': 'text/plain',
};
const browserCommands = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
export const browserOptions = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A page built for one test, with keys of its own. */
const keyedPage = join(repository, '.cache/keyed-page');

function build(keys: Readonly<Record<string, string>>): string {
  if (Object.keys(keys).length === 0) return built;
  const args = ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'error', '--outDir', keyedPage];
  const { status, stderr } = spawnSync(process.execPath, args, {
    cwd: repository,
    encoding: 'utf8',
    env: { ...process.env, VITEST: undefined, NODE_ENV: undefined, ...keys },
  });
  if (status !== 0) throw new Error(`the page could not be built: ${stderr}`);
  return keyedPage;
}

/** Rewrites the scripts of the page that was built with keys, and tells how many it has changed. */
export function rewriteKeyedPage(rewritten: (script: string) => string): number {
  const assets = join(keyedPage, 'assets');
  const changed = readdirSync(assets).filter((name) => {
    const script = name.endsWith('.js') ? readFileSync(join(assets, name), 'utf8') : '';
    if (rewritten(script) === script) return false;
    writeFileSync(join(assets, name), rewritten(script));
    return true;
  });
  return changed.length;
}

function serve(folder: string): Promise<Server> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://page');
    const path = join(folder, normalize(pathname === '/' ? '/index.html' : pathname));
    if (!path.startsWith(folder) || !existsSync(path)) {
      response.writeHead(404).end();
      return;
    }
    response
      .writeHead(200, { 'content-type': types[extname(path)] ?? 'application/octet-stream' })
      .end(readFileSync(path));
  });
  return new Promise((done) => server.listen(0, '127.0.0.1', () => done(server)));
}

/** The browser that is here. */
export function browserCommand(): string {
  const command = process.env['CHROMIUM'] ?? browserCommands.find((path) => existsSync(path));
  if (command === undefined)
    throw new Error('no Chromium found: install it, or name it in the environment variable CHROMIUM');
  return command;
}

/** The built page at an address of this machine, for browsers that a test starts itself. */
export async function servedPage(): Promise<{ readonly address: string; readonly stop: () => Promise<unknown> }> {
  const server = await serve(built);
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    stop: () => new Promise((done) => server.close(done)),
  };
}

export interface OpenedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors and warnings that the page gave since it was opened. */
  readonly complaints: string[];
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly scheme?: 'light' | 'dark';
  /** Whether the page keeps its files to start without its server; takes seconds, so only where it is the subject. */
  readonly offline?: boolean;
}

/** What the browser of a test says when it keeps the page from doing so. */
const blocked = 'Service Worker registration blocked by Playwright';

export class TestBrowser {
  readonly #server: Server;
  readonly #browser: Browser;

  private constructor(server: Server, browser: Browser) {
    this.#server = server;
    this.#browser = browser;
  }

  /** With keys in its environment the page is built anew, else when it is older than its sources. */
  static async start(keys: Readonly<Record<string, string>> = {}): Promise<TestBrowser> {
    const folder = build(keys);
    mkdirSync(screenshots, { recursive: true });
    return new TestBrowser(
      await serve(folder),
      await chromium.launch({ executablePath: browserCommand(), args: browserOptions }),
    );
  }

  async open({ width = 1440, height = 900, scheme = 'light', offline = false }: PageOptions = {}): Promise<OpenedPage> {
    const context = await this.#browser.newContext({
      viewport: { width, height },
      colorScheme: scheme,
      acceptDownloads: true,
      serviceWorkers: offline ? 'allow' : 'block',
    });
    await context.grantPermissions(['clipboard-read', 'clipboard-write']);
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on('console', (message) => {
      if ((message.type() === 'error' || message.type() === 'warning') && message.text() !== blocked)
        complaints.push(`${message.type()}: ${message.text()}`);
    });
    page.on('pageerror', (error) => complaints.push(`uncaught: ${error.message}`));
    await page.goto(`http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/`);
    await page.waitForSelector('.ht_master td');
    return { page, context, complaints };
  }

  /** From now on no file is served. */
  async stopServing(): Promise<void> {
    this.#server.closeAllConnections();
    await new Promise((done) => this.#server.close(done));
  }

  async stop(): Promise<void> {
    await this.#browser.close();
    await new Promise((done) => this.#server.close(done));
  }
}

/** Waits until the page shows what the keys before this have done: it is drawn with the next frame. */
export const drawn = (page: Page): Promise<void> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))));

/** Goes to a cell by its name, as typed into the box left of the formula. */
export async function goTo(page: Page, cell: string): Promise<void> {
  await page.keyboard.press('Control+g');
  await page.keyboard.type(cell);
  await page.keyboard.press('Enter');
  await arrivedAt(page, cell);
}

/** Waits until the page shows that a cell is gone to. */
export async function arrivedAt(page: Page, cell: string): Promise<void> {
  await drawn(page);
  const [, sheet, name = cell] = /^(?:'?([^!']+)'?!)?([A-Z]+\d+)$/.exec(cell) ?? [];
  // The box holds what was typed before the page is drawn anew; the label of the formula's field follows the drawing.
  await page.locator(`#formula[aria-label="Formula or content of ${name}"]`).waitFor();
  if (sheet !== undefined) await page.locator('.foot .tab[aria-selected=true]', { hasText: sheet }).waitFor();
}

/** What the formula bar tells of the selected cell. */
export const told = async (page: Page): Promise<string> =>
  (await page.locator('.told').innerText()).replaceAll(/\s+/g, ' ');

/** The content or formula of the selected cell. */
export const formula = (page: Page): Promise<string> => page.inputValue('#formula');

export const shot = (page: Page, name: string): Promise<Buffer> =>
  page.screenshot({ path: join(screenshots, `${name}.png`) });
