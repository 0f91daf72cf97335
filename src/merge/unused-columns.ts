import { bookColumns, columnNamed } from '../workbook/declared.ts';
import { withColumnRemoved } from '../workbook/state-changes.ts';
import type { BookState, SheetState } from '../workbook/state.ts';
import type { Three } from './merge-item.ts';
import type { Covers } from './matched-sheets.ts';

const isBlank = ({ rows }: SheetState, column: number): boolean =>
  rows.every(({ cells }) => (cells[column] ?? null) === null);

/** A book, or what a list covers of one. */
interface ListOrBook {
  readonly state: BookState;
  readonly covers?: Covers;
}

/**
 * Without the columns that the base, a list, only offers: a form that was sent out has columns for remarks, which the
 * book that sent it never had. Nobody took them away here, so what somebody wrote into them there is no conflict.
 */
export function withoutUnusedColumns(given: Three<ListOrBook>): Three<ListOrBook> {
  const { base, mine } = given;
  if (base.covers === undefined) return given;
  let { state } = base;
  const covers = new Map(base.covers);
  for (const sheet of base.state.sheets) {
    const here = mine.state.sheets.find(({ name }) => name === sheet.name);
    const offered = bookColumns(sheet).filter(
      ({ own, header }) => own && (here === undefined || columnNamed(here, header) === undefined),
    );
    for (const { header } of offered) {
      const now = state.sheets.find(({ name }) => name === sheet.name);
      const at = now === undefined ? undefined : columnNamed(now, header);
      if (now === undefined || at === undefined || !isBlank(now, at)) continue;
      state = withColumnRemoved(state, sheet.name, at);
      // It says that there was none, so that one that comes back is new.
      covers.set(sheet.name, new Set([...(covers.get(sheet.name) ?? []), header]));
    }
  }
  return state === base.state ? given : { ...given, base: { ...base, state, covers } };
}
