import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Plugin } from 'vite';

/** The file that keeps the others in the browser: src/page/workers/offline-worker.ts, beside the page. */
export const offlineFile = 'offline.js';

/** Tells it the files of the build, when all of them are written. */
export function offlineFiles(): Plugin {
  return {
    name: 'skewbook:offline-files',
    apply: 'build',
    writeBundle({ dir = '' }) {
      const paths = readdirSync(dir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name !== offlineFile)
        .map((entry) => join(entry.parentPath, entry.name))
        .toSorted();
      const digest = createHash('sha256');
      for (const path of paths) digest.update(readFileSync(path));
      const files = paths.map((path) => {
        const file = relative(dir, path).split(sep).join('/');
        return file === 'index.html' ? './' : file;
      });
      const own = join(dir, offlineFile);
      const told =
        `const builtFiles=${JSON.stringify(files)},` +
        `buildName=${JSON.stringify(digest.digest('hex').slice(0, 16))};\n`;
      writeFileSync(own, `${told}${readFileSync(own, 'utf8')}`);
    },
  };
}
