const shown = (value: unknown): string => {
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 120 ? `${text.slice(0, 80)}… (${text.length})` : text;
};

/** The first places in which two books, or what was made of them, differ, in words. */
export function bookDifferences(before: unknown, after: unknown, most = 3): string[] {
  const found: string[] = [];
  const compare = (place: string, one: unknown, other: unknown): void => {
    if (found.length >= most || Object.is(one, other)) return;
    if (typeof one === 'object' && typeof other === 'object' && one !== null && other !== null) {
      for (const key of new Set([...Object.keys(one), ...Object.keys(other)]))
        compare(`${place}.${key}`, (one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key]);
    } else found.push(`${place}: ${shown(one)} became ${shown(other)}`);
  };
  compare('book', before, after);
  return found;
}
