import type { Content } from '../../src/formula/values.ts';
import { type Column, isComputed } from '../../src/sheet/declaration.ts';
import { compiledSheets, namedSheetOf } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState, SheetState } from '../../src/workbook/state.ts';
import { textContent } from '../../src/xlsx/import/cell-content.ts';

/** The demo's book with texts that some program or other would obey: formulas, markup, lines and codes of its own. */

/** Each leads or ends a text of the book. Those that a program trims off stand inside. */
export const hostileTexts: readonly string[] = [
  "=cmd|'/c calc'!A0 ",
  '+1+1 ',
  '-2+3 ',
  '@SUM(A1:A9) ',
  '=HYPERLINK("http://nowhere.invalid/","x") ',
  'javascript:alert(1)//',
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "' onload='alert(1)",
  ']]></title><g>',
  '&lt;b&gt;&#10;&quot;',
  'a\nEND:VEVENT\nBEGIN:VEVENT',
  'a\r\nATTACH:file:///etc/passwd',
  'a\rDESCRIPTION:b;c,d\\n\\;',
  'a\n  0\nENDSEC\n  0\nEOF',
  '%%c %%u ^J ^M \\P{\\H9;} \\U+0041',
  ') Tj ET /OpenAction << /S /JavaScript /JS (app.alert(1)) >>',
  '\u001b[2J\u009b31m\u0007\u0000',
  '\u202egnorw\u2066 \u2028\u2029\u0085',
  '\uFFFE\uFFFF\uD800 half \uDC00',
  '_x000a_ _x0041_',
  '{=1+1} [1]Sheet1!A1 ',
  '&R&"Arial"&P&&',
  `${'long '.repeat(60)}`,
];

const isWords = ({ kind, choices, several }: Column): boolean =>
  kind === 'text' && several !== true && (choices === undefined || 'sheet' in choices);

/** Columns whose texts mean something to the program itself: read as a rule, a currency or a designation. */
const read: ReadonlySet<string> = new Set(['Construction', 'Currency', 'Only when', 'Cautions']);

/** Which texts of a sheet may be disguised, by column. */
const open = (sheet: string): readonly boolean[] =>
  (compiledSheets.get(sheet)?.columns ?? []).map(
    (column) => isWords(column) && !isComputed(column) && !read.has(column.header),
  );

function disguisedSheet(sheet: SheetState, disguise: (text: string) => string): SheetState {
  if (namedSheetOf(sheet.name) !== undefined) return sheet;
  const columns = open(sheet.name);
  const cellsOf = (cells: readonly Content[]): Content[] =>
    cells.map((content, column) =>
      columns[column] === true && typeof content === 'string' && content !== ''
        ? textContent(disguise(content))
        : content,
    );
  return { ...sheet, rows: sheet.rows.map((row) => ({ ...row, cells: cellsOf(row.cells) })) };
}

/** The same name is disguised the same everywhere, so that references hold. */
export function hostileBook(): BookState {
  const disguises = new Map<string, string>();
  const disguise = (text: string): string => {
    const known = disguises.get(text);
    if (known !== undefined) return known;
    const hostile = hostileTexts[disguises.size % hostileTexts.length] ?? '';
    // Every other one stands last, but what is told by its first letter.
    const first = /^[=+\-@{]/.test(hostile) || disguises.size % 2 === 0;
    const made = first ? `${hostile}${text}` : `${text}${hostile}`;
    disguises.set(text, made);
    return made;
  };
  const demo = demoBook('metric');
  return {
    ...demo,
    // Last first: what a file can't hold at all stands where heads of pages are cut.
    title: hostileTexts.slice(0, -1).toReversed().join(' '),
    sheets: [
      ...demo.sheets.map((sheet) => disguisedSheet(sheet, disguise)),
      {
        name: '=cmd|\'/c calc\'!A0 & <b> "x"',
        userColumns: hostileTexts.slice(-6, -2).map((header) => ({ header, kind: 'text' as const })),
        rows: hostileTexts.map((text) => ({
          cells: [textContent(text), textContent(`${text}x`), '=1+1', text.slice(0, 3)],
          notes: { 0: text },
        })),
      },
    ],
  };
}
