import type { CellFormat } from './cell-formats.ts';
import type { SheetLookReader } from './sheet-look-reader.ts';
import type { Attributes } from './xml-part.ts';
import { isTrue } from './xml-text.ts';

/** Ranges as one attribute lists them: in their first few, and how many more. */
const listedRanges = (ranges: string | undefined): readonly string[] =>
  (ranges ?? '').split(/\s+/).filter((range) => /^\$?[A-Z]{1,3}\$?\d{1,7}(?::\$?[A-Z]{1,3}\$?\d{1,7})?$/.test(range));

/**
 * What a sheet's part says around its cells: widths, what is hidden and frozen, what no book keeps.
 *
 * Source: ECMA-376 Part 1, 18.3.1.13 (col), 18.3.1.66 (pane), 18.3.1.18 (conditionalFormatting), 18.3.1.32
 * (dataValidation).
 */
export function readFrame(
  look: SheetLookReader,
  section: string,
  name: string,
  attributes: Attributes,
  depth: number,
  formats: readonly CellFormat[],
): void {
  if (depth === 2 && name === 'conditionalFormatting')
    look.unkept('conditional formats', listedRanges(attributes['sqref']).join(' '));
  else if (depth === 3 && section === 'dataValidations' && name === 'dataValidation')
    look.unkept('rules for what may be entered', listedRanges(attributes['sqref']).join(' '));
  else if (depth === 3 && section === 'cols' && name === 'col') {
    const { min, max, width, hidden, style } = attributes;
    const wide = Number(width);
    look.columns({
      first: Number(min),
      last: Number(max),
      ...(width !== undefined && wide > 0 && wide <= 255 ? { width: wide } : {}),
      ...(isTrue(hidden) ? { hidden: true } : {}),
      look: formats[Number(style ?? 0)]?.look,
    });
  } else if (depth === 4 && section === 'sheetViews' && name === 'pane') {
    const { state, xSplit, ySplit } = attributes;
    if (state === 'frozen' || state === 'frozenSplit') look.freeze(Number(ySplit ?? 0), Number(xSplit ?? 0));
  }
}
