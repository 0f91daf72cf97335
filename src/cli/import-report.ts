import { counted } from '../units/phrases.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { ColumnReport, ImportReport, NotUnderstood, TableReport } from '../xlsx/import/import-model.ts';

/** What was read and matched, in lines for a terminal. Every place is named with its file and sheet. */

const systemNames: Readonly<Record<UnitSystem, string>> = { metric: 'metric', us: 'US customary' };

const targetText = ({ target }: ColumnReport): string =>
  target === 'own' ? 'kept as your own' : target === 'ignore' ? 'left out' : `-> ${target}`;

function columnLine(column: ColumnReport): string {
  const { letter, header, unit, unitFrom, filled, formulas, values, valuesWhy, why, suggestions, target } = column;
  const facts = [
    ...(unit === undefined
      ? []
      : [`in ${unit}${unitFrom === undefined || unitFrom === 'header' ? '' : ` by ${unitFrom}`}`]),
    `${filled} filled`,
    ...(formulas === 0 ? [] : [`${counted(formulas, 'formula')} kept`]),
    ...(values === 0
      ? []
      : [`${counted(values, 'formula')} kept as values only${valuesWhy === undefined ? '' : `: ${valuesWhy}`}`]),
    ...(target === 'own' && why !== '' ? [why] : []),
    ...(target === 'own' && suggestions.length > 0
      ? [
          `perhaps ${suggestions.map((item) => item.target).join(' or ')}? --map ` +
            `"${header === '' ? letter : header}=${suggestions[0]?.target ?? ''}"`,
        ]
      : []),
  ];
  return `    ${letter} ${header === '' ? '(no header)' : `"${header}"`} ${targetText(column)} (${facts.join('; ')})`;
}

function tableLines(file: string, table: TableReport): string[] {
  const { sheet, target, why, records, kept, headerRow, headerTop, skipped, columns, turned } = table;
  if (target === 'ignore') return [`  ${file}, sheet "${sheet}": left out, ${why}`];
  if (target === 'free')
    return [
      `  ${file}, sheet "${sheet}": kept as your ` +
        `own${kept === undefined || kept === sheet ? '' : ` under the name ` + `"${kept}"`}, ${why}`,
    ];
  const header =
    headerRow === 0
      ? ''
      : `, headers in ${turned ? 'column' : 'row'} ` +
        `${headerTop === headerRow ? headerRow : `${headerTop} to ` + `${headerRow}`}`;
  return [
    `  ${file}, sheet "${sheet}": ${counted(records, 'record')} of ${target}${header}`,
    ...columns.map(columnLine),
    ...(skipped.length === 0
      ? []
      : [
          `    skipped: ${skipped
            .map(
              ({ row, what, text }) =>
                `${turned ? 'column' : 'row'} ${row} ` + `(${what}${text === '' ? '' : `: ${shortened(text)}`})`,
            )
            .join(', ')}`,
        ]),
  ];
}

const shortened = (text: string): string => (text.length > 40 ? `${text.slice(0, 39)}…` : text);

export const notUnderstoodLine = (file: string, { sheet, cell, column, given, why, allowed }: NotUnderstood): string =>
  `  ${file}, ${sheet}!${cell}, ${column}: "${given}" was not understood: ` +
  `${why}${allowed === '' ? '' : `; allowed: ` + `${allowed}`}. Its text is kept.`;

/** Remarks beyond these are counted, not listed: a column of them says the same in every row. */
const mostRemarks = 40;

export function importLines(
  file: string,
  { units, unitsWhy, tables, notUnderstood, remarks, assumed }: ImportReport,
): string[] {
  return [
    `Read ${file} (${systemNames[units]}: ${unitsWhy})`,
    ...tables.flatMap((table) => tableLines(file, table)),
    ...(assumed.length === 0 ? [] : ['Assumptions made:', ...assumed.map((text) => `  ${text}`)]),
    ...(remarks.length === 0
      ? []
      : [
          'Remarks:',
          ...remarks
            .slice(0, mostRemarks)
            .map(
              ({ sheet, cell, column, given, what }) => `  ${file}, ${sheet}!${cell}, ${column}: "${given}": ${what}`,
            ),
          ...(remarks.length > mostRemarks ? [`  and ${remarks.length - mostRemarks} more`] : []),
        ]),
    notUnderstood.length === 0
      ? 'All cells were understood.'
      : `Not understood: ${counted(notUnderstood.length, 'cell')}`,
    ...notUnderstood.map((item) => notUnderstoodLine(file, item)),
  ];
}
