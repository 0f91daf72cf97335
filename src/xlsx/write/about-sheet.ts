import type { CellValue } from 'exceljs';
import { safetyPurpose, safetyReminders } from '../../workbook/safety.ts';
import { declarationOf } from '../../workbook/declared.ts';
import { declaredWidth } from '../../workbook/state-changes.ts';
import { aboutRows, aboutSheetName } from '../about.ts';
import { findingsSheetName, functionsSheetName } from '../made-sheets.ts';
import type { AboutCell } from '../about-texts.ts';
import { cellStyle, legend, textFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { sideHeaders } from './working-side.ts';
import { type Writing, wrappedHeight } from './writing.ts';

/** The key of rows that say what a look means, and show it. */
const look = 'Cell style';

const licence =
  'Written by Skewbook, free software under the GNU General Public License, version 3. It comes without any warranty.';
const inventedFigures =
  'Plate series, strips, belts and prices in this book are invented for demonstration. ' +
  "Enter your suppliers' figures before you order or cut anything.";

function madeBy({ book }: Writing, findings: number): AboutCell[][] {
  return [
    ...book.state.sheets.map(({ name }): AboutCell[] => [
      'Contents',
      name,
      declarationOf(name)?.purpose ?? 'your own sheet',
    ]),
    [
      'Contents',
      findingsSheetName,
      `${findings} findings about the joints (splices) and their belts at the time of export; the columns Verdict ` +
        `and Findings of the sheet Belts are formulas ` +
        `and follow later changes`,
    ],
    [
      'Contents',
      functionsSheetName,
      'engineering functions as the program defines them: bounds, sources, and each in standard functions',
    ],
    ...legend.map(({ text }): AboutCell[] => [look, text]),
  ];
}

const widths = [20, 60, 60, 40, 40];

function aboutCells(writing: Writing, findings: number, mark: string | undefined): AboutCell[][] {
  const { book, sheets, said, records } = writing;
  const { typed, overrides, remarks, formats, names, otherwise } = said;
  const { state } = book;
  return [
    ...aboutRows({
      title: state.title,
      units: state.units,
      invented: state.invented,
      mark,
      sheets: state.sheets.map(({ name, rows, userColumns }) => ({
        name,
        written: sheets.get(name) ?? name,
        records: records.get(name) ?? rows.length,
        headers: declarationOf(name)?.columns.map(({ header }) => header) ?? [],
        workings: sideHeaders({ name, rows, userColumns }, writing.laid.get(name)),
      })),
      columns: state.sheets.flatMap((sheet) =>
        sheet.userColumns.map((column, own) => ({
          column,
          sheet: sheet.name,
          position: declaredWidth(sheet.name) + own,
        })),
      ),
      formulas: typed,
      overrides,
      remarks,
      formats,
      ...(state.look === undefined ? {} : { look: state.look }),
      widths: writing.widths,
      names,
    }),
    ...otherwise.map(({ place, why }): AboutCell[] => ['Exported differently', place, why]),
    ...(state.invented ? [['Invented', inventedFigures]] : []),
    ...madeBy(writing, findings),
    ['Safety', safetyPurpose],
    ...safetyReminders.map(({ text, rules }): AboutCell[] => ['Safety', text, rules]),
    ['Licence', licence],
  ];
}

/** What the book says of itself: for people, and for coming back from the file as it was. */
export function writeAbout(writing: Writing, findings: number, mark: string | undefined): void {
  const sheet = writing.file.addWorksheet(aboutSheetName, {
    views: [{ state: 'frozen', ySplit: 1 }],
    pageSetup: { orientation: 'landscape', fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  });
  sheet.columns = widths.map((width) => ({ width }));
  for (const [index, cells] of aboutCells(writing, findings, mark).entries()) {
    const row = sheet.getRow(index + 1);
    row.height = wrappedHeight(cells, widths);
    const shown = cells[0] === look ? legend.find(({ text }) => text === cells[1])?.role : undefined;
    cells.forEach((content, column) => {
      const cell = row.getCell(column + 1);
      const value: CellValue = typeof content === 'string' ? fileText(content).text : content;
      cell.value = value;
      cell.style = cellStyle(
        column === 0 ? 'key' : column === 1 && shown !== undefined ? shown : 'note',
        typeof value === 'string' ? textFormat : 'General',
      );
    });
  }
}
