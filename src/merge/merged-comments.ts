import { type BookLook, commentIn, layoutIn, noLook } from '../workbook/book-look.ts';
import type { BookState } from '../workbook/state.ts';

/** How a merged book is looked at, with what stands beside headers here and what only the other book wrote there. */
export function withMergedComments(
  look: BookLook | undefined,
  { base, mine, theirs }: Readonly<Record<'base' | 'mine' | 'theirs', BookState>>,
  sheets: readonly string[],
): BookLook | undefined {
  const layouts = new Map(Object.entries(look?.layouts ?? {}));
  for (const sheet of sheets) {
    const [before, here, there] = [base, mine, theirs].map((state) => layoutIn(state.look ?? noLook, sheet));
    const written = Object.entries(there?.comments ?? {}).filter(([header, comment]) => {
      const [said, found] = [before, here].map((one) => (one === undefined ? undefined : commentIn(one, header)));
      return found === said && comment !== said;
    });
    const shown = layouts.get(sheet) ?? here ?? there;
    if (shown === undefined) continue;
    const { comments: _, ...bare } = shown;
    const comments = { ...here?.comments, ...Object.fromEntries(written) };
    if (Object.keys(comments).length > 0) layouts.set(sheet, { ...bare, comments });
    else if (layouts.has(sheet)) layouts.set(sheet, bare);
  }
  const views = look?.views ?? [];
  return layouts.size + views.length === 0 ? undefined : { layouts: Object.fromEntries(layouts), views };
}
