import type { Box, Mark, Paper, Point } from '../drawing/paper.ts';
import { shopDrawing } from '../drawing/shop-drawing.ts';
import { rule } from '../drawing/shop-marks.ts';
import { type PaperSize, paperSizes } from '../drawing/template-tiles.ts';
import { fitted } from '../drawing/text-width.ts';
import { fittingLines } from './card-lines.ts';
import { cardSections, footText, type Section } from './card-sections.ts';
import {
  type LaidLine,
  type LaidRow,
  type LaidTable,
  laidTable,
  leading,
  pad,
  type Place,
  rowHeight,
  size,
  textLine,
} from './card-table.ts';
import type { JobCard } from './job-card.ts';
import { darkRuns, qrMargin } from './qr.ts';

/**
 * A card laid out on sheets of paper: tables go on over pages with their heads repeated, the drawing has a broadside
 * sheet of its own.
 */

export type CardPaper = Exclude<PaperSize, 'A3'>;

/** Millimetres, of an upright sheet. */
const margin = { side: 13, top: 11, foot: 14 };
const codeSize = 27;
/** A title stands with so much of what follows it on its page; a table no higher than this is not parted. */
const keptWithTitle = 30;
const keptWhole = 80;

interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly marks: Mark[];
}

const words = (
  at: Point,
  text: string,
  textSize: number,
  bold = false,
  anchor: 'start' | 'middle' | 'end' = 'start',
): Mark => ({ type: 'text', at, text, size: textSize, anchor, turned: 0, ...(bold ? { bold: true } : {}) });

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

class CardPages {
  readonly sheets: Sheet[] = [];
  readonly #upright: { readonly width: number; readonly height: number };
  #sheet: Sheet | undefined;
  #y = 0;

  constructor(paper: CardPaper) {
    const { width, height } = paperSizes[paper];
    this.#upright = { width: height, height: width };
  }

