import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import type { SheetRow } from '../records/sheet-rows.ts';
import { columnNames } from '../records/inputs.ts';
import { nearest } from '../units/nearest.ts';
import { listed } from '../sheet/words.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { belts } from '../../sheets/belts/index.ts';

/** The areas of a book's belts: names count alike in any case, as everywhere in the book. */
export class AreaNames {
  readonly #spellings = new Map<string, string>();

  constructor(book: Workbook) {
    for (const name of columnNames(book, belts.name, 'Area'))
      this.#spellings.set(String(name).trim().toLowerCase(), String(name).trim());
  }

  /** As the belts write it. */
  spelled(name: string): string {
    return this.#spellings.get(name.trim().toLowerCase()) ?? name.trim();
  }

  /** The area that a cell names; undefined when it is blank, null, and listed as wrong, when no belt has it. */
  of<Sheet extends SheetName>(row: SheetRow<Sheet>, header: HeaderOf<Sheet>): string | undefined | null {
    const text = row.text(header);
    if (text === '') return row.book.read(row.sheet, row.record, header) === null ? undefined : null;
    const known = this.#spellings.get(text.toLowerCase());
    if (known !== undefined) return known;
    const near = nearest(text, [...this.#spellings.values()]);
    row.tell(
      header,
      `${header} names "${text}", which no belt has as its area, so the row is left out: ` +
        `${near.length === 0 ? 'correct it' : `correct it, for example to ${listed(near, 'or')}`}`,
    );
    return null;
  }
}
