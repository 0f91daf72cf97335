import { define } from '../formula/define.ts';
import { codeFound, earliestCode, withSpaces } from './code-search.ts';
import { carcassCodes, carcassPart } from './designation.ts';

/** What a belt's designation says of its carcass, in a form that other programs recalculate. */

/**
 * Material of the carcass, read from the belt's designation.
 *
 * The first word that is one of the codes, or begins with one and goes on with a digit, "/", "-", "," or ":". So it
 * reads "EP 400/3 4+2" (polyester and polyamide, 400 N/mm, 3 plies, covers 4 and 2 mm), "1000 EP 630/4 6/2 Y" and
 * "St1250", but not "PN 500" or "EPDM". Words are parted by spaces; upper and lower case are the same. Trade names hold
 * no code.
 *
 * The plain formula looks for every code with every follower at once; its answer is the earliest find.
 */
export const carcassMaterial = define({
  name: 'CARCASSMATERIAL',
  summary: "code of the carcass's material, read from the belt's designation",
  parameters: { construction: { kind: 'text', doc: "the belt's designation, such as EP 400/3 4+2" } },
  result: { kind: 'text', doc: carcassCodes.join(', ') },
  source: 'designations in the manner of ISO 14890 and DIN 22102, from memory',
  example: ['=CARCASSMATERIAL("1000 EP 630/4 6/2 Y")', 'EP'],
  calculate({ construction }) {
    return carcassPart(construction).material;
  },
  formula: codeFound(earliestCode(withSpaces('{construction}'))),
});
