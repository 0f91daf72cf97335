import { notAsked } from '../../src/functions/checks.ts';
import type { AssumptionName, CheckDeclaration, CheckedCell, ComparedNumber } from './check-declaration.ts';
import type { Column } from '../../src/sheet/declaration.ts';
import { capital } from '../../src/sheet/words.ts';
import { beltChecks } from './checks/index.ts';
import { beltInputs, plate } from './inputs.ts';
import { usualMargin } from '../values/assumptions.ts';

/** The columns that follow from the checks of a belt: a verdict each, the belt's Verdict, and its Findings. */

/** The header of a check's column. */
type CheckHeaderOf<Word extends string> = `${Capitalize<Word>} check`;

type BeltCheck = (typeof beltChecks)[number];
export type CheckWord = BeltCheck['word'];
export type CheckHeader = CheckHeaderOf<CheckWord>;
type NewJointCheck = Exclude<BeltCheck, { readonly ofJointInPlace: true }>;
export type NewJointCheckWord = NewJointCheck['word'];

export const checkHeader = <Word extends string>(word: Word): CheckHeaderOf<Word> => `${capital(word)} check`;

export const marginOf = ({ margin = usualMargin }: CheckDeclaration): AssumptionName => margin;

const isInput = (header: string): boolean => beltInputs.some((input) => input.header === header);

const cellText = ({ sheet, header }: CheckedCell): string => (sheet === 'Belts' ? `{${header}}` : plate(header));

/**
 * What stands for a number in the formula of a verdict. It is no number on anything that is missing or not allowed:
 * arguments that are checked are guarded where the formula is compiled.
 */
export const comparedFormula = (number: ComparedNumber): string => number.formula ?? cellText(number);

function comparison(check: CheckDeclaration): string {
  if ('verdict' in check) return check.verdict.formula;
  const { value, minimum, maximum } = check;
  const compared = [value, minimum, maximum].flatMap((number) => (number === undefined ? [] : comparedFormula(number)));
  const name = minimum === undefined ? 'MOSTCHECK' : maximum === undefined ? 'LEASTCHECK' : 'RANGECHECK';
  return `${name}(${[...compared, marginOf(check)].join(',')})`;
}

/** Whether a cell is empty, or a computed one answers nothing; an error is neither. */
const isEmpty = (cell: CheckedCell): string =>
  cell.sheet === 'Belts' && !isInput(cell.header)
    ? `IFERROR(LEN(${cellText(cell)})=0,FALSE)`
    : `ISBLANK(${cellText(cell)})`;

function verdictFormula(check: CheckDeclaration): string {
  const whole = comparison(check);
  const capped = check.atWorst === 'tight' ? `SUBSTITUTE(${whole},"fails","tight")` : whole;
  const [first, ...others] = (check.silentWithout ?? []).map(isEmpty);
  if (first === undefined) return capped;
  return `IF(${others.length === 0 ? first : `OR(${[first, ...others].join(',')})`},"${notAsked}",${capped})`;
}

/** What is compared, and when it does not count. */
export const checkDoc = ({ doc, silentWithout = [], atWorst, ofJointInPlace }: CheckDeclaration): string =>
  [
    doc,
    ...(silentWithout.length === 0
      ? []
      : [`not asked without ${silentWithout.map(({ header }) => header).join(' and ')}`]),
    ...(atWorst === undefined ? [] : [`${atWorst} at worst`]),
    ...(ofJointInPlace === true ? ['not for a joint still to be made'] : []),
  ].join('; ');

/** The most characters that a cell holds: a list of findings ends where its checks do. */
const mostCharacters = 32_767;

/** The checks that do not fit, by the headings of their columns. */
function findingsInFile(cells: readonly string[]): string {
  const ends = `${cells[0] ?? ''},${cells.at(-1) ?? ''}`;
  const [verdicts, headings] = [`CELLS(${ends})`, `HEADINGS(${ends})`];
  return (
    `TEXTJOIN("; ",TRUE,IF((${verdicts}="fits")+(${verdicts}="${notAsked}")>0,"",` +
    `SUBSTITUTE(LOWER(${headings})," check"," ")&${verdicts}))`
  );
}

/** The columns of some checks, in the order of the verdict. */
export function verdictColumns<Word extends string>(
  checks: readonly (CheckDeclaration & { readonly word: Word })[],
): Column<CheckHeaderOf<Word> | 'Verdict' | 'Findings'>[] {
  const found = checks.map(({ word, silentWithout }) => {
    const cell = `{${checkHeader(word)}}`;
    const isSilent = silentWithout === undefined ? `${cell}="fits"` : `OR(${cell}="fits",${cell}="${notAsked}")`;
    return `IF(${isSilent},"","; ${word} "&${cell})`;
  });
  return [
    ...checks.map((check): Column<CheckHeaderOf<Word>> => ({
      header: checkHeader(check.word),
      kind: 'text',
      doc: checkDoc(check),
      formula: verdictFormula(check),
      source: check.source,
    })),
    {
      header: 'Verdict',
      kind: 'text',
      doc: 'the worst verdict of the checks: fails, not known, tight, fits',
      source: 'definition',
      formula: `WORSTVERDICT(${checks.map(({ word }) => `{${checkHeader(word)}}`).join(',')})`,
    },
    {
      header: 'Findings',
      kind: 'text',
      doc: 'the checks that do not fit',
      source: 'definition',
      formula: `MID(${found.join('&')},${'; '.length + 1},${mostCharacters})`,
      inFile: { formula: findingsInFile(checks.map(({ word }) => `{${checkHeader(word)}}`)) },
    },
  ];
}

/** The checks with the columns of their verdicts. */
export const checkColumns = beltChecks.map(({ word }) => ({ word, header: checkHeader(word) }));

const isOfNewJoint = (check: BeltCheck): check is NewJointCheck => !('ofJointInPlace' in check);

/** The checks that count for a joint still to be made, with their columns. */
export const newJointChecks = beltChecks.filter(isOfNewJoint).map(({ word }) => ({ word, header: checkHeader(word) }));
