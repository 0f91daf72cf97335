/** A text as a name that every file system takes; '' when nothing of it is left. */
export const plainName = (text: string): string =>
  text
    .replaceAll(/[^\p{L}\p{N} ._-]+/gu, ' ')
    .trim()
    .replaceAll(/\s+/g, ' ');

/** Plain names that differ from each other in any case: a later one of the same name gets a number. */
export function plainNames(texts: readonly string[], otherwise: string): string[] {
  const taken = new Set<string>();
  return texts.map((text) => {
    const name =
      plainName(text)
        .slice(0, 120)
        .replace(/^[. ]+/, '')
        .trimEnd() || otherwise;
    let own = name;
    for (let count = 2; taken.has(own.toLowerCase()); count += 1) own = `${name} (${count})`;
    taken.add(own.toLowerCase());
    return own;
  });
}
