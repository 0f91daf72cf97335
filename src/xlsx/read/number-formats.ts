/** Number formats by the numbers that the standard gives them. Source: ECMA-376 Part 1, 18.8.30 (numFmt). */
const builtIn: ReadonlyMap<number, string> = new Map([
  [1, '0'],
  [2, '0.00'],
  [3, '#,##0'],
  [4, '#,##0.00'],
  [9, '0%'],
  [10, '0.00%'],
  [11, '0.00E+00'],
  [12, '# ?/?'],
  [13, '# ??/??'],
  [14, 'mm-dd-yy'],
  [15, 'd-mmm-yy'],
  [16, 'd-mmm'],
  [17, 'mmm-yy'],
  [18, 'h:mm AM/PM'],
  [19, 'h:mm:ss AM/PM'],
  [20, 'h:mm'],
  [21, 'h:mm:ss'],
  [22, 'm/d/yy h:mm'],
  [37, '#,##0 ;(#,##0)'],
  [38, '#,##0 ;[Red](#,##0)'],
  [39, '#,##0.00;(#,##0.00)'],
  [40, '#,##0.00;[Red](#,##0.00)'],
  [45, 'mm:ss'],
  [46, '[h]:mm:ss'],
  [47, 'mmss.0'],
  [48, '##0.0E+0'],
  [49, '@'],
]);

/** Numbers whose format follows the program's language where that is an East Asian one: dates, and times of day. */
const localDates = new Set([27, 28, 29, 30, 31, 36, 50, 51, 52, 53, 54, 55, 56, 57, 58]);
const localTimes = new Set([32, 33, 34, 35]);

/** The code of a built-in format; undefined for General and for numbers without one, such as the local currency's. */
export function builtInFormat(id: number): string | undefined {
  if (localDates.has(id)) return 'yyyy-mm-dd';
  if (localTimes.has(id)) return 'h:mm:ss';
  return builtIn.get(id);
}

export type FormatKind = 'number' | 'date' | 'time';

/** Sections of a format code, each with literals gone and elapsed-time brackets opened. */
function bareSections(code: string): readonly { readonly letters: string; readonly elapsed: boolean }[] {
  const sections: { letters: string; elapsed: boolean }[] = [];
  let section = { letters: '', elapsed: false };
  for (const [part] of code.matchAll(/"[^"]*"?|\\.?|[_*].?|\[[^\]]*\]?|general|am\/pm|a\/p|[^]/gi)) {
    const first = part[0];
    if (first === '[') {
      const inner = part.slice(1, -1);
      if (/^(?:h+|m+|s+)$/i.test(inner)) section = { letters: section.letters + inner, elapsed: true };
    } else if (part === ';') {
      sections.push(section);
      section = { letters: '', elapsed: false };
    } else if (/^[ap].*\/p/i.test(part)) section.letters += 'h';
    else if (part.length === 1 && first !== '"' && first !== '\\' && first !== '_' && first !== '*')
      section.letters += part.toLowerCase();
  }
  return [...sections, section];
}

function sectionKind({ letters, elapsed }: { readonly letters: string; readonly elapsed: boolean }): FormatKind {
  // Digits stand in a date only as fractions of seconds; elsewhere letters beside them are a unit written without
  // quotes.
  if (/[0#?@]/.test(letters.replace(/s[.,]0+/, 's'))) return 'number';
  // A word such as "Standard" is no date either.
  if (/[a-z]/.test(letters.replace(/[ymdhsegb]/g, ''))) return 'number';
  if (/[yd]/.test(letters)) return 'date';
  const clock = elapsed || /[hs]/.test(letters);
  if (letters.includes('m')) return clock && !letters.includes('mmm') ? 'time' : 'date';
  return clock ? 'time' : 'number';
}

/**
 * Whether a format shows a number as a date, as a time (of day, or elapsed), or as a number.
 *
 * `m` is a minute beside hours or seconds and a month alone; literals, colours, conditions and locales count for
 * nothing.
 *
 * Source: ECMA-376 Part 1, 18.8.31 (numFmts).
 */
export function formatKind(code: string): FormatKind {
  for (const section of bareSections(code)) {
    const kind = sectionKind(section);
    if (kind !== 'number') return kind;
  }
  return 'number';
}
