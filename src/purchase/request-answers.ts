import { columnLetters } from '../formula/address.ts';
import type { Content } from '../formula/values.ts';
import { readDate } from '../units/dates.ts';
import { isRefusal, leadingNumber } from '../units/numbers.ts';
import { askedColumns, askedOnce, type AskedCell, keyOf, type RequestKey } from './request-columns.ts';
import { titleRow } from './request-form.ts';

/** Answers in a request that came back, whatever program filled it in. */

/** A sheet as a file holds it: rows and columns count from 1. */
export interface FilledSheet {
  readonly name: string;
  readonly rows: ReadonlyMap<
    number,
    readonly { readonly column: number; readonly value: string | number | boolean | null; readonly date?: boolean }[]
  >;
}

export interface AnsweredLine {
  /** As "Request!A12". */
  readonly cell: string;
  readonly key: RequestKey;
  /** What is answered, by what it was asked for; absent where it was left blank or cannot be used. */
  readonly answers: ReadonlyMap<AskedCell['to'], Content>;
}

export interface RequestAnswers {
  readonly lines: readonly AnsweredLine[];
  /** Answers that cannot be used, each with its cell. */
  readonly problems: readonly string[];
}

type FilledCell = FilledSheet['rows'] extends ReadonlyMap<number, readonly (infer Cell)[]> ? Cell : never;

const said = (cell: FilledCell | undefined): string =>
  cell?.value === null || cell === undefined ? '' : String(cell.value).trim();

/** A number as it stands, or as it was typed as text. */
function numberOf(cell: FilledCell): number | { readonly reason: string } {
  if (typeof cell.value === 'number') return cell.value;
  const read = leadingNumber(said(cell));
  if (isRefusal(read)) return read;
  return read.rest.trim() === '' ? read.value : { reason: `"${read.rest.trim()}" follows the number` };
}

function dayOf(cell: FilledCell): number | { readonly reason: string } {
  if (typeof cell.value === 'number') return Math.floor(cell.value);
  const read = readDate(said(cell));
  return isRefusal(read) ? read : read.serial;
}

/** What is answered in a cell; undefined where nothing is, and why it cannot be used. */
function answerIn(
  { answer }: AskedCell,
  cell: FilledCell | undefined,
): Content | undefined | { readonly reason: string } {
  if (cell === undefined || said(cell) === '') return undefined;
  if (answer.kind === 'text') return said(cell);
  if (answer.kind === 'choice') {
    const word = answer.choices.find((choice) => choice === said(cell).toLowerCase());
    return word ?? { reason: `choose ${answer.choices.join(' or ')}` };
  }
  const value = answer.kind === 'date' ? dayOf(cell) : numberOf(cell);
  if (typeof value !== 'number') return value;
  if (value < answer.min || (answer.kind === 'count' && !Number.isInteger(value))) return { reason: answer.message };
  return value;
}

class AnswerReader {
  readonly #sheet: FilledSheet;
  readonly #problems: string[];

  constructor(sheet: FilledSheet, problems: string[]) {
    this.#sheet = sheet;
    this.#problems = problems;
  }

  #cell(row: number, column: number): FilledCell | undefined {
    return this.#sheet.rows.get(row)?.find((cell) => cell.column === column);
  }

  place(row: number, column: number): string {
    return `${this.#sheet.name}!${columnLetters(column - 1)}${row}`;
  }

  #read(asked: AskedCell, row: number, column: number, into: Map<AskedCell['to'], Content>): void {
    const cell = this.#cell(row, column);
    const value = answerIn(asked, cell);
    if (typeof value === 'object' && value !== null)
      this.#problems.push(`${this.place(row, column)}: ${asked.title} "${said(cell)}" cannot be used: ${value.reason}`);
    else if (value !== undefined) into.set(asked.to, value);
  }

  /** Answers for the whole quotation, found by what stands before them. */
  once(): Map<AskedCell['to'], Content> {
    const found = new Map<AskedCell['to'], Content>();
    for (const asked of askedOnce)
      for (const row of this.#sheet.rows.keys())
        if (said(this.#cell(row, 1)) === asked.title) this.#read(asked, row, titleRow.answer, found);
    return found;
  }

  /** Where the columns are named; undefined where they are not those of a request. */
  titles(): number | undefined {
    return [...this.#sheet.rows.keys()].find((row) =>
      askedColumns.every(({ title }, index) => said(this.#cell(row, titleRow.first + index)) === title),
    );
  }

  lines(from: number, once: ReadonlyMap<AskedCell['to'], Content>): AnsweredLine[] {
    return [...this.#sheet.rows].flatMap(([row, cells]): AnsweredLine[] => {
      const key = row > from ? keyOf(said(cells.find(({ column }) => column === titleRow.key))) : undefined;
      if (key === undefined) return [];
      const answers = new Map(once);
      askedColumns.forEach((asked, index) => this.#read(asked, row, titleRow.first + index, answers));
      return [{ cell: this.place(row, 1), key, answers }];
    });
  }
}

/** The answers in a file's sheets; undefined where none of them is a request of ours. */
export function requestAnswers(sheets: readonly FilledSheet[]): RequestAnswers | undefined {
  const problems: string[] = [];
  const lines: AnsweredLine[] = [];
  let known = false;
  for (const sheet of sheets) {
    const reader = new AnswerReader(sheet, problems);
    const titles = reader.titles();
    if (titles === undefined) continue;
    known = true;
    lines.push(...reader.lines(titles, reader.once()));
  }
  return known ? { lines, problems } : undefined;
}
