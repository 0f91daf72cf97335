import { typedFormula } from './formula-text.ts';
import type { RawName } from './raw-book.ts';
import { grouped } from './read-limits.ts';
import { saveAgain, UnreadableFile } from './unreadable-file.ts';
import { type Attributes, readPart } from './xml-part.ts';
import { isTrue, longText, unescaped } from './xml-text.ts';
import type { BookParts } from './zip-parts.ts';

interface ListedSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** Id of the relationship that leads to its part. */
  readonly relationship: string;
}

interface WorkbookPart {
  readonly sheets: readonly ListedSheet[];
  readonly names: readonly RawName[];
  readonly from1904: boolean;
}

/** The `id` attribute of the relationships' namespace, whatever its prefix. */
function relationshipId(attributes: Attributes): string | undefined {
  for (const name in attributes) if (name.endsWith(':id')) return attributes[name];
  return undefined;
}

/**
 * Reads the workbook's list of sheets, its names and its way of counting days.
 *
 * Names that belong to one sheet, and those that programs keep for themselves (`_xlnm.`), are left out.
 *
 * Source: ECMA-376 Part 1, 18.2.27 (workbook), 18.2.19 (sheet), 18.2.5 (definedName), 18.2.28 (workbookPr).
 */
export function workbookPart(parts: BookParts, path: string): WorkbookPart {
  const { limits } = parts;
  const sheets: ListedSheet[] = [];
  const names: RawName[] = [];
  let from1904 = false;
  let section = '';
  let name: string | undefined;
  let reference = '';

  const addSheet = (attributes: Attributes): void => {
    const relationship = relationshipId(attributes);
    const sheetName = attributes['name'];
    if (relationship === undefined || sheetName === undefined) {
      throw new UnreadableFile(
        'bad reference',
        `The file is damaged: sheet ${sheets.length + 1} in part ${path} has no name or names no part. ${saveAgain}`,
      );
    }
    if (sheets.length === limits.sheets) {
      throw new UnreadableFile(
        'too much content',
        `The workbook has more than ${grouped(limits.sheets)} sheets, ` +
          'the most that is read. Move the list of belts to a workbook of its own.',
      );
    }
    const state = attributes['state'];
    sheets.push({ name: unescaped(sheetName), hidden: state === 'hidden' || state === 'veryHidden', relationship });
  };

  readPart(parts, path, {
    open(element, attributes, depth) {
      if (depth === 1 && element !== 'workbook') {
        const what =
          element === 'document'
            ? 'a text document'
            : element === 'presentation'
              ? 'a presentation'
              : `"${element.slice(0, 40)}"`;
        throw new UnreadableFile(
          'not a workbook',
          `The file is not an .xlsx workbook: its main part ${path} is ${what}. Choose the workbook that holds the ` +
            `list of belts.`,
        );
      }
      if (depth === 2) {
        section = element;
        if (element === 'workbookPr') from1904 = isTrue(attributes['date1904']);
      }
      if (depth !== 3) return;
      if (section === 'sheets' && element === 'sheet') addSheet(attributes);
      if (section === 'definedNames' && element === 'definedName' && attributes['localSheetId'] === undefined) {
        name = unescaped(attributes['name'] ?? '');
        reference = '';
      }
    },
    close(_element, depth) {
      if (depth !== 3 || name === undefined) return;
      const typed = typedFormula(unescaped(reference).trim().replace(/^=/, ''));
      if (name !== '' && typed !== '' && !/^_xlnm\./i.test(name)) names.push({ name, reference: typed });
      if (names.length > limits.definedNames) {
        throw new UnreadableFile(
          'too much content',
          `The workbook defines more than ${grouped(limits.definedNames)} names, ` +
            'the most that is read. Delete names that are not used, and save it again as .xlsx.',
        );
      }
      name = undefined;
    },
    text(piece) {
      if (name === undefined) return;
      reference += piece;
      if (reference.length > limits.formulaCharacters) throw longText(limits, `defined name ${name}`);
    },
  });
  return { sheets, names, from1904 };
}
