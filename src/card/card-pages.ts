import type { Box, Mark, Paper, Point } from '../drawing/paper.ts';
import { shopDrawing } from '../drawing/shop-drawing.ts';
import { rule } from '../drawing/shop-marks.ts';
import { fitted } from '../drawing/text-width.ts';
import { CardFlow, type CardPaper, margin, words } from './card-flow.ts';
import { fittingLines } from './card-lines.ts';
import { cardSections, footText } from './card-sections.ts';
import type { DrawingSection, Section } from './section.ts';
import { laidTable, leading, rowHeight, size } from './card-table.ts';
import { drawTable, keptWhole } from './card-table-pages.ts';
import type { JobCard } from './job-card.ts';
import { darkRuns, qrMargin } from './qr.ts';

/**
 * A card laid out on sheets of paper: tables go on over pages with their heads repeated, the drawing has a broadside
 * sheet of its own.
 */

const codeSize = 27;
/** A title stands with so much of what follows it on its page. */
const keptWithTitle = 30;

/** A mark moved on its paper. */
function movedMark(mark: Mark, right: number, down: number): Mark {
  const point = ({ x, y }: Point): Point => ({ x: x + right, y: y + down });
  const box = (one: Box): Box => ({ ...one, ...point(one) });
  switch (mark.type) {
    case 'view':
      return {
        ...mark,
        matrix: { ...mark.matrix, e: mark.matrix.e + right, f: mark.matrix.f + down },
        ...(mark.clip === undefined ? {} : { clip: box(mark.clip) }),
      };
    case 'line':
      return { ...mark, points: mark.points.map(point) };
    case 'box':
      return { ...mark, box: box(mark.box) };
    case 'arrow':
      return { ...mark, from: point(mark.from), to: point(mark.to) };
    case 'text':
      return { ...mark, at: point(mark.at) };
  }
}

function head(flow: CardFlow, { title, belt, code: pattern }: Extract<Section, { readonly type: 'head' }>): void {
  flow.begin();
  const room = flow.width - (pattern === undefined ? 0 : codeSize + 4);
  // A long name is printed smaller, and whole: its end may be what tells it from another's.
  const sizes = [size.belt, 6, 5, size.title];
  const beltSize = sizes.find((one) => fittingLines(belt, one, room, true).length <= 3) ?? size.title;
  const lines = fittingLines(belt, beltSize, room, true);
  flow.add(words({ x: margin.side, y: flow.y + 2.5 }, title, size.title));
  lines.forEach((line, index) =>
    flow.add(words({ x: margin.side, y: flow.y + 10 + index * beltSize * 1.15 }, line, beltSize, true)),
  );
  if (pattern !== undefined) code(flow, pattern);
  flow.y += Math.max(pattern === undefined ? 0 : codeSize, 10 + lines.length * beltSize * 1.15);
}

function code(flow: CardFlow, pattern: readonly (readonly boolean[])[]): void {
  const square = codeSize / (pattern.length + 2 * qrMargin);
  const corner = { x: margin.side + flow.width - codeSize, y: flow.y };
  pattern.forEach((row, down) => {
    for (const { from, count } of darkRuns(row)) {
      flow.add({
        type: 'box',
        fill: 0,
        box: {
          x: corner.x + (from + qrMargin) * square,
          y: corner.y + (down + qrMargin) * square,
          width: count * square,
          height: square,
        },
      });
    }
  });
}

function title(flow: CardFlow, text: string, next: Section | undefined): void {
  const table = next?.type === 'table' ? laidTable(next.columns, next.rows, margin.side, flow.width) : undefined;
  const kept =
    table === undefined
      ? 0
      : table.height <= keptWhole
        ? table.height
        : table.headHeight + rowHeight(table.rows[0] ?? []);
  flow.room(Math.max(keptWithTitle, Math.min(kept, 100) + 12));
  flow.y += 3.5;
  flow.add(words({ x: margin.side, y: flow.y + size.title / 2 }, text, size.title, true));
  flow.y += size.title + 2;
}

/** Height of a row of blanks. */
const blankHeight = 12;

/** What is signed never stands alone on a sheet: the text before it goes along. */
function note(flow: CardFlow, text: string, strong: boolean, next: Section | undefined): void {
  const inset = strong ? 2 : 0;
  const lines = fittingLines(text, size.text, flow.width - 2 * inset, strong);
  const height = lines.length * size.text * leading + 2 * inset;
  flow.room(height + 2 + (next?.type === 'blanks' ? blankHeight + 2 : 0));
  flow.y += 1;
  if (strong) flow.add({ type: 'box', pen: 'cut', box: { x: margin.side, y: flow.y, width: flow.width, height } });
  lines.forEach((line, index) =>
    flow.add(
      words(
        { x: margin.side + inset, y: flow.y + inset + (index + 0.5) * size.text * leading },
        line,
        size.text,
        strong,
      ),
    ),
  );
  flow.y += height + 1.4;
}

