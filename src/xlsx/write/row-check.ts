import { type Column, isComputed } from '../../sheet/declaration.ts';
import { isWords, type UnitSystem } from '../../units/quantities.ts';
import { allowedInWords } from './validations.ts';

/** A check of a row that is typed into a sheet, as one plain formula that any spreadsheet program works out. */

interface CheckedColumn {
  /** How people are told of it. */
  readonly header: string;
  readonly column: Column;
  /** Letters of where it stands. */
  readonly letters: string;
}

/** Two figures of a row of which the first must be less than the other, or not more where `orEqual` says so. */
export interface CheckedPair {
  readonly column: string;
  readonly than: string;
  readonly orEqual?: true;
}

interface RowCheck {
  readonly columns: readonly CheckedColumn[];
  /** Headers without which a row is no use. */
  readonly needed: readonly string[];
  readonly pairs: readonly CheckedPair[];
  /** The column whose texts must each be another. */
  readonly key: string;
  readonly rows: { readonly first: number; readonly last: number };
  readonly units: UnitSystem;
}

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** What must hold of a filled cell; undefined where anything may stand. */
function condition({ kind, min, above, max, choices, several }: Column, cell: string): string | undefined {
  if (choices !== undefined)
    return 'sheet' in choices || several === true
      ? undefined
      : `OR(${choices.map((choice) => `${cell}=${quoted(choice)}`).join(',')})`;
  if (isWords(kind)) return undefined;
  const bounds = [
    ...(above === undefined ? [] : [`${cell}>${above}`]),
    ...(min === undefined ? [] : [`${cell}>=${min}`]),
    ...(max === undefined ? [] : [`${cell}<=${max}`]),
  ];
  // A text is more than any number in spreadsheet programs, so it is asked first.
  const held = bounds.length === 0 ? 'TRUE' : bounds.length === 1 ? (bounds[0] ?? '') : `AND(${bounds.join(',')})`;
  return `IF(ISNUMBER(${cell}),${held},FALSE)`;
}

/** The formula of one row: '' for a blank one, "complete", or what is missing and what can't be. */
export function rowCheckFormula({ columns, needed, pairs, key, rows, units }: RowCheck, row: number): string {
  const cellOf = (header: string): string => {
    const found = columns.find(({ column }) => column.header === header);
    if (found === undefined) throw new Error(`the form has no column ${header}`);
    return `${found.letters}${row}`;
  };
  const nameOf = (header: string): string => columns.find(({ column }) => column.header === header)?.header ?? header;
  const [first = '', last = ''] = [columns[0]?.letters, columns.at(-1)?.letters];
  const keyLetters = columns.find(({ column }) => column.header === key)?.letters ?? first;
  const limits = columns.flatMap(({ header, column, letters }) => {
    const cell = `${letters}${row}`;
    const must = isComputed(column) ? undefined : condition(column, cell);
    if (must === undefined) return [];
    const allowed = allowedInWords(limitsOf(column), units);
    return [`IF(${cell}="","",IF(${must},"",${quoted(`${header} must be ${allowed}. `)}))`];
  });
  const parts = [
    ...needed.map((header) => `IF(${cellOf(header)}="",${quoted(`${nameOf(header)} is missing. `)},"")`),
    `IF(COUNTIF($${keyLetters}$${rows.first}:$${keyLetters}$${rows.last},${cellOf(key)})>1,` +
      `${quoted(`${nameOf(key)} is there twice. `)},"")`,
    ...limits,
    ...pairs.map(({ column, than, orEqual }) => {
      const [one, other] = [cellOf(column), cellOf(than)];
      const wrong = `${one}${orEqual === true ? '>' : '>='}${other}`;
      const words = `${nameOf(column)} must be ${orEqual === true ? 'no more' : 'less'} than ${nameOf(than)}. `;
      return `IF(COUNT(${one},${other})=2,IF(${wrong},${quoted(words)},""),"")`;
    }),
  ];
  // Bars that meet say that nothing stands between them: so the parts need to be written once only.
  const said = `SUBSTITUTE(SUBSTITUTE("|"&${parts.join('&')}&"|","||","complete"),"|","")`;
  return `IF(COUNTA(${first}${row}:${last}${row})=0,"",TRIM(${said}))`;
}

function limitsOf({ choices, ...limits }: Column): Parameters<typeof allowedInWords>[0] {
  return choices === undefined || 'sheet' in choices ? limits : { ...limits, choices };
}
