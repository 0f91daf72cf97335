import type { Verdict } from '../checks/finding.ts';
import type { BookState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { isVerdict } from './verdict-look.ts';

/** How many belts have each verdict, from the Verdict column: at once, whatever the findings are still being made of. */
let last: { readonly state: BookState; readonly counted: Readonly<Record<Verdict, number>> } | undefined;

export function counts(book: Workbook): Readonly<Record<Verdict, number>> {
  if (last?.state === book.state) return last.counted;
  const counted: Record<Verdict, number> = { fails: 0, 'not known': 0, tight: 0, fits: 0 };
  const sheet = 'Belts';
  const column = book.column(sheet, 'Verdict');
  const { length } = book.sheet(sheet).rows;
  for (let record = 0; record < length; record += 1) {
    const verdict = book.value({ sheet, record, column });
    counted[typeof verdict === 'string' && isVerdict(verdict) ? verdict : 'not known'] += 1;
  }
  last = { state: book.state, counted };
  return counted;
}
