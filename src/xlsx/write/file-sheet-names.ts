/** Sheet names as files take them. Source: Microsoft, "Rename a worksheet"; "History" is reserved. */

const longest = 31;
/** With what XML has no place for, and half characters, such as a cut may leave. */
const refused = /[\u0000-\u001F\u007F\uFFFE\uFFFF\p{Cs}[\]:*?/\\]/gu;

/**
 * Each sheet's name in the file: its own where the rules allow it, else the nearest that they do.
 *
 * A file tells names apart without case, and the sheets that the export adds have theirs first.
 */
export function fileSheetNames(names: readonly string[], taken: readonly string[]): ReadonlyMap<string, string> {
  const used = new Set(['history', ...taken.map((name) => name.toLowerCase())]);
  const written = new Map<string, string>();
  const plain = names.filter(
    (name) => name.search(refused) < 0 && name.trim() !== '' && name.length <= longest && !/^'|'$/.test(name),
  );
  for (const name of [...plain, ...names.filter((other) => !plain.includes(other))]) {
    const base =
      name
        .replace(refused, ' ')
        .replace(/^'+|'+$/g, '')
        .trim() || 'Sheet';
    const cut = (length: number): string => base.slice(0, length).replaceAll(refused, '').trim();
    let candidate = cut(longest);
    for (let count = 2; used.has(candidate.toLowerCase()); count += 1)
      candidate = `${cut(longest - 1 - String(count).length)} ${count}`;
    used.add(candidate.toLowerCase());
    written.set(name, candidate);
  }
  return written;
}
