import type { ColumnProposal, ImportChoices, ImportProposal, TableProposal } from '../xlsx/import/import-model.ts';
import { type Correction, headersOf, recalledList, rememberList } from './remembered-lists.ts';

export type { Correction } from './remembered-lists.ts';

const columnKey = (table: TableProposal, column: ColumnProposal): string =>
  `${table.sheet}|${table.headerTop}|${column.letter}`;
const tableKey = ({ sheet, headerTop }: TableProposal): string => `${sheet}|${headerTop}`;

/** A column as the user has it: with another target goes the unit that was worked out for the one before. */
function corrected(column: ColumnProposal, correction: Correction | undefined): ColumnProposal {
  if (correction === undefined) return column;
  const { unit, unitFrom, ...rest } = column;
  const retargeted = correction.target !== undefined && correction.target !== column.target;
  return {
    ...rest,
    ...(retargeted || unit === undefined ? {} : { unit }),
    ...(retargeted || unitFrom === undefined ? {} : { unitFrom }),
    ...correction,
    ...(correction.unit === undefined ? {} : { unitFrom: 'chosen' as const }),
    ...(retargeted ? { confidence: 1 } : {}),
    why: 'you chose it',
  };
}

/** What the user corrected of a file's columns and sheets, on top of whatever is proposed for them. */
export class ImportCorrections {
  readonly #columns = new Map<string, Correction>();
  readonly #targets = new Map<string, string>();
  #headers = '';

  correct(table: TableProposal, column: ColumnProposal, correction: Correction): void {
    const key = columnKey(table, column);
    this.#columns.set(key, { ...this.#columns.get(key), ...correction });
  }

  takeFor(table: TableProposal, target: string): void {
    this.#targets.set(tableKey(table), target);
  }

  applied(proposal: ImportProposal): ImportProposal {
    return {
      ...proposal,
      tables: proposal.tables.map((table) => ({
        ...table,
        target: this.#targets.get(tableKey(table)) ?? table.target,
        columns: table.columns.map((column) => corrected(column, this.#columns.get(columnKey(table, column)))),
      })),
    };
  }

  /** What was said of an earlier list with these headers; its columns are corrected as they were there. */
  recall(proposal: ImportProposal): ImportChoices | undefined {
    this.#headers = headersOf(proposal);
    const known = proposal.ours ? undefined : recalledList(this.#headers);
    for (const table of proposal.tables)
      for (const column of table.columns) {
        const said = known?.corrections.find(([header]) => header === column.header)?.[1];
        if (said !== undefined) this.#columns.set(columnKey(table, column), said);
      }
    return known?.choices;
  }

  remember({ tables, ours }: ImportProposal, choices: ImportChoices): void {
    if (ours || this.#headers === '') return;
    const corrections = tables.flatMap((table) =>
      table.columns.flatMap((column): (readonly [string, Correction])[] => {
        const said = this.#columns.get(columnKey(table, column));
        return said === undefined || column.header === '' ? [] : [[column.header, said]];
      }),
    );
    rememberList(this.#headers, { choices, corrections });
  }

  forget(): void {
    rememberList(this.#headers, undefined);
    this.#columns.clear();
  }
}
