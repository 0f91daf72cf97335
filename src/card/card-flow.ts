import type { Mark, Paper, Point } from '../drawing/paper.ts';
import { type PaperSize, paperSizes } from '../drawing/template-tiles.ts';

/** Sheets of paper that a card runs on over, one after the other from the top. */

export type CardPaper = Exclude<PaperSize, 'A3'>;

/** Millimetres, of an upright sheet. */
export const margin = { side: 13, top: 11, foot: 14 };

interface Sheet extends Pick<Paper, 'width' | 'height'> {
  readonly marks: Mark[];
}

export const words = (
  at: Point,
  text: string,
  textSize: number,
  bold = false,
  anchor: 'start' | 'middle' | 'end' = 'start',
): Mark => ({ type: 'text', at, text, size: textSize, anchor, turned: 0, ...(bold ? { bold: true } : {}) });

export class CardFlow {
  readonly sheets: Sheet[] = [];
  /** Of a sheet as it stands. */
  readonly upright: { readonly width: number; readonly height: number };
  #sheet: Sheet | undefined;
  /** How far down the present sheet is used. */
  y = 0;

  constructor(paper: CardPaper) {
    const { width, height } = paperSizes[paper];
    this.upright = { width: height, height: width };
  }

  /** Between the margins. */
  get width(): number {
    return this.upright.width - 2 * margin.side;
  }

  get bottom(): number {
    return this.upright.height - margin.foot;
  }

  add(...marks: readonly Mark[]): void {
    this.begin().push(...marks);
  }

  /** The marks of the present sheet, a new one when there is none. */
  begin(): Mark[] {
    if (this.#sheet === undefined) {
      this.#sheet = { ...this.upright, marks: [] };
      this.sheets.push(this.#sheet);
      this.y = margin.top;
    }
    return this.#sheet.marks;
  }

  /** What comes next stands on a new sheet. */
  end(): void {
    this.#sheet = undefined;
  }

  /** Goes on a new sheet when there is no room for so much. */
  room(height: number): void {
    this.begin();
    if (this.y + height <= this.bottom || this.y === margin.top) return;
    this.end();
    this.begin();
  }

  /** A whole sheet that lies on its side. */
  broadside(marks: readonly Mark[]): void {
    this.sheets.push({ width: this.upright.height, height: this.upright.width, marks: [...marks] });
    this.end();
  }
}
