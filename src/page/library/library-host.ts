import type { Workbook } from '../../workbook/workbook.ts';

/** What the books of the browser ask of the page that has one of them open. */
export interface LibraryHost {
  readonly book: Workbook;
  readonly saving: { readonly state: string };
  say(text: string, tone?: 'note' | 'problem'): void;
  changed(): void;
  listen(listener: () => void): void;
}
