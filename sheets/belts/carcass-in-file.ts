import { earliestCode } from '../../src/functions/code-search.ts';
import { codeFollowers } from '../../src/functions/designation.ts';
import type { FormulaInFile } from '../../src/sheet/declared-formula.ts';

/** A sign that no designation holds. */
const anyFollower = '\u00A6';

/** Material of the carcass as a file works it out: in a text with one sign for every follower but a space. */
export function carcassMaterialInFile(construction: string): FormulaInFile {
  const marked = (text: string, followers: readonly string[]): string =>
    followers.reduce((inner, follower) => `SUBSTITUTE(${inner},"${follower}","${anyFollower}")`, text);
  const [space = ' ', ...others] = codeFollowers;
  const half = Math.ceil(others.length / 2);
  const first = 'Construction with marks';
  const second = 'Construction with all marks';
  return {
    formula: `IF(ISTEXT(${construction}),${earliestCode(`{${second}}`, [space, anyFollower])},NA())`,
    parts: { [first]: marked(construction, others.slice(0, half)), [second]: marked(`{${first}}`, others.slice(half)) },
  };
}
