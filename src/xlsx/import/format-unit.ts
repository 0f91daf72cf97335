const kept = new Map<string, string>();

/**
 * The literal that a number format writes beside the number, which may name its unit: `0.0" mm"`, `#,##0\ "kN/m"`; ''
 * without one. A currency in `[$€-407]` counts as literal; a percent sign does not, since the cell then holds the
 * share.
 */
export function formatUnitText(format: string): string {
  let text = kept.get(format);
  if (text === undefined) {
    const section = format.split(';')[0] ?? '';
    text = [
      ...section.matchAll(/"([^"]*)"|\\(.)|\[\$([^\]-]*)[^\]]*\]|([^#0?.,;_*@%E+\-\s"\\[\]]+)|\[[^\]]*\]|_.|\*.|[^]/g),
    ]
      .map(([, quoted, escaped, currency, bare]) => quoted ?? escaped ?? currency ?? bare ?? ' ')
      .join('')
      .trim();
    if (/^general$/i.test(text)) text = '';
    if (kept.size > 2000) kept.clear();
    kept.set(format, text);
  }
  return text;
}
