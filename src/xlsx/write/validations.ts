import type { DataValidation, Worksheet } from 'exceljs';
import { boundsInWords } from '../../formula/parameter.ts';
import type { Column, NamedValue } from '../../sheet/declaration.ts';
import { isWords, unitOf, type UnitSystem } from '../../units/quantities.ts';

/** What other programs let into a cell: the same bounds and words that the book checks. */

/** The writer keeps one rule for a whole range only when it is given as one; its typings leave this part out. */
interface WithValidations {
  readonly dataValidations: { add(range: string, rule: DataValidation): void };
}

export function addValidation(sheet: Worksheet, range: string, rule: DataValidation): void {
  (sheet as unknown as WithValidations).dataValidations.add(range, rule);
}

type Limited = Pick<Column, 'kind' | 'min' | 'above' | 'max'> & { readonly choices?: readonly string[] };

/** Source: Microsoft, "Excel specifications and limits" and the dialogue's own limits. */
const longest = { message: 225, list: 255 };

const firstOfMarch1900 = new Date(Date.UTC(1900, 2, 1));

function condition(
  { kind, min, above, max }: Limited,
  cell: string,
): Pick<DataValidation, 'type' | 'operator' | 'formulae'> {
  const type = kind === 'count' ? 'whole' : 'decimal';
  if (kind === 'date') return { type: 'date', operator: 'greaterThanOrEqual', formulae: [firstOfMarch1900] };
  if (min !== undefined && max !== undefined) return { type, operator: 'between', formulae: [min, max] };
  if (above !== undefined && max !== undefined)
    return { type: 'custom', formulae: [`AND(ISNUMBER(${cell}),${cell}>${above},${cell}<=${max})`] };
  if (min !== undefined) return { type, operator: 'greaterThanOrEqual', formulae: [min] };
  if (above !== undefined) return { type, operator: 'greaterThan', formulae: [above] };
  if (max !== undefined) return { type, operator: 'lessThanOrEqual', formulae: [max] };
  return { type: 'custom', formulae: [`ISNUMBER(${cell})`] };
}

/** What must stand in a cell, in words: "a number more than 0, in mm". */
export function allowedInWords({ kind, min, above, max, choices }: Limited, units: UnitSystem): string {
  if (choices !== undefined) return `one of: ${choices.join(', ')}`;
  if (kind === 'date') return 'a date';
  if (isWords(kind)) return 'a text';
  const bounds = boundsInWords({
    kind: 'number',
    doc: '',
    ...(min === undefined ? {} : { min }),
    ...(above === undefined ? {} : { above }),
    ...(max === undefined ? {} : { max }),
  });
  const unit = unitOf(kind, units);
  return [
    `${kind === 'count' ? 'a whole number' : 'a number'}${bounds === '' ? '' : ` ${bounds}`}`,
    ...(unit === '' ? [] : [`in ${unit}`]),
  ].join(', ');
}

const refusing = (name: string, must: string): Partial<DataValidation> => ({
  allowBlank: true,
  showErrorMessage: true,
  errorTitle: 'Skewbook',
  error: `${name} must be ${must}`.slice(0, longest.message),
});

/** The rule for cells with bounds or words of their own; undefined for free texts. `cell` is the first of them. */
function rule(name: string, limited: Limited, cell: string, units: UnitSystem): DataValidation | undefined {
  const { kind, choices } = limited;
  const must = allowedInWords(limited, units);
  if (choices !== undefined) {
    const list = choices.join(',');
    return list.length > longest.list ? undefined : { ...refusing(name, must), type: 'list', formulae: [`"${list}"`] };
  }
  return isWords(kind) ? undefined : { ...refusing(name, must), ...condition(limited, cell) };
}

/** The rule for a column of a record sheet; `source` is the range that holds its words when another column does. */
export function columnRule(
  column: Column,
  cell: string,
  units: UnitSystem,
  source: (sheet: string, header: string) => string | undefined,
): DataValidation | undefined {
  const { header, choices, several, ...limits } = column;
  if (several === true) return undefined;
  if (choices !== undefined && 'sheet' in choices) {
    const range = source(choices.sheet, choices.header);
    return range === undefined
      ? undefined
      : {
          ...refusing(header, `a ${choices.header.toLowerCase()} of the sheet ${choices.sheet}`),
          type: 'list',
          formulae: [range],
        };
  }
  return rule(header, { ...limits, ...(choices === undefined ? {} : { choices }) }, cell, units);
}

export const namedValueRule = (value: NamedValue, cell: string, units: UnitSystem): DataValidation | undefined =>
  rule(value.name, value, cell, units);
