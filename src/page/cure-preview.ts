import { belts } from '../../sheets/belts/index.ts';
import type { Cure } from '../checks/cures/sought.ts';
import { curesOf } from '../checks/findings.ts';
import { type Finding } from '../records/finding.ts';
import { isFault, type Value } from '../formula/values.ts';
import { unitOf } from '../units/quantities.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { valueText } from './cell-text.ts';

/** What a cure would change, before it is done. */
interface PreviewedChange {
  readonly header: string;
  readonly now: string;
  readonly after: string;
}

export interface PreviewedCure {
  readonly text: string;
  /** What would be entered; none for a cure that is not a matter of entering something. */
  readonly edits: readonly CellEdit[];
  readonly entered: readonly PreviewedChange[];
  /** What would follow: the verdict and the checks first, then other figures on show. */
  readonly follows: readonly PreviewedChange[];
}

function shown(book: Workbook, column: BookColumn, value: Value): string {
  const text = valueText(value, column.kind, column.look, book.units, !column.computed);
  const unit = typeof value === 'number' ? unitOf(column.kind, book.units) : '';
  return text === '' ? 'empty' : unit === '' ? text : `${text} ${unit}`;
}

function preview(book: Workbook, record: number, { text, inputs }: Cure): PreviewedCure {
  if (inputs === undefined) return { text, edits: [], entered: [], follows: [] };
  const columns = book.columns(belts.name);
  const row = book.whatIf(belts.name, record, inputs);
  const changes = columns.flatMap((column, position) => {
    if (column.declared === undefined || column.declared.background === true) return [];
    const value = row[position] ?? null;
    const place = { sheet: belts.name, record, column: position };
    const [now, after] = [shown(book, column, book.value(place)), shown(book, column, value)];
    return now === after ? [] : [{ column, place, value, change: { header: column.header, now, after } }];
  });
  const isCheck = ({ column }: { readonly column: BookColumn }): boolean => / check$|^Verdict$/.test(column.header);
  const followed = changes.filter(({ column }) => column.computed);
  const entered = changes.filter(({ column }) => !column.computed);
  return {
    text,
    edits: entered.flatMap(({ place, value }) => (isFault(value) ? [] : [{ ...place, content: value }])),
    entered: entered.map(({ change }) => change),
    follows: [...followed.filter(isCheck).toReversed(), ...followed.filter((one) => !isCheck(one))].map(
      ({ change }) => change,
    ),
  };
}

/** The cures of a finding's check, each with what it would change. */
export const previewedCures = (book: Workbook, { record, check }: Finding): PreviewedCure[] =>
  curesOf(book, record, check).map((cure) => preview(book, record, cure));
