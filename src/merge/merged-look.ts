import { type BookLook, commentIn, layoutIn, noLook } from '../workbook/book-look.ts';
import type { BookState } from '../workbook/state.ts';

/** How a merged book is looked at: as here, with what only the other book wrote beside headers. */
export function mergedLook(
  { base, mine, theirs }: Readonly<Record<'base' | 'mine' | 'theirs', BookState>>,
  sheets: readonly string[],
): BookLook | undefined {
  const layouts = sheets.flatMap((sheet) => {
    const [before, here, there] = [base, mine, theirs].map(({ look = noLook }) => layoutIn(look, sheet));
    // A sheet that only the other book has is shown as there.
    const known = here ?? (mine.sheets.some(({ name }) => name === sheet) ? undefined : there);
    const written = Object.entries(there?.comments ?? {}).filter(([header, comment]) => {
      const [said, found] = [before, here].map((one) => (one === undefined ? undefined : commentIn(one, header)));
      return found === said && comment !== said;
    });
    if (written.length === 0) return known === undefined ? [] : [[sheet, known] as const];
    const shown = known ?? there;
    return shown === undefined
      ? []
      : [[sheet, { ...shown, comments: { ...known?.comments, ...Object.fromEntries(written) } }] as const];
  });
  const { views } = mine.look ?? noLook;
  return layouts.length + views.length === 0 ? undefined : { layouts: Object.fromEntries(layouts), views };
}
