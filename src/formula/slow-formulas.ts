/** What ends a change whose formulas take too long; apart from the engine, so that who only tells of it needs none. */

/** Milliseconds for all slow formulas of one change. Ours: as long as the reading of a file may take. */
export const mostForSlow = 20_000;

/** What a change ends with that asks for too many slow formulas. Its message is for the planner. */
export class FormulasTooSlow extends Error {
  constructor() {
    super(`its slow formulas take more than ${mostForSlow / 1000} s to calculate: use smaller ranges or fewer of them`);
    this.name = 'FormulasTooSlow';
  }
}
