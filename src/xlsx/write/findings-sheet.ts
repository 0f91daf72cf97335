import type { CellValue, Row, Worksheet } from 'exceljs';
import type { Figure, Finding } from '../../records/finding.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { cellStyle, numberFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { lateRows } from './late-rows.ts';
import { fileValue } from './file-values.ts';
import { addSheet, type Writing, wrappedHeight, writeHeadings } from './writing.ts';

export const findingsSheetName = 'Findings';

const headings = [
  'Record',
  'Sheet',
  'Check',
  'Verdict',
  'Finding',
  'Given',
  'Given unit',
  'Limit',
  'Limit unit',
  'Cures',
  'Cell',
] as const;
const widths = [14, 13, 11, 11, 60, 10, 9, 10, 9, 60, 14];

/** Source: Microsoft, "Excel specifications and limits": hyperlinks in a worksheet. */
const mostLinks = 65_530;

const figure = (given: Figure | null): CellValue => (given === null ? null : fileValue(given.value).value);

/** The place in the file that a finding speaks of: its cell is where to go. */
function link({ book, sheets }: Writing, { sheet, record, column, cell }: Finding): CellValue {
  const written = sheets.get(sheet);
  const position = written === undefined ? undefined : book.findColumn(sheet, column);
  return written === undefined || position === undefined
    ? cell
    : { text: cell, hyperlink: `${quotedSheet(written)}!${columnLetters(position)}${sheetRow(record)}` };
}

function* findingRows(writing: Writing, sheet: Worksheet, findings: readonly Finding[]): Generator<Row> {
  for (const [index, finding] of findings.entries()) {
    const { name, check, verdict, message, given, limit, cures } = finding;
    const cells: readonly CellValue[] = [
      fileText(name).text,
      finding.sheet,
      check,
      verdict,
      fileText(message).text,
      figure(given),
      given?.unit ?? null,
      figure(limit),
      limit?.unit ?? null,
      fileText(cures.join('\n')).text,
      index < mostLinks ? link(writing, finding) : finding.cell,
    ];
    const row = sheet.getRow(sheetRow(index));
    row.height = wrappedHeight(cells, widths);
    cells.forEach((value, column) => {
      const cell = row.getCell(column + 1);
      cell.value = value;
      const kind = column === 5 ? given?.kind : column === 7 ? limit?.kind : undefined;
      cell.style = cellStyle(
        column === 0 ? 'key' : typeof value === 'object' && value !== null && 'hyperlink' in value ? 'link' : 'note',
        typeof value === 'number' && kind !== undefined ? numberFormat(kind, writing.units) : 'General',
      );
    });
    yield row;
  }
}

/**
 * The findings as the checks gave them when the book was written; the Belts sheet's own columns follow later changes.
 */
export function writeFindings(writing: Writing, findings: readonly Finding[]): void {
  const sheet = addSheet(writing, findingsSheetName, widths, 1);
  writeHeadings(
    sheet,
    headings.map((text) => ({ text })),
    widths,
  );
  writing.late.push(lateRows(sheet, () => findingRows(writing, sheet, findings), writing.pack));
  sheet.autoFilter = {
    from: { row: 1, column: 1 },
    to: { row: Math.max(2, findings.length + 1), column: headings.length },
  };
  if (findings.length > mostLinks)
    writing.otherwise.push({
      place: findingsSheetName,
      why:
        `a file holds ${mostLinks.toLocaleString('en-US')} links per sheet; later findings name their cell ` +
        `without a link`,
    });
}
