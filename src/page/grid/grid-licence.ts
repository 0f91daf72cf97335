import { evaluation, inPlant, variable } from './grid-terms.json';

/** The key that was set when the page was built; blank counts as not set. */
const given = ((import.meta.env[variable] as string | undefined) ?? '').trim();

export const gridLicenceKey = given === '' ? 'non-commercial-and-evaluation' : given;

/** Under what terms the grid is used without a bought key; undefined with one. */
export const evaluationTerms = given === '' ? ([evaluation, inPlant] as const) : undefined;

/**
 * What the page says when the grid refuses its key; undefined when it takes it.
 *
 * The grid can't be asked: it locks itself, which is seen by what it puts over its cells once it has been shown.
 */
export const gridKeyNotice = (grids: HTMLElement): string | undefined =>
  grids.querySelector('.ht-license-lock') === null
    ? undefined
    : `This page was built with a key in ${variable} that the grid, Handsontable, refuses. Build the page with a ` +
      `valid key; without one, evaluation terms apply.`;
