import { type SeriesHeader } from '../../sheets/index.ts';
import { html, type TemplateResult } from 'lit-html';
import type { Explanation } from '../workbook/explanation.ts';
import { namedSheetOf } from '../workbook/declared.ts';
import { isWeak, type Mark, markMeanings, sourceMarks } from '../sheet/source-marks.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** The marks of values in the page. */

/**
 * The marks that stand beside a value: none beside nothing, nor for what the sheet works out, whose functions have
 * sources of their own.
 */
export function valueMarks(book: Workbook, { place: { sheet }, origin, sources }: Explanation): readonly Mark[] {
  switch (origin) {
    case 'computed':
    case 'empty':
      return [];
    case 'override':
      return ['over the formula'];
    case 'your formula':
      return ['your formula'];
    case 'named value':
      return [
        ...(namedSheetOf(sheet)?.editable === true ? (['assumption'] as const) : []),
        ...(sources.length === 0 ? sourceMarks('') : sources.flatMap(sourceMarks)),
      ];
    case 'entered':
      return book.findColumn(sheet, 'Supplier' satisfies SeriesHeader) !== undefined
        ? ['supplier', ...(book.state.invented ? (['invented'] as const) : [])]
        : ['entered'];
  }
}

/** The mark of a value or a source: broken lines round one that should be looked at. */
export const markBadge = (mark: Mark): TemplateResult =>
  html`<span class="mark ${isWeak(mark) ? 'mark-weak' : ''}" title=${markMeanings[mark]}>${mark}</span>`;
