import { alikeCells, cellsInWords } from '../xlsx/import/alike-cells.ts';
import { type LackingInput, lackingWords } from '../xlsx/import/usual-values.ts';
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

const notUnderstoodWords = ({ column, given, why, allowed }: NotUnderstood, count: number): string =>
  `${column}: "${given}" was not understood${count > 1 ? ` in ${count} cells` : ''}: ` +
  `${why}${allowed === '' ? '' : `; allowed: ${allowed}`}. ${count > 1 ? 'Their text' : 'Its text'} is kept.`;

export const notUnderstoodLines = (file: string, items: readonly NotUnderstood[]): string[] =>
  alikeCells(items).map(
    ({ first, cells }) =>
      `  ${file}, ${first.sheet}!${cellsInWords(cells)}, ${notUnderstoodWords(first, cells.length)}`,
  );

const lackingLines = (lacking: readonly LackingInput[]): string[] =>
  lacking.length === 0
    ? []
    : [
        'Most verdicts need what the list does not give:',
        ...lacking.map(
          (item) =>
            `  ${lackingWords(item)}` + `${item.value === undefined ? '' : `: --fill "${item.column}=${item.value}"`}`,
        ),
      ];

/** Remarks beyond these are counted, not listed: a column of them says the same in every row. */
const mostRemarks = 40;

export function importLines(
  file: string,
  { units, unitsWhy, tables, notUnderstood, remarks, assumed, notKept, lacking }: ImportReport,
): string[] {
  const alike = alikeCells(remarks);
  return [
    `Read ${file} (${systemNames[units]}: ${unitsWhy})`,
    ...tables.flatMap((table) => tableLines(file, table)),
    ...(assumed.length === 0 ? [] : ['Assumptions made:', ...assumed.map((text) => `  ${text}`)]),
    ...(notKept.length === 0 ? [] : ['Not kept of the file:', ...notKept.map((text) => `  ${text}`)]),
    ...(remarks.length === 0
      ? []
      : [
          'Remarks:',
          ...alike
            .slice(0, mostRemarks)
            .map(
              ({ first: { sheet, column, given, what }, cells }) =>
                `  ${file}, ${sheet}!${cellsInWords(cells)}, ${column}: "${given}": ${what}`,
            ),
          ...(alike.length > mostRemarks ? [`  and ${alike.length - mostRemarks} more`] : []),
        ]),
    notUnderstood.length === 0
      ? 'All cells were understood.'
      : `Not understood: ${counted(notUnderstood.length, 'cell')}`,
    ...notUnderstoodLines(file, notUnderstood),
    ...lackingLines(lacking),
  ];
}
