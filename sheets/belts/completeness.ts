import type { Column } from '../../src/sheet/declaration.ts';
import { type FileTable, tensionInputs } from '../values/file-tables.ts';
import { type BeltInput, beltInputs } from './inputs.ts';
import { routeInputs } from './tension-methods.ts';

/**
 * Whether a belt's inputs are complete and allowed, as columns that only an exported file has: what is allowed of each
 * input stands in a table there.
 */

/**
 * For tests: each is tried. Without one of these the Verdict is not known, or only what is left of the joint is told.
 */
export const neededInputs: readonly BeltInput[] = [
  'Width',
  'Construction',
  'Thickness',
  'Take-up travel',
  'Skew',
  'Plate series',
  'Skive depth',
  'Installed',
  'Hours per year',
  'Service',
];

/** A bound that is more than any number, or less. */
const beyondAll = '10^307';
/** The least number above 0 that measures anything. */
const justAbove = '10^-290';

/** What tells words apart in the list of those that are allowed. */
const mark = '|';

/** Texts that may be anything, or that a list elsewhere allows. */
const anyText = '*';

const inputs: readonly Column<BeltInput>[] = beltInputs;

const least = ({ min, above }: Column): string =>
  min !== undefined ? String(min) : above === undefined ? `-${beyondAll}` : above === 0 ? justAbove : String(above);

function allowedWords({ kind, choices, several }: Column): string {
  if (choices !== undefined && !('sheet' in choices) && several !== true)
    return `${mark}${choices.map((word) => word.toLowerCase()).join(mark)}${mark}`;
  return kind === 'text' ? anyText : '';
}

const lists = { least: 'Inputs_least', most: 'Inputs_most', words: 'Inputs_words', needed: 'Inputs_needed' } as const;

/** What of each input is allowed, and what must be there; the inputs that a method for the tension may use. */
export const inputTables: readonly FileTable[] = [
  {
    name: 'Inputs',
    beside: 'Tables',
    columns: [
      { heading: 'Input of Belts', cells: inputs.map(({ header }) => header) },
      { heading: 'At least', name: lists.least, cells: inputs.map((input) => ({ formula: least(input) })) },
      {
        heading: 'At most',
        name: lists.most,
        cells: inputs.map(({ max }) => ({ formula: max === undefined ? beyondAll : String(max) })),
      },
      { heading: 'Allowed words', name: lists.words, cells: inputs.map((input) => allowedWords(input)) },
      {
        heading: 'Needed',
        name: lists.needed,
        cells: inputs.map(({ header }) => (neededInputs.includes(header) ? 1 : 0)),
      },
    ],
  },
  { name: tensionInputs, beside: 'Tables', columns: [{ heading: 'Inputs of the tension', cells: routeInputs }] },
];

/** What the length of the loop is worked out from without a list of pulleys. */
const loop = '{Head pulley},{Pulley centres}';

const across = `{${inputs[0]?.header ?? ''}},{${inputs.at(-1)?.header ?? ''}}`;
const [cells, headings] = [`CELLS(${across})`, `HEADINGS(${across})`];
const beside = (list: string): string => `TRANSPOSE(${list})`;

const words = beside(lists.words);
const isBeyond = `(${cells}<${beside(lists.least)})+(${cells}>${beside(lists.most)})`;
const isNoWord = `ISERROR(FIND("${mark}"&LOWER(${cells})&"${mark}",${words}))`;

const wrongNumbers = 'Wrong numbers';
const wrongWords = 'Wrong words';
const missing = 'What is missing';

const byTable = 'by the table Inputs beside the sheet Tables; empty without any';

/** Columns of a file, in order: each may use those before it. */
export const completenessColumns = [
  {
    header: wrongNumbers,
    doc: `inputs that hold no number, or one that is not allowed, ${byTable}`,
    formula:
      `TEXTJOIN("; ",TRUE,IFERROR(IF(ISBLANK(${cells})+(${words}<>""),"",` +
      `IF(${isBeyond},${headings},"")),${headings}))`,
  },
  {
    header: wrongWords,
    doc: `inputs that hold a word that is not allowed, ${byTable}`,
    formula:
      `TEXTJOIN("; ",TRUE,IF(ISBLANK(${cells})+(${words}="")+(${words}="${anyText}"),"",` +
      `IF(${isNoWord},${headings},"")))`,
  },
  {
    header: missing,
    doc: 'inputs without which the verdict is not known, and those that hold what is not allowed; empty when complete',
    formula:
      `TEXTJOIN("; ",TRUE,IF(ISBLANK(${cells})*${beside(lists.needed)},${headings}&" is empty",""),` +
      `IF(ISBLANK(CELLS(${loop}))*({Loop from}="centres"),HEADINGS(${loop})&" is empty",""),` +
      'IF(ISBLANK({Smallest pulley})*({Pulleys listed}=0),"Smallest pulley is empty",""),' +
      'IF(COUNTA({Joint life},{Life in passes})=0,"Joint life is empty",""),' +
      'IF(({Tension from}="not known")*({Tension inputs invalid}="no"),' +
      '"no method for the tension has its inputs",""),' +
      `IF({${wrongNumbers}}&{${wrongWords}}="","",` +
      `"not allowed: "&TEXTJOIN("; ",TRUE,{${wrongNumbers}},{${wrongWords}})))`,
  },
  {
    header: 'Inputs complete',
    doc: 'whether all inputs that the verdict needs are there, and all that are there are allowed: yes or no',
    formula: `IF({${missing}}="","yes","no")`,
  },
] as const;

/** How many of them stand before the sheet's own columns are worked out. */
export const wrongColumns = 2;
