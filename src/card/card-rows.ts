import type { LaidCell, LaidSheet } from '../sheet/laid-sheet.ts';
import { jointReport } from '../drawing/joint-report.ts';
import { type CardForm, sectionsOf } from './card-form.ts';
import type { Line, Section } from './section.ts';
import type { JobCard } from './job-card.ts';

/** A card as rows of a spreadsheet's sheet. The drawing is not in it: its dimensions and holes are. */

/** As many narrow columns as tables of different columns can be laid over. */
const across = 24;
const columnWidth = 4.4;

const row = (value: string, look: LaidCell['look']): LaidCell[] => [{ value, look, span: across }];

/**
 * How many columns of the grid each column of a table takes: at least one, in all as many as there are.
 *
 * For tests: columns of a table add up to the grid.
 */
export function spans(widths: readonly number[]): number[] {
  const all = widths.reduce((sum, width) => sum + width, 0);
  let [passed, taken] = [0, 0];
  return widths.map((width, index) => {
    passed += width;
    const end = Math.min(
      across - (widths.length - 1 - index),
      Math.max(taken + 1, Math.round((across * passed) / all)),
    );
    const span = end - taken;
    taken = end;
    return span;
  });
}

/** How many of a cell's first lines are bold, where the others are not. */
function boldLines(cell: readonly Line[]): Pick<LaidCell, 'boldLines'> {
  const plainFrom = cell.findIndex(({ bold }) => bold !== true);
  return plainFrom > 0 ? { boldLines: plainFrom } : {};
}

/** A text that is nothing but a number, as one. */
const plainValue = (text: string): string | number => (/^-?\d+(?:\.\d+)?$/.test(text) ? Number(text) : text);

function tickRows(labels: readonly string[]): LaidCell[][] {
  const each = 3;
  const line = across / each;
  return Array.from({ length: Math.ceil(labels.length / line) }, (_, at) =>
    labels.slice(at * line, (at + 1) * line).flatMap((label): LaidCell[] => [
      { value: plainValue(label), look: 'strong', span: 1, align: 'end' },
      { value: null, look: 'blank', span: each - 1 },
    ]),
  );
}

function tableRows({ columns, rows }: Extract<Section, { readonly type: 'table' }>): LaidCell[][] {
  const taken = spans(columns.map(({ width }) => width));
  const placed = (index: number): Pick<LaidCell, 'span' | 'align'> => ({
    span: taken[index] ?? 1,
    ...(columns[index]?.align === 'end' ? { align: 'end' } : {}),
  });
  return [
    columns.map(({ title }, index): LaidCell => ({ value: title, look: 'head', ...placed(index) })),
    ...rows.map((cells) =>
      cells.map((cell, index): LaidCell => ({
        ...placed(index),
        ...('blank' in cell
          ? { value: null, look: 'blank' }
          : {
              value: plainValue(cell.map(({ text }) => text).join('\n')),
              look: cell.length > 0 && cell.every(({ bold }) => bold === true) ? 'strong' : 'text',
              ...boldLines(cell),
            }),
      })),
    ),
  ];
}

function sectionRows(section: Section): (readonly LaidCell[])[] {
  switch (section.type) {
    case 'head':
      return [row(section.title, 'heading'), row(section.belt, 'title')];
    case 'title':
      return [[], row(section.text, 'heading')];
    case 'note':
      return [row(section.text, section.strong === true ? 'strong' : 'text')];
    case 'pairs':
      return section.pairs.map(({ name, value }) => [
        { value: name, look: 'text', span: 6 },
        { value, look: 'strong', span: across - 6 },
      ]);
    case 'blanks':
      return section.names.map((name) => [
        { value: name, look: 'text', span: 8 },
        { value: null, look: 'blank', span: across - 8 },
      ]);
    case 'ticks':
      return tickRows(section.labels);
    case 'table':
      return tableRows(section);
    case 'drawing':
      return [
        [],
        row(
          `See the PDF or the printed card for the drawing: ` +
            `${jointReport(section.joint, section.unit).skewed ? 'skew joint' : 'square joint'}.`,
          'text',
        ),
      ];
  }
}

/** The card's sheet, under the belt's name. */
export const cardSheet = (card: JobCard, form: CardForm = 'long'): LaidSheet => ({
  name: card.belt === '' ? 'Job card' : card.belt,
  widths: new Array<number>(across).fill(columnWidth),
  rows: sectionsOf(card, form).flatMap(sectionRows),
});