  get #width(): number {
    return this.#upright.width - 2 * margin.side;
  }

  get #bottom(): number {
    return this.#upright.height - margin.foot;
  }

  #add(...marks: readonly Mark[]): void {
    this.#current().marks.push(...marks);
  }

  #current(): Sheet {
    if (this.#sheet !== undefined) return this.#sheet;
    const sheet: Sheet = { ...this.#upright, marks: [] };
    this.sheets.push(sheet);
    this.#sheet = sheet;
    this.#y = margin.top;
    return sheet;
  }

  /** Goes on a new page when there is no room for so much. */
  #room(height: number): void {
    this.#current();
    if (this.#y + height <= this.#bottom || this.#y === margin.top) return;
    this.#sheet = undefined;
    this.#current();
  }

  section(section: Section, next: Section | undefined): void {
    switch (section.type) {
      case 'head':
        return this.#head(section);
      case 'title':
        return this.#title(section.text, next);
      case 'note':
        return this.#note(section.text, section.strong === true);
      case 'pairs':
        return this.#pairs(section.pairs);
      case 'blanks':
        return this.#blanks(section.names);
      case 'table':
        return this.#table(laidTable(section.columns, section.rows, margin.side, this.#width));
      case 'ticks':
        return this.#ticks(section.labels);
      case 'drawing':
        return this.#drawing(section);
    }
  }

  #head({ title, belt, code }: Extract<Section, { readonly type: 'head' }>): void {
    this.#current();
    const room = this.#width - (code === undefined ? 0 : codeSize + 4);
    // A long name is printed smaller, and whole: its end may be what tells it from another's.
    const sizes = [size.belt, 6, 5, size.title];
    const beltSize = sizes.find((one) => fittingLines(belt, one, room, true).length <= 3) ?? size.title;
    const lines = fittingLines(belt, beltSize, room, true);
    this.#add(words({ x: margin.side, y: this.#y + 2.5 }, title, size.title));
    lines.forEach((line, index) =>
      this.#add(words({ x: margin.side, y: this.#y + 10 + index * beltSize * 1.15 }, line, beltSize, true)),
    );
    if (code !== undefined) this.#code(code);
    this.#y += Math.max(code === undefined ? 0 : codeSize, 10 + lines.length * beltSize * 1.15);
  }

  #code(code: readonly (readonly boolean[])[]): void {
    const square = codeSize / (code.length + 2 * qrMargin);
    const corner = { x: margin.side + this.#width - codeSize, y: this.#y };
    code.forEach((row, down) => {
      for (const { from, count } of darkRuns(row)) {
        this.#add({
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

  #title(text: string, next: Section | undefined): void {
    const table = next?.type === 'table' ? laidTable(next.columns, next.rows, margin.side, this.#width) : undefined;
    const kept =
      table === undefined
        ? 0
        : table.height <= keptWhole
          ? table.height
          : table.headHeight + rowHeight(table.rows[0] ?? []);
    this.#room(Math.max(keptWithTitle, Math.min(kept, 100) + 12));
    this.#y += 3.5;
    this.#add(words({ x: margin.side, y: this.#y + size.title / 2 }, text, size.title, true));
    this.#y += size.title + 2;
  }

  #note(text: string, strong: boolean): void {
    const inset = strong ? 2 : 0;
    const lines = fittingLines(text, size.text, this.#width - 2 * inset, strong);
    const height = lines.length * size.text * leading + 2 * inset;
    this.#room(height + 2);
    this.#y += 1;
    if (strong) this.#add({ type: 'box', pen: 'cut', box: { x: margin.side, y: this.#y, width: this.#width, height } });
    lines.forEach((line, index) =>
      this.#add(
        words(
          { x: margin.side + inset, y: this.#y + inset + (index + 0.5) * size.text * leading },
          line,
          size.text,
          strong,
        ),
      ),
    );
    this.#y += height + 1.4;
  }

  #pairs(pairs: readonly { readonly name: string; readonly value: string }[]): void {
    const half = this.#width / 2;
    const nameWidth = 24;
    for (let index = 0; index < pairs.length; index += 2) {
      const cells = pairs
        .slice(index, index + 2)
        .map(({ name, value }) => ({ name, lines: fittingLines(value, size.text, half - nameWidth - 3, true) }));
      const height = Math.max(...cells.map(({ lines }) => lines.length)) * size.text * leading + 1.2;
      this.#room(height);
      cells.forEach(({ name, lines }, at) => {
        const x = margin.side + at * half;
        this.#add(words({ x, y: this.#y + size.text * leading * 0.5 }, name, size.small));
        lines.forEach((line, row) =>
          this.#add(words({ x: x + nameWidth, y: this.#y + (row + 0.5) * size.text * leading }, line, size.text, true)),
        );
      });
      this.#y += height;
    }
    this.#y += 1;
  }

  #blanks(names: readonly string[]): void {
    const half = this.#width / 2;
    const height = 12;
    this.#y += 1;
    for (let index = 0; index < names.length; index += 2) {
      this.#room(height);
      names.slice(index, index + 2).forEach((name, at) => {
        const box = { x: margin.side + at * half, y: this.#y, width: half, height };
        this.#add({ type: 'box', pen: 'mark', box }, words({ x: box.x + 1.5, y: box.y + 2.6 }, name, size.small));
      });
      this.#y += height;
    }
    this.#y += 1;
  }

  #table({ places, heads, headHeight, rows, height: whole }: LaidTable): void {
    const head = (): void => {
      heads.forEach((lines, index) =>
        this.#cellText(
          places[index],
          lines.map((text) => ({ text, bold: true })),
          size.small,
        ),
      );
      this.#y += headHeight;
      this.#add(rule('edge', { x: margin.side, y: this.#y }, { x: margin.side + this.#width, y: this.#y }));
    };
    this.#room(whole <= keptWhole ? whole : headHeight + Math.min(rowHeight(rows[0] ?? []), 40));
    this.#y += 0.5;
    head();
    for (const full of rows) {
      let row = full;
      for (;;) {
        const height = rowHeight(row);
        if (this.#y + height <= this.#bottom) {
          this.#row(places, row, height);
          break;
        }
        const fits = Math.floor((this.#bottom - this.#y - 2 * pad.y) / textLine);
        // A row higher than a page is parted, any other goes on the next one as a whole.
        if (height > this.#bottom - margin.top - headHeight && fits >= 3) {
          this.#row(
            places,
            row.map((cell) => (typeof cell === 'string' ? [] : cell.slice(0, fits))),
            this.#bottom - this.#y,
          );
          row = row.map((cell) => (typeof cell === 'string' ? cell : cell.slice(fits)));
        }
        this.#sheet = undefined;
        this.#current();
        head();
      }
    }
    this.#y += 1.5;
  }

  #cellText(place: Place | undefined, lines: readonly LaidLine[], textSize: number): void {
    if (place === undefined) return;
    const x = place.align === 'end' ? place.x + place.width - pad.x : place.x + pad.x;
    lines.forEach(({ text, bold }, index) => {
      if (text !== '')
        this.#add(
          words(
            { x, y: this.#y + pad.y + (index + 0.5) * textSize * leading },
            text,
            textSize,
            bold,
            place.align ?? 'start',
          ),
        );
    });
  }

  #row(places: readonly Place[], row: LaidRow, height: number): void {
    row.forEach((cell, index) => {
      const place = places[index];
      if (place === undefined) return;
      if (typeof cell !== 'string') this.#cellText(place, cell, size.text);
      else if (cell === 'tick')
        this.#add({ type: 'box', pen: 'mark', box: { x: place.x + pad.x, y: this.#y + 0.8, width: 4, height: 4 } });
      else
        this.#add({
          type: 'box',
          pen: 'mark',
          box: {
            x: place.x + 0.6,
            y: this.#y + 0.6,
            width: place.width - 0.6,
            height: (cell === 'sign' ? Math.min(height, 13) : height) - 1.2,
          },
        });
    });
    this.#y += height;
    this.#add(rule('faint', { x: margin.side, y: this.#y }, { x: margin.side + this.#width, y: this.#y }));
  }

  #ticks(labels: readonly string[]): void {
    const cell = { width: 15, height: 8 };
    const across = Math.floor(this.#width / cell.width);
    this.#y += 0.5;
    for (let index = 0; index < labels.length; index += across) {
      this.#room(cell.height);
      labels.slice(index, index + across).forEach((label, at) => {
        const x = margin.side + at * cell.width;
        this.#add(
          { type: 'box', pen: 'thin', box: { x, y: this.#y, ...cell } },
          words({ x: x + 7, y: this.#y + cell.height / 2 }, label, size.text + 0.4, true, 'end'),
          { type: 'box', pen: 'mark', box: { x: x + 8.6, y: this.#y + 1.7, width: 4.6, height: 4.6 } },
        );
      });
      this.#y += cell.height;
    }
    this.#y += 2;
  }

  #drawing({ joint, unit, belt, series, standing }: Extract<Section, { readonly type: 'drawing' }>): void {
    const [width, height] = [this.#upright.height, this.#upright.width];
    const drawing = shopDrawing(joint, {
      ...standing,
      unit,
      belt,
      series,
      width: width - 2 * margin.side,
      height: height - margin.top - margin.foot,
    });
    this.sheets.push({ width, height, marks: drawing.marks.map((mark) => movedMark(mark, margin.side, margin.top)) });
    this.#sheet = undefined;
  }
}

/** The pages of one card, each with its number. */
export function cardPapers(
  card: JobCard,
  paper: CardPaper,
  sections: readonly Section[] = cardSections(card),
): Paper[] {
  const pages = new CardPages(paper);
  sections.forEach((section, index) => pages.section(section, sections[index + 1]));
  const { sheets } = pages;
  return sheets.map(({ width, height, marks }, index): Paper => {
    const number = `page ${index + 1} of ${sheets.length}`;
    const y = height - margin.foot + 5;
    return {
      title: `Job card, ${footText(card)}, ${number}`,
      width,
      height,
      marks: [
        ...marks,
        rule('faint', { x: margin.side, y: y - 3 }, { x: width - margin.side, y: y - 3 }),
        words(
          { x: margin.side, y },
          fitted(`Job card: ${footText(card)}`, size.small, width - 2 * margin.side - 30),
          size.small,
        ),
        words({ x: width - margin.side, y }, number, size.small, false, 'end'),
      ],
    };
  });
}
