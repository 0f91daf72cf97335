import { typedFormula } from './formula-text.ts';
import type { RawName } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { type Attributes, type ElementReader, readPart } from './xml-part.ts';
import { isTrue, longText, unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

interface ListedSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** Id of the relationship that leads to its part. */
  readonly relationship: string;
}

export interface WorkbookPart {
  readonly sheets: readonly ListedSheet[];
  readonly names: readonly RawName[];
  readonly from1904: boolean;
}

/** The `id` attribute of the relationships' namespace, whatever its prefix. */
export function relationshipId(attributes: Attributes): string | undefined {
  for (const name in attributes) if (name.endsWith(':id')) return attributes[name];
  return undefined;
}

function notAWorkbook(path: string, root: string): UnreadableFile {
  const what =
    root === 'document' ? 'a text document' : root === 'presentation' ? 'a presentation' : `"${root.slice(0, 40)}"`;
  return new UnreadableFile(
    'not a workbook',
    `The file is not an .xlsx workbook: its main part ${path} is ${what}. Choose the workbook that holds the list of ` +
      `belts.`,
  );
}

class WorkbookReader implements ElementReader {
  readonly #path: string;
  readonly #limits: ReadLimits;
  readonly sheets: ListedSheet[] = [];
  readonly names: RawName[] = [];
  from1904 = false;
  #section = '';
  /** The defined name that is being read. */
  #name: string | undefined;
  #reference = '';

  constructor(path: string, limits: ReadLimits) {
    this.#path = path;
    this.#limits = limits;
  }

  #addSheet(attributes: Attributes): void {
    const relationship = relationshipId(attributes);
    const name = attributes['name'];
    if (relationship === undefined || name === undefined) {
      throw new UnreadableFile(
        'bad reference',
        `The file is damaged: sheet ${this.sheets.length + 1} in part ${this.#path} has no name or names no part. ` +
          `${saveAgain}`,
      );
    }
    if (this.sheets.length === this.#limits.sheets) {
      throw new UnreadableFile(
        'too much content',
        `The workbook has more than ${grouped(this.#limits.sheets)} sheets, ` +
          'the maximum that can be read. Move the list of belts to a workbook of its own.',
      );
    }
    const state = attributes['state'];
    this.sheets.push({ name: unescaped(name), hidden: state === 'hidden' || state === 'veryHidden', relationship });
  }

  open(element: string, attributes: Attributes, depth: number): void {
    if (depth === 1 && element !== 'workbook') throw notAWorkbook(this.#path, element);
    if (depth === 2) {
      this.#section = element;
      if (element === 'workbookPr') this.from1904 = isTrue(attributes['date1904']);
    }
    if (depth !== 3) return;
    if (this.#section === 'sheets' && element === 'sheet') this.#addSheet(attributes);
    if (this.#section === 'definedNames' && element === 'definedName' && attributes['localSheetId'] === undefined) {
      this.#name = unescaped(attributes['name'] ?? '');
      this.#reference = '';
    }
  }

  close(_element: string, depth: number): void {
    const name = this.#name;
    if (depth !== 3 || name === undefined) return;
    const reference = typedFormula(unescaped(this.#reference).trim().replace(/^=/, ''));
    if (name !== '' && reference !== '' && !/^_xlnm\./i.test(name)) this.names.push({ name, reference });
    if (this.names.length > this.#limits.definedNames) {
      throw new UnreadableFile(
        'too much content',
        `The workbook defines more than ${grouped(this.#limits.definedNames)} names, ` +
          'the maximum that can be read. Delete names that are not used, and save it again as .xlsx.',
      );
    }
    this.#name = undefined;
  }

  text(piece: string): void {
    if (this.#name === undefined) return;
    this.#reference += piece;
    if (this.#reference.length > this.#limits.formulaCharacters)
      throw longText(this.#limits, `defined name ${this.#name}`);
  }
}

/**
 * Reads the workbook's list of sheets, its names and its way of counting days.
 *
 * Names that belong to one sheet, and those that programs keep for themselves (`_xlnm.`), are left out.
 *
 * Source: ECMA-376 Part 1, 18.2.27 (workbook), 18.2.19 (sheet), 18.2.5 (definedName), 18.2.28 (workbookPr).
 */
export function workbookPart(parts: BookParts, path: string): WorkbookPart {
  const reader = new WorkbookReader(path, parts.limits);
  readPart(parts, path, reader);
  const { sheets, names, from1904 } = reader;
  return { sheets, names, from1904 };
}
