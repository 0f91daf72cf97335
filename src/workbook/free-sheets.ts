import { withReferences } from '../formula/reference-text.ts';
import { withAllFormulas } from './formula-changes.ts';
import { compiledSheets } from './declared.ts';
import { type BookState, sheetOf } from './state.ts';

/** Sheets of the user's: added, renamed, copied, moved. */

/** A state with a free sheet of empty cells behind the others. */
export const withFreeSheet = (state: BookState, name: string, columns: number, rows: number): BookState => ({
  ...state,
  sheets: [
    ...state.sheets,
    {
      name,
      userColumns: Array.from({ length: columns }, (_, index) => ({ header: `Column ${index + 1}`, kind: 'number' })),
      rows: Array.from({ length: rows }, () => ({ cells: Array.from({ length: columns }, () => null) })),
    },
  ],
});

const alike = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** Why a text will not do as the name of a sheet; undefined when it will. */
export function sheetNameRefusal({ sheets }: BookState, typed: string, present?: string): string | undefined {
  const name = typed.trim();
  if (name === '') return 'A sheet needs a name.';
  if (name.length > 31) return `A sheet name has at most 31 characters, and this one has ${name.length}.`;
  if (/[[\]:*?/\\!']/.test(name)) return "A sheet name cannot hold any of [ ] : * ? / \\ ! '";
  return sheets.some((sheet) => alike(sheet.name, name) && sheet.name !== present)
    ? `There is already a sheet ${name}.`
    : undefined;
}

/** A state in which one of the user's sheets has another name: formulas follow it, and so does how it is shown. */
export function withSheetRenamed(state: BookState, before: string, after: string): BookState {
  const led = withAllFormulas(state, (formula) =>
    withReferences(formula, (reference) =>
      reference.sheet !== undefined && alike(reference.sheet, before) ? { ...reference, sheet: after } : undefined,
    ),
  );
  const { look } = state;
  return {
    ...led,
    sheets: led.sheets.map((sheet) => (sheet.name === before ? { ...sheet, name: after } : sheet)),
    ...(look === undefined
      ? {}
      : {
          look: {
            ...look,
            layouts: Object.fromEntries(
              Object.entries(look.layouts).map(([name, layout]) => [name === before ? after : name, layout]),
            ),
            views: look.views.map((view) => (view.sheet === before ? { ...view, sheet: after } : view)),
          },
        }),
  };
}

/** A name for a copy that no other sheet has, short enough for a file. */
export function copyName({ sheets }: BookState, name: string): string {
  for (let number = 2; ; number += 1) {
    const tail = ` (${number})`;
    const candidate = `${name.slice(0, 31 - tail.length)}${tail}`;
    if (!sheets.some((sheet) => alike(sheet.name, candidate))) return candidate;
  }
}

/** A state with a copy of one of the user's sheets behind it. Its formulas look at its own cells where they did. */
export function withSheetCopied(state: BookState, name: string, copy: string): BookState {
  const at = state.sheets.findIndex((sheet) => sheet.name === name);
  return { ...state, sheets: state.sheets.toSpliced(at + 1, 0, { ...sheetOf(state, name), name: copy }) };
}

/** Where a sheet may be moved by a step: among the user's own, which stand behind the others. */
export function canMoveSheet({ sheets }: BookState, name: string, step: 1 | -1): boolean {
  const beside = sheets[sheets.findIndex((sheet) => sheet.name === name) + step];
  return !compiledSheets.has(name) && beside !== undefined && !compiledSheets.has(beside.name);
}

export function withSheetMoved(state: BookState, name: string, step: 1 | -1): BookState {
  const at = state.sheets.findIndex((sheet) => sheet.name === name);
  if (!canMoveSheet(state, name, step)) return state;
  return { ...state, sheets: state.sheets.toSpliced(at, 1).toSpliced(at + step, 0, sheetOf(state, name)) };
}
