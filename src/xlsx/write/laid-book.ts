import type { Answer, LaidCell, LaidSheet } from '../../sheet/laid-sheet.ts';
import type { Alignment, CellValue, DataValidation, Fill, Font, Worksheet } from 'exceljs';
import { columnLetters } from '../../formula/address.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { aboutMark } from '../about.ts';
import { numberFormat, textFormat } from './cell-styles.ts';
import { fileSheetNames } from './file-sheet-names.ts';
import { fileText } from './file-text.ts';
import { packedBook } from './packed-book.ts';
import { wrappedHeight } from './writing.ts';

interface LaidOptions {
  readonly title: string;
  /** Number of the paper size as files give it: 9 is A4, 1 Letter. Source: ECMA-376 Part 1, 18.3.1.63 (pageSetup). */
  readonly paper: 9 | 1;
  readonly stamp?: Date;
  /** Of the numbers' formats; metric when it is not given. */
  readonly units?: UnitSystem;
}

const font = { name: 'Calibri', family: 2, size: 10 } as const;
const fonts: Readonly<Record<LaidCell['look'], Partial<Font>>> = {
  title: { ...font, size: 18, bold: true },
  heading: { ...font, size: 12, bold: true },
  head: { ...font, size: 9, bold: true },
  text: font,
  strong: { ...font, bold: true },
  blank: font,
};
const line = { style: 'thin', color: { argb: 'FF808080' } } as const;
const room = { style: 'thin', color: { argb: 'FF000000' } } as const;
/** Points of a row with room to write, and of a title's. */
const least = { blank: 22, title: 26 };

/** A cell's value as the library takes it: of a text with bold lines first, two runs. */
function cellValue({ value, boldLines = 0 }: LaidCell): CellValue {
  if (typeof value === 'object' && value !== null) return { formula: value.formula, result: value.value };
  if (typeof value !== 'string') return value;
  const { text } = fileText(value);
  const lines = text.split('\n');
  if (boldLines === 0 || boldLines >= lines.length) return text;
  return {
    richText: [
      { font: fonts.strong, text: `${lines.slice(0, boldLines).join('\n')}\n` },
      { font: fonts.text, text: lines.slice(boldLines).join('\n') },
    ],
  };
}

/** What is to be filled in: it shows on paper too. */
const open: Fill = { type: 'pattern', pattern: 'solid', fgColor: { argb: 'FFFFF6CC' } };

function validation(answer: Answer): DataValidation | undefined {
  if (answer.kind === 'text') return undefined;
  if (answer.kind === 'choice')
    return { type: 'list', allowBlank: true, formulae: [`"${answer.choices.join(',')}"`], showErrorMessage: true };
  return {
    type: answer.kind === 'count' ? 'whole' : answer.kind === 'date' ? 'date' : 'decimal',
    operator: 'greaterThanOrEqual',
    allowBlank: true,
    formulae: [answer.min],
    showErrorMessage: true,
    error: answer.message,
  };
}

/** How a cell's number is shown. */
const formatOf = ({ value, shown, answer }: LaidCell, units: UnitSystem): string =>
  shown !== undefined
    ? numberFormat(shown.kind, units, shown)
    : typeof value === 'string' || answer?.kind === 'text'
      ? textFormat
      : 'General';

function writeRow(
  sheet: Worksheet,
  number: number,
  cells: readonly LaidCell[],
  { widths, locked }: LaidSheet,
  units: UnitSystem,
): void {
  let column = 1;
  const texts: unknown[] = [];
  const spanned: number[] = [];
  for (const laid of cells) {
    const { value, look, span, align, answer } = laid;
    const breadth = widths.slice(column - 1, column - 1 + span).reduce((sum, width) => sum + width, 0);
    if (span > 1) sheet.mergeCells(number, column, number, column + span - 1);
    const cell = sheet.getRow(number).getCell(column);
    cell.value = cellValue(laid);
    const alignment: Partial<Alignment> = {
      vertical: look === 'head' ? 'bottom' : 'top',
      wrapText: true,
      ...(align === 'end'
        ? { horizontal: 'right', indent: 1 }
        : typeof value === 'number'
          ? { horizontal: 'left' }
          : {}),
    };
    const border =
      look === 'blank'
        ? { top: room, bottom: room, left: room, right: room }
        : look === 'head'
          ? { bottom: room }
          : cells.length > 1
            ? { bottom: line }
            : {};
    for (let at = column; at < column + span; at += 1)
      sheet.getRow(number).getCell(at).style = {
        font: fonts[look],
        alignment,
        border,
        numFmt: formatOf(laid, units),
        ...(answer === undefined ? {} : { fill: open }),
        ...(locked === true && answer !== undefined ? { protection: { locked: false } } : {}),
      };
    const allowed = answer === undefined ? undefined : validation(answer);
    if (allowed !== undefined) cell.dataValidation = allowed;
    texts.push(look === 'title' ? '' : value);
    spanned.push(breadth * 1.1);
    column += span;
  }
  const asked = Math.max(0, ...cells.map(({ look }) => (look === 'blank' || look === 'title' ? least[look] : 0)));
  sheet.getRow(number).height = Math.max(asked, wrappedHeight(texts, spanned));
}

/** Sheets to be read as a file of their own; the writing library is loaded when this is called. */
export async function laidBook(
  sheets: readonly LaidSheet[],
  { title, paper, stamp = new Date(), units = 'metric' }: LaidOptions,
): Promise<Uint8Array> {
  await import('./whole-texts.ts');
  const { default: ExcelJS } = await import('exceljs');
  const file = new ExcelJS.Workbook();
  file.creator = aboutMark;
  file.lastModifiedBy = aboutMark;
  file.title = fileText(title).text;
  file.created = stamp;
  file.modified = stamp;
  const own = distinct(sheets.map(({ name }) => name));
  const names = fileSheetNames(own, []);
  if (
    sheets.some(({ rows }) =>
      rows.some((cells) => cells.some(({ value }) => typeof value === 'object' && value !== null)),
    )
  )
    file.calcProperties = { fullCalcOnLoad: true };
  for (const [index, laid] of sheets.entries()) {
    const { widths, rows, locked, hiddenColumns = 0, landscape } = laid;
    const sheet = file.addWorksheet(names.get(own[index] ?? '') ?? `Sheet ${index + 1}`, {
      pageSetup: {
        orientation: landscape === true ? 'landscape' : 'portrait',
        paperSize: paper as number,
        fitToPage: true,
        fitToWidth: 1,
        fitToHeight: 0,
        margins: { left: 0.5, right: 0.4, top: 0.5, bottom: 0.6, header: 0.3, footer: 0.3 },
      },
      headerFooter: { oddFooter: '&L&A&RPage &P of &N' },
    });
    sheet.columns = widths.map((width, place) => ({ width, hidden: place >= widths.length - hiddenColumns }));
    rows.forEach((cells, at) => writeRow(sheet, at + 1, cells, laid, units));
    if (hiddenColumns > 0)
      sheet.pageSetup.printArea = `A1:${columnLetters(widths.length - hiddenColumns - 1)}${Math.max(1, rows.length)}`;
    if (locked === true)
      await sheet.protect('', { selectLockedCells: true, selectUnlockedCells: true, formatColumns: true });
  }
  return packedBook(new Uint8Array(await file.xlsx.writeBuffer({ zip: { compression: 'STORE' } })));
}

/** Names of which each is its own: a second of the same name gets a number. */
function distinct(names: readonly string[]): string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    let own = name;
    for (let count = 2; taken.has(own); count += 1) own = `${name} (${count})`;
    taken.add(own);
    return own;
  });
}
