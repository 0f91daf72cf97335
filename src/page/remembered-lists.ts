import type { ColumnProposal, ImportChoices, ImportProposal } from '../xlsx/import/import-model.ts';

/**
 * What a user said of a list, kept in the browser for the next list with the same headers: last month's corrections
 * are this month's.
 */
export type Correction = Partial<Pick<ColumnProposal, 'target' | 'unit' | 'skewFrom'>>;

interface RememberedList {
  readonly choices: ImportChoices;
  /** By the header of the list's column. */
  readonly corrections: readonly (readonly [header: string, correction: Correction])[];
}

const store = 'skewbook-lists';
/** Lists that are remembered; the one that was longest not imported goes first. Ours. */
const mostKept = 40;

/** What is the same in next month's list: the headers of its tables, wherever they stand. */
export const headersOf = ({ tables }: ImportProposal): string =>
  tables
    .filter(({ columns }) => columns.length > 0)
    .map(({ columns }) => columns.map(({ header }) => header.trim().toLowerCase()).join('|'))
    .join('\n');

type Entry = readonly [headers: string, list: RememberedList];

function kept(): readonly Entry[] {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(store) ?? '[]');
    // Only this page writes here; anything else is no list of entries and is passed over.
    return Array.isArray(read)
      ? read.filter((entry): entry is Entry => Array.isArray(entry) && typeof entry[0] === 'string')
      : [];
  } catch {
    return [];
  }
}

export const recalledList = (headers: string): RememberedList | undefined =>
  headers === '' ? undefined : kept().find(([known]) => known === headers)?.[1];

/** Keeps what was said, or forgets it. Rows and sheets by number are of one file and not kept. */
export function rememberList(headers: string, list: RememberedList | undefined): void {
  const others = kept().filter(([known]) => known !== headers);
  const { headerRow: _row, sheets: _sheets, ...choices } = list?.choices ?? {};
  const said = Object.keys(choices).length > 0 || (list?.corrections.length ?? 0) > 0;
  const entry: readonly Entry[] = list === undefined || !said ? [] : [[headers, { ...list, choices }]];
  const entries = [...entry, ...others].slice(0, mostKept);
  try {
    localStorage.setItem(store, JSON.stringify(entries));
  } catch {
    // A browser that keeps nothing only asks again next month.
  }
}
