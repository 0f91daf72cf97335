import type { CellValue } from 'exceljs';
import type { EngineeringFunction } from '../../formula/define.ts';
import { argumentKinds } from '../../formula/parameter.ts';
import {
  exampleWords,
  firstOfSpill,
  noPlainFormula,
  parameterFacts,
  plainFormula,
} from '../../functions/function-words.ts';
import { subjects } from '../../functions/index.ts';
import { sheetRow } from '../../formula/address.ts';
import { functionsSheetName } from '../made-sheets.ts';
import { cellStyle, textFormat } from './cell-styles.ts';
import { fileText } from './file-text.ts';
import { addSheet, type Writing, wrappedHeight, writeHeadings } from './writing.ts';

const headings = [
  ['Function', 24],
  ['Subject', 11],
  ['Signature', 34],
  ['Purpose', 34],
  ['Parameters', 60],
  ['Result', 26],
  ['Source', 28],
  ['Example', 30],
  ['Value', 14],
  ['Recalculated', 14],
  ['In standard functions', 80],
] as const;

const origin = "These rows come from the program's own definitions, which its help and tests also use.";

function plainText(definition: EngineeringFunction): string {
  const formula = plainFormula(definition);
  return formula === undefined ? noPlainFormula : `${definition.spills ? firstOfSpill : ''}${formula}`;
}

/** A value of a cell, or rows as text. */
const exampleValue = (definition: EngineeringFunction): number | string => {
  const [, value] = definition.example;
  return typeof value === 'object' ? exampleWords(definition) : value;
};

/**
 * Every engineering function, written from the program's own definitions.
 *
 * The value of an example is the definition's; beside it stands its plain formula, which any program works out again.
 */
export function writeFunctions(writing: Writing): void {
  const widths = headings.map(([, width]) => width);
  const sheet = addSheet(writing, functionsSheetName, widths, 1);
  writeHeadings(
    sheet,
    headings.map(([text], column) => (column === 0 ? { text, note: origin } : { text })),
    widths,
  );
  const rows = subjects.flatMap(({ subject, functions }) => functions.map((definition) => ({ subject, definition })));
  rows.forEach(({ subject, definition }, index) => {
    const [example, value] = definition.example;
    const formula = writing.formulas.typed(example);
    const shown = exampleValue(definition);
    const first = typeof value === 'object' ? (value[0]?.[0] ?? 0) : value;
    const cells: readonly CellValue[] = [
      definition.name,
      subject,
      definition.signature,
      definition.summary,
      Object.entries(definition.parameters)
        .map(([name, parameter]) => `${name}: ${parameterFacts(parameter).join('; ')}`)
        .join('\n'),
      `${argumentKinds[definition.result.kind].says}; ${definition.result.doc}`,
      definition.source,
      example,
      shown,
      'why' in formula ? null : { formula: formula.text, result: first },
      fileText(plainText(definition)).text,
    ];
    const row = sheet.getRow(sheetRow(index));
    row.height = wrappedHeight(cells, widths);
    cells.forEach((cellValue, column) => {
      const cell = row.getCell(column + 1);
      cell.value = cellValue;
      cell.style = cellStyle(
        column === 0 ? 'key' : column === 9 ? 'computed' : 'note',
        typeof cellValue === 'string' && column !== 8 ? textFormat : 'General',
      );
    });
  });
  sheet.autoFilter = { from: { row: 1, column: 1 }, to: { row: rows.length + 1, column: headings.length } };
}
