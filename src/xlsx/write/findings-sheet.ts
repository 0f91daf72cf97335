import type { CellValue, Worksheet } from 'exceljs';
import type { Figure, Finding } from '../../records/finding.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { type CellRole, numberFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { fileValue } from './file-values.ts';
import { packedTogether, RowText } from './row-text.ts';
import { addSheet, type RowSource, type Writing, wrappedHeight, writeHeadings } from './writing.ts';

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

/** Characters of a text within a formula. Source: Microsoft, "Excel specifications and limits". */
const mostInFormula = 255;

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/**
 * A cell that leads to a place in the book, as a formula: a sheet may have 65,530 links of its own (Microsoft, "Excel
 * specifications and limits"), a long list has more findings, and other programs take longer over each than over all
 * else in its row.
 */
const linkTo = (target: string, shown: string): CellValue => ({
  formula: `HYPERLINK(${quoted(`#${target}`)},${quoted(shown)})`,
  result: shown,
});

const figure = (given: Figure | null): CellValue => (given === null ? null : fileValue(given.value).value);

/** The place in the file that a finding speaks of: its cell is where to go. */
function target({ book, sheets }: RowSource, { sheet, record, column }: Finding): string | undefined {
  const written = sheets.get(sheet);
  const position = written === undefined ? undefined : book.findColumn(sheet, column);
  return written === undefined || position === undefined
    ? undefined
    : `${quotedSheet(written)}!${columnLetters(position)}${sheetRow(record)}`;
}

/** The rows of findings as text. */
export class FindingRows {
  readonly #source: RowSource;
  readonly #text: RowText;
  /** Numbers of the looks that nearly all cells have. */
  readonly #looks = new Map<CellRole, number>();

  constructor(source: RowSource) {
    this.#source = source;
    this.#text = new RowText(source.numbers, 'after gaps');
  }

  /** Findings below so many others, in texts that are packed together. */
  *rows(findings: Iterable<Finding>, above: number): Generator<string> {
    let index = above;
    for (const finding of findings) {
      this.#add(finding, index);
      index += 1;
      if (this.#text.length >= packedTogether) yield this.#text.taken();
    }
    if (this.#text.length > 0) yield this.#text.taken();
  }

  /** The number of a look without a format of its own. */
  #plain(role: CellRole): number {
    let look = this.#looks.get(role);
    if (look === undefined) this.#looks.set(role, (look = this.#source.numbers.look(role, 'General')));
    return look;
  }

  #add(finding: Finding, index: number): void {
    const { name, sheet, check, verdict, message, given, limit, cures, cell } = finding;
    const { numbers, units } = this.#source;
    const to = target(this.#source, finding);
    const linked = to !== undefined && Math.max(to.length + 1, cell.length) <= mostInFormula ? to : undefined;
    const cells: readonly CellValue[] = [
      fileText(name).text,
      sheet,
      check,
      verdict,
      fileText(message).text,
      figure(given),
      given?.unit ?? null,
      figure(limit),
      limit?.unit ?? null,
      fileText(cures.join('\n')).text,
      cell,
    ];
    const last = cells.length - 1;
    this.#text.begin(sheetRow(index), { height: wrappedHeight(cells, widths) });
    cells.forEach((value, column) => {
      const kind = column === 5 ? given?.kind : column === 7 ? limit?.kind : undefined;
      const isLink = column === last && linked !== undefined;
      const isFigure = typeof value === 'number' && kind !== undefined;
      const look = isFigure
        ? numbers.look('note', numberFormat(kind, units))
        : this.#plain(column === 0 ? 'key' : isLink ? 'link' : 'note');
      this.#text.cell(column, look, isLink ? linkTo(linked, cell) : value === '' ? null : value);
    });
    this.#text.end();
  }
}

/**
 * The sheet of the findings as the checks gave them when the book was written; the Belts sheet's own columns follow
 * later changes. Its rows are made apart.
 */
export function findingsSheet(writing: Writing, count: number): Worksheet {
  const sheet = addSheet(writing, findingsSheetName, widths, 1);
  writeHeadings(
    sheet,
    headings.map((text) => ({ text })),
    widths,
  );
  sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: Math.max(2, count + 1), column: headings.length } };
  return sheet;
}