function pairs(flow: CardFlow, pairs: readonly { readonly name: string; readonly value: string }[]): void {
  const half = flow.width / 2;
  const nameWidth = 24;
  for (let index = 0; index < pairs.length; index += 2) {
    const cells = pairs
      .slice(index, index + 2)
      .map(({ name, value }) => ({ name, lines: fittingLines(value, size.text, half - nameWidth - 3, true) }));
    const height = Math.max(...cells.map(({ lines }) => lines.length)) * size.text * leading + 1.2;
    flow.room(height);
    cells.forEach(({ name, lines }, at) => {
      const x = margin.side + at * half;
      flow.add(words({ x, y: flow.y + size.text * leading * 0.5 }, name, size.small));
      lines.forEach((line, row) =>
        flow.add(words({ x: x + nameWidth, y: flow.y + (row + 0.5) * size.text * leading }, line, size.text, true)),
      );
    });
    flow.y += height;
  }
  flow.y += 1;
}

function blanks(flow: CardFlow, names: readonly string[]): void {
  const half = flow.width / 2;
  const height = blankHeight;
  flow.y += 1;
  for (let index = 0; index < names.length; index += 2) {
    flow.room(height);
    names.slice(index, index + 2).forEach((name, at) => {
      const box = { x: margin.side + at * half, y: flow.y, width: half, height };
      flow.add({ type: 'box', pen: 'mark', box }, words({ x: box.x + 1.5, y: box.y + 2.6 }, name, size.small));
    });
    flow.y += height;
  }
  flow.y += 1;
}

function ticks(flow: CardFlow, labels: readonly string[]): void {
  const cell = { width: 15, height: 8 };
  const across = Math.floor(flow.width / cell.width);
  flow.y += 0.5;
  for (let index = 0; index < labels.length; index += across) {
    flow.room(cell.height);
    labels.slice(index, index + across).forEach((label, at) => {
      const x = margin.side + at * cell.width;
      flow.add(
        { type: 'box', pen: 'thin', box: { x, y: flow.y, ...cell } },
        words({ x: x + 7, y: flow.y + cell.height / 2 }, label, size.text + 0.4, true, 'end'),
        { type: 'box', pen: 'mark', box: { x: x + 8.6, y: flow.y + 1.7, width: 4.6, height: 4.6 } },
      );
    });
    flow.y += cell.height;
  }
  flow.y += 2;
}

function drawing(flow: CardFlow, { joint, unit, belt, series, standing }: DrawingSection): void {
  const [width, height] = [flow.upright.height, flow.upright.width];
  const drawing = shopDrawing(joint, {
    ...standing,
    unit,
    belt,
    series,
    width: width - 2 * margin.side,
    height: height - margin.top - margin.foot,
  });
  flow.broadside(drawing.marks.map((mark) => movedMark(mark, margin.side, margin.top)));
}

function draw(flow: CardFlow, section: Section, next: Section | undefined): void {
  switch (section.type) {
    case 'head':
      return head(flow, section);
    case 'title':
      return title(flow, section.text, next);
    case 'note':
      return note(flow, section.text, section.strong === true, next);
    case 'pairs':
      return pairs(flow, section.pairs);
    case 'blanks':
      return blanks(flow, section.names);
    case 'table':
      return drawTable(flow, laidTable(section.columns, section.rows, margin.side, flow.width));
    case 'ticks':
      return ticks(flow, section.labels);
    case 'drawing':
      return drawing(flow, section);
  }
}

/** The pages of one card, each with its number. */
export const cardPapers = (
  card: JobCard,
  paper: CardPaper,
  sections: readonly Section[] = cardSections(card),
): Paper[] => sectionPapers(sections, paper, { name: 'Job card', of: footText(card) });

/** Sections on pages, each with its number; `foot` says on every page what it is a page of. */
export function sectionPapers(
  sections: readonly Section[],
  paper: CardPaper,
  foot: { readonly name: string; readonly of: string },
): Paper[] {
  const flow = new CardFlow(paper);
  sections.forEach((section, index) => draw(flow, section, sections[index + 1]));
  const { sheets } = flow;
  return sheets.map(({ width, height, marks }, index): Paper => {
    const number = `page ${index + 1} of ${sheets.length}`;
    const y = height - margin.foot + 5;
    return {
      title: `${foot.name}, ${foot.of}, ${number}`,
      width,
      height,
      marks: [
        ...marks,
        rule('faint', { x: margin.side, y: y - 3 }, { x: width - margin.side, y: y - 3 }),
        words(
          { x: margin.side, y },
          fitted(`${foot.name}: ${foot.of}`, size.small, width - 2 * margin.side - 30),
          size.small,
        ),
        words({ x: width - margin.side, y }, number, size.small, false, 'end'),
      ],
    };
  });
}
