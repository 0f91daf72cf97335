import { systemName } from './column-units.ts';
import type { CellRemark, ColumnReport, ImportReport, NotUnderstood, TableReport } from './import-model.ts';
import type { SkippedRow } from './table-rows.ts';

/** The report of an import as lines for people: what was taken for what, what was kept, not understood and assumed. */

/** Cells of one column and one reason that are named before the rest is only counted. */
const mostCells = 5;

export function reportLines(report: ImportReport): string[] {
  return [
    report.ours
      ? `An export of this program, read back: ${systemName(report.units)} units.`
      : `Units of the book: ${systemName(report.units)} (${report.unitsWhy}).`,
    ...report.tables.flatMap((table) => tableLines(table, report.ours)),
    ...section(
      'Not understood, kept as text and marked',
      grouped(report.notUnderstood, ({ why, allowed }) => `${why}. Allowed: ${allowed}`),
    ),
    ...section(
      'Noticed',
      grouped(report.remarks, ({ what }) => what),
    ),
    ...section(
      'Assumed',
      [...new Set(report.assumed)].map((text) => `${text}.`),
    ),
  ];
}

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : [`${title}:`, ...lines.map((line) => `  ${line}`)];

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

function tableLines(table: TableReport, ours: boolean): string[] {
  const hidden = table.hidden ? ' (hidden in the file)' : '';
  const name = `Sheet "${table.sheet}"${hidden}`;
  if (table.target === 'ignore') return ours ? [] : [`${name}: left out, as chosen.`];
  if (table.target === 'free')
    return [
      `${name}: kept as your own sheet${table.kept === table.sheet || table.kept === undefined ? '' : ` "${table.kept}"`} (${table.why}).`,
    ];
  if (table.target === 'Assumptions' && !ours)
    return [`${name}: ${table.why}, which are taken; the sheet itself is kept as "${table.kept ?? table.sheet}".`];
  if (ours) return [`${name}: ${counted(table.records, 'record')}.`];
  const where = table.turned
    ? `records in columns, headers in column ${table.headerRow} of the sheet`
    : `header in row ${table.headerTop === table.headerRow ? table.headerRow : `${table.headerTop} to ${table.headerRow}`}`;
  const taken = table.columns.filter(({ target }) => target !== 'own' && target !== 'ignore');
  const own = table.columns.filter(({ target }) => target === 'own');
  const left = table.columns.filter(({ target }) => target === 'ignore');
  return [
    `${name}: ${counted(table.records, 'record')} of ${table.target}, ${where}${table.unitsRow === undefined ? '' : ', units in the row below it'}.`,
    ...taken.map((column) => `  ${columnLine(column)}`),
    ...own.map((column) => `  ${ownLine(column)}`),
    ...left.map(({ letter, header, filled }) => `  ${letter} "${header}" is left out, as chosen (${counted(filled, 'cell')})`),
    ...skippedLines(table.skipped).map((line) => `  ${line}`),
  ];
}

function columnLine({
  letter,
  header,
  target,
  unit,
  unitFrom,
  confidence,
  why,
  decimal,
  skewFrom,
  formulas,
  values,
  valuesWhy,
  firstValue,
}: ColumnReport): string {
  const facts = [
    unit === undefined || unitFrom === undefined ? '' : `unit ${unit}${unitOrigin[unitFrom]}`,
    skewFrom === 'edge' ? 'counted from the belt edge and turned round' : '',
    decimal === 'comma' ? 'decimal comma' : '',
    confidence >= 1 ? '' : `${Math.round(confidence * 100)} % sure: ${why}`,
    formulas === 0 ? '' : `${counted(formulas, 'formula')} kept`,
    values === 0 ? '' : `of ${counted(values, 'formula')} only the value (${firstValue ?? ''}: ${valuesWhy ?? ''})`,
  ].filter((fact) => fact !== '');
  return `${letter} "${header}" is ${target}${facts.length === 0 ? '' : ` (${facts.join('; ')})`}`;
}

const unitOrigin = {
  header: '',
  'units row': ', by the row of units',
  cells: ', by the cells',
  'number format': ', by the number format',
  list: ', as most of the list',
  plausible: ', by the sizes',
  chosen: ', as chosen',
} as const;

function ownLine({ letter, header, why, suggestions, filled, formulas, values, valuesWhy, firstValue }: ColumnReport): string {
  const [first] = suggestions;
  const hint = first === undefined ? '' : `; it might be ${suggestions.map(({ target }) => target).join(' or ')}`;
  const formula = values === 0 ? '' : `; of ${counted(values, 'formula')} only the value (${firstValue ?? ''}: ${valuesWhy ?? ''})`;
  const live = formulas === 0 ? '' : `; ${counted(formulas, 'formula')} kept`;
  return `${letter} "${header}" is kept as your own column, ${counted(filled, 'cell')} (${why}${hint}${live}${formula})`;
}

function skippedLines(skipped: readonly SkippedRow[]): string[] {
  const text = (row: string): string => (row.length > 90 ? `${row.slice(0, 87)}...` : row);
  return [
    ...skipped
      .slice(0, 12)
      .map(
        ({ row, what, text: said }) =>
          `row ${row} is no record but a ${what === 'formulas only' ? 'row of formulas' : what}: ${text(said)}`,
      ),
    ...(skipped.length > 12 ? [`and ${skipped.length - 12} more rows that are no records`] : []),
  ];
}

/** Cells with the same reason in the same column, the first few named. */
function grouped<Item extends NotUnderstood | CellRemark>(items: readonly Item[], reason: (item: Item) => string): string[] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const key = [item.sheet, item.column, reason(item)].join('\n');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return [...groups.values()].map((group) => {
    const [first] = group;
    if (first === undefined) return '';
    const cells = group
      .slice(0, mostCells)
      .map(({ cell, given }) => (given === '' ? cell : `${cell} "${given.length > 40 ? `${given.slice(0, 37)}...` : given}"`))
      .join(', ');
    const more = group.length > mostCells ? ` and ${group.length - mostCells} more` : '';
    return `${first.sheet}, ${first.column}, ${cells}${more}: ${reason(first)}.`;
  });
}
