import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { anchor } from '../../src/documents/reference-text.ts';

/** What the documents link to is there, and the README stays one that is read. */

const root = fileURLToPath(new URL('../..', import.meta.url));
const text = (file: string): string => readFileSync(join(root, file), 'utf8');

/** Links of a document that lead nowhere in the repository: a file that is not there, a heading that is not in it. */
const broken = (file: string, words = text(file)): string[] =>
  [...words.replaceAll(/```[^]*?```/g, '').matchAll(/\]\(([^)\s]+)\)/g)].flatMap(([, link = '']) => {
    if (/^[a-z]+:/.test(link)) return [];
    const [path = '', heading] = link.split('#');
    const target = path === '' ? file : join(dirname(file), path);
    if (!existsSync(join(root, target))) return [link];
    const headings = [...(heading === undefined ? '' : text(target)).matchAll(/^#+ (.*)$/gm)].map(
      ([, title = '']) => title,
    );
    return heading === undefined || headings.some((title) => anchor(title) === heading) ? [] : [link];
  });

test.each(['README.md', 'DEVELOPERS.md', 'exports/README.md', 'exports/reference.md'])('links of %s', (file) => {
  expect(broken(file)).toEqual([]);
});

test('a link that leads nowhere is told', () => {
  expect(broken('README.md', '[a](nowhere.md) [b](README.md#nothing) [c](README.md#safety) [d](#units)')).toEqual([
    'nowhere.md',
    'README.md#nothing',
  ]);
});

test('the README is at most 200 lines, says joint (splice), and its pictures are small', () => {
  const readme = text('README.md');
  expect(readme.split('\n').length - 1).toBeLessThanOrEqual(200);
  expect(readme.match(/joints? \(splices?\)/g)).toHaveLength(1);
  const pictures = [...readme.matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map(([, path = '']) => path);
  expect(pictures).toHaveLength(2);
  for (const path of pictures) expect(statSync(join(root, path)).size, path).toBeLessThanOrEqual(150_000);
});
