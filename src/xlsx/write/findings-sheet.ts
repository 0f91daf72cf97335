import type { CellValue, Worksheet } from 'exceljs';
import type { Figure, Finding } from '../../records/finding.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { type CellRole, numberFormat } from './cell-styles.ts';
import { findingsSheetName } from '../made-sheets.ts';
import { fileText } from './file-text.ts';
import { fileValue } from './file-values.ts';
import { escaped, packedTogether, RowText } from './row-text.ts';
import { addSheet, type RowSource, type Writing, wrappedHeight, writeHeadings } from './writing.ts';

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
  'Link',
] as const;
const widths = [14, 13, 11, 11, 60, 10, 9, 10, 9, 60, 14, 7];

const place = headings.indexOf('Cell');
const link = headings.indexOf('Link');
/** What is to be clicked. */
const shown = 'show';

/** Findings that share one formula at most. */
const sharing = 512;

const figure = (given: Figure | null): CellValue => (given === null ? null : fileValue(given.value).value);

/** The place in the file that a finding speaks of: its cell is where to go. */
function target({ book, sheets }: RowSource, { sheet, record, column }: Finding): string | undefined {
  const written = sheets.get(sheet);
  const position = written === undefined ? undefined : book.findColumn(sheet, column);
  return written === undefined || position === undefined
    ? undefined
    : `${quotedSheet(written)}!${columnLetters(position)}${sheetRow(record)}`;
}

/**
 * What leads from a row to the cell that it names, for the rows below too: a formula, since a sheet may have 65,530
 * links of its own (Microsoft, "Excel specifications and limits"), and a long list has more findings. It holds no text
 * of the user's, and other programs read it once for all rows that share it, where each link takes them longer than
 * all else in its row.
 */
function sharedLink(row: number, last: number): string {
  const letters = columnLetters(link);
  const formula = escaped(`HYPERLINK("#"&${columnLetters(place)}${row},"${shown}")`);
  return `<f t="shared" ref="${letters}${row}:${letters}${last}" si="${row}">${formula}</f>`;
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
    let first = above;
    let together: Finding[] = [];
    for (const finding of findings) {
      together.push(finding);
      if (together.length < sharing) continue;
      this.#addAll(together, first);
      first += together.length;
      together = [];
      if (this.#text.length >= packedTogether) yield this.#text.taken();
    }
    this.#addAll(together, first);
    if (this.#text.length > 0) yield this.#text.taken();
  }

  #addAll(findings: readonly Finding[], first: number): void {
    const last = sheetRow(first + findings.length - 1);
    let shared: string | undefined;
    findings.forEach((finding, at) => {
      const index = first + at;
      const to = target(this.#source, finding);
      this.#add(finding, index, to);
      if (to !== undefined) {
        this.#text.computed(link, this.#plain('link'), shared ?? sharedLink(sheetRow(index), last), shown);
        shared ??= `<f t="shared" si="${sheetRow(index)}"/>`;
      }
      this.#text.end();
    });
  }

  /** The number of a look without a format of its own. */
  #plain(role: CellRole): number {
    let look = this.#looks.get(role);
    if (look === undefined) this.#looks.set(role, (look = this.#source.numbers.look(role, 'General')));
    return look;
  }

  /** Begins the row of a finding, up to its link. */
  #add(finding: Finding, index: number, to: string | undefined): void {
    const { name, sheet, check, verdict, message, given, limit, cures, cell } = finding;
    const { numbers, units } = this.#source;
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
      to ?? cell,
    ];
    this.#text.begin(sheetRow(index), { height: wrappedHeight(cells, widths) });
    cells.forEach((value, column) => {
      const kind = column === 5 ? given?.kind : column === 7 ? limit?.kind : undefined;
      const isFigure = typeof value === 'number' && kind !== undefined;
      const look = isFigure
        ? numbers.look('note', numberFormat(kind, units))
        : this.#plain(column === 0 ? 'key' : 'note');
      this.#text.cell(column, look, value === '' ? null : value);
    });
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
