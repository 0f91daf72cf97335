import type { Workbook } from '../workbook/workbook.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import { ChangeRefused } from '../what-if/typed-change.ts';
import { variantSheet, variantsOf, withVariant } from '../what-if/variants.ts';
import { counted } from '../units/phrases.ts';
import type { Desk } from './desk.ts';
import { changeAll } from './book-changes.ts';

/** Changes kept as a variant, from wherever they come; the cells themselves stay as they are. */

const isTaken = (book: Workbook, name: string): boolean =>
  variantsOf(book).some((variant) => variant.name.toLowerCase() === name.toLowerCase());

/** A name that no variant of the book has. */
export function freeName(book: Workbook, wanted: string): string {
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? wanted : `${wanted} (${number})`;
    if (!isTaken(book, name)) return name;
  }
}

/** Keeps changes under a name, and says so; answers why where that can't be. */
export function keepVariant(desk: Desk, name: string, edits: readonly CellEdit[]): string | undefined {
  try {
    const state = withVariant(desk.book, name, edits);
    const keep = (): void => desk.book.replace(state, `keep variant ${name}`);
    let isKept = false;
    changeAll(desk, `keep variant ${name}`, keep, () => {
      isKept = true;
      desk.say(`Kept as variant "${name}" in the sheet ${variantSheet}; nothing else changed.`, 'note');
    });
    if (!isKept && desk.changing === undefined) return 'It could not be kept.';
  } catch (error) {
    if (error instanceof ChangeRefused) return error.message;
    throw error;
  }
  return undefined;
}

/** Asks for a name, and keeps changes under it. */
export function askToKeep(desk: Desk, title: string, proposed: string, edits: readonly CellEdit[]): void {
  desk.open({
    kind: 'ask',
    title,
    label: 'Name of the variant',
    initial: proposed === '' ? '' : freeName(desk.book, proposed),
    answer(typed) {
      const name = typed.trim();
      if (name === '') return 'Give it a name.';
      if (isTaken(desk.book, name))
        return `There is a variant ${name}. Give another name, or delete its rows in the sheet ${variantSheet}.`;
      return keepVariant(desk, name, edits);
    },
  });
}

/** Keeps what was taken of a compared file, under the file's name; says what of it no variant can hold. */
export function keepCompared(
  desk: Desk,
  file: string,
  edits: readonly CellEdit[],
  others: number,
  kept: () => void,
): void {
  const left = others === 0 ? '' : `${counted(others, 'difference')} of whole records, columns or sheets, or formulas`;
  if (edits.length === 0) {
    desk.say(
      `A variant is made of cells: ${left === '' ? 'none is taken' : `${left} cannot be part of it`}.`,
      'problem',
    );
    return;
  }
  const name = freeName(desk.book, `as in ${file}`);
  const why = keepVariant(desk, name, edits);
  if (why !== undefined) {
    desk.say(why, 'problem');
    return;
  }
  desk.close();
  kept();
  desk.say(
    `${counted(edits.length, 'difference')} kept as variant "${name}" in the sheet ${variantSheet}` +
      `${left === '' ? '' : `; left out: ${left}`}.`,
    others === 0 ? 'note' : 'problem',
  );
}
