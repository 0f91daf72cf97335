import { html, type TemplateResult } from 'lit-html';
import { isWeak, type Mark, markMeanings } from '../source-marks.ts';

/** The mark of a value or a source: broken lines round one that should be looked at. */
export const markBadge = (mark: Mark): TemplateResult =>
  html`<span class="mark ${isWeak(mark) ? 'mark-weak' : ''}" title=${markMeanings[mark]}>${mark}</span>`;
