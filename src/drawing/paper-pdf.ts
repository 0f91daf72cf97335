import { inch } from '../units/quantities.ts';
import type { PDFFont, PDFOperator } from '@cantoo/pdf-lib';
import { programName } from '../workbook/legal-notice.ts';
import type { Spot } from './belt-axes.ts';
import {
  arrowHeads,
  type Box,
  type Mark,
  type Outline,
  type Paper,
  type PenName,
  pens,
  type Point,
  scaleOf,
  type TextMark,
} from './paper.ts';

/**
 * Papers as one PDF, a page each, at their true size.
 *
 * Points of the paper stay millimetres and those of views belt lengths: the page's matrix and the view's turn them into
 * the 1/72 in that PDF counts in (ISO 32000-1, 8.3), so that the numbers of the geometry stand in the file unrounded.
 * The library that writes it is loaded only when asked for.
 */
type Library = typeof import('@cantoo/pdf-lib');

const pointsPerMillimetre = 72 / inch;
/** How far from its ends the control points of a quarter circle lie, in radii: 4/3 tan(90°/4). */
const quarter = (4 / 3) * Math.tan(Math.PI / 8);

/** A font under the name that a page knows it by, and the letters it has. */
interface Face {
  readonly font: PDFFont;
  readonly name: string;
  readonly letters: ReadonlySet<number>;
}

type Faces = Readonly<Record<'plain' | 'bold', Face>>;

/** Marks of a page as its operators. */
class PageWriter {
  readonly #pdf: Library;
  readonly #faces: Faces;

  constructor(pdf: Library, faces: Faces) {
    this.#pdf = pdf;
    this.#faces = faces;
  }

  #pen(name: PenName, scale: number): PDFOperator[] {
    const { width, grey, dash } = { dash: [], ...pens[name] };
    return [
      this.#pdf.setLineWidth(width / scale),
      this.#pdf.setStrokingGrayscaleColor(grey),
      this.#pdf.setDashPattern(
        dash.map((length) => length / scale),
        0,
      ),
    ];
  }

  #path(points: readonly Point[]): PDFOperator[] {
    return points.map(({ x, y }, index) => (index === 0 ? this.#pdf.moveTo(x, y) : this.#pdf.lineTo(x, y)));
  }

  #paint(pen: PenName | undefined, fill: number | undefined): PDFOperator {
    if (fill === undefined) return pen === undefined ? this.#pdf.endPath() : this.#pdf.stroke();
    return pen === undefined ? this.#pdf.fill() : this.#pdf.fillAndStroke();
  }

  #filling(fill: number | undefined): PDFOperator[] {
    return fill === undefined ? [] : [this.#pdf.setFillingGrayscaleColor(fill)];
  }

  #circle({ x, y }: Point, radius: number): PDFOperator[] {
    const { appendBezierCurve, closePath, moveTo } = this.#pdf;
    const arm = radius * quarter;
    return [
      moveTo(x + radius, y),
      appendBezierCurve(x + radius, y + arm, x + arm, y + radius, x, y + radius),
      appendBezierCurve(x - arm, y + radius, x - radius, y + arm, x - radius, y),
      appendBezierCurve(x - radius, y - arm, x - arm, y - radius, x, y - radius),
      appendBezierCurve(x + arm, y - radius, x + radius, y - arm, x + radius, y),
      closePath(),
    ];
  }

  #outline(outline: Outline, scale: number): PDFOperator[] {
    const points = (spots: readonly Spot[]): Point[] => spots.map(({ along, across }) => ({ x: along, y: across }));
    const pen = this.#pen(outline.pen, scale);
    switch (outline.type) {
      case 'line':
        return [...pen, ...this.#path(points(outline.points)), this.#pdf.stroke()];
      case 'area':
        return [
          ...pen,
          ...this.#filling(outline.fill),
          ...this.#path(points(outline.corners)),
          this.#pdf.closePath(),
          this.#paint(outline.pen, outline.fill),
        ];
      case 'circle':
        return [
          ...pen,
          ...this.#filling(outline.fill),
          ...this.#circle({ x: outline.centre.along, y: outline.centre.across }, outline.diameter / 2),
          this.#paint(outline.pen, outline.fill),
        ];
    }
  }

  #clip({ x, y, width, height }: Box): PDFOperator[] {
    return [this.#pdf.rectangle(x, y, width, height), this.#pdf.clip(), this.#pdf.endPath()];
  }

  /** Text, on white where lines run below it. */
  #text({ at, text, size, anchor, turned, bold }: TextMark): PDFOperator[] {
    const pdf = this.#pdf;
    const { font, name, letters } = this.#faces[bold === true ? 'bold' : 'plain'];
    // The fonts that every reader has hold Western letters only.
    const known = [...text].map((letter) => (letters.has(letter.codePointAt(0) ?? 0) ? letter : '?')).join('');
    const width = font.widthOfTextAtSize(known, size);
    const left = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width;
    const turn = (-turned * Math.PI) / 180;
    const [sine, cosine] = [Math.sin(turn), Math.cos(turn)];
    return [
      pdf.pushGraphicsState(),
      pdf.concatTransformationMatrix(cosine, sine, -sine, cosine, at.x, at.y),
      pdf.setFillingGrayscaleColor(1),
      pdf.rectangle(left - 0.3, -size * 0.45, width + 0.6, size * 0.95),
      pdf.fill(),
      pdf.setFillingGrayscaleColor(0),
      pdf.beginText(),
      pdf.setFontAndSize(name, size),
      // The page's matrix turns y downwards; letters stand upright by turning it back.
      pdf.setTextMatrix(1, 0, 0, -1, left, size * 0.36),
      pdf.showText(font.encodeText(known)),
      pdf.endText(),
      pdf.popGraphicsState(),
    ];
  }

  mark(mark: Mark): PDFOperator[] {
    const pdf = this.#pdf;
    switch (mark.type) {
      case 'view': {
        const { a, b, c, d, e, f } = mark.matrix;
        return [
          pdf.pushGraphicsState(),
          ...(mark.clip === undefined ? [] : this.#clip(mark.clip)),
          pdf.concatTransformationMatrix(a, b, c, d, e, f),
          ...mark.outlines.flatMap((outline) => this.#outline(outline, scaleOf(mark.matrix))),
          pdf.popGraphicsState(),
        ];
      }
      case 'line':
        return [...this.#pen(mark.pen, 1), ...this.#path(mark.points), pdf.stroke()];
      case 'box': {
        const { x, y, width, height } = mark.box;
        return [
          ...(mark.pen === undefined ? [] : this.#pen(mark.pen, 1)),
          ...this.#filling(mark.fill),
          pdf.rectangle(x, y, width, height),
          this.#paint(mark.pen, mark.fill),
        ];
      }
      case 'arrow':
        return [
          ...this.#pen(mark.pen, 1),
          ...this.#path([mark.from, mark.to]),
          pdf.stroke(),
          pdf.setFillingGrayscaleColor(pens[mark.pen].grey),
          ...arrowHeads(mark).flatMap((corners) => [...this.#path(corners), pdf.closePath(), pdf.fill()]),
        ];
      case 'text':
        return this.#text(mark);
    }
  }
}

/** The same papers give the same bytes. */
export async function paperPdf(papers: readonly Paper[], title: string): Promise<Uint8Array> {
  const pdf = await import('@cantoo/pdf-lib');
  const file = await pdf.PDFDocument.create({ updateMetadata: false });
  file.setTitle(title);
  file.setCreator(programName);
  const faces = {
    plain: await file.embedFont(pdf.StandardFonts.Helvetica),
    bold: await file.embedFont(pdf.StandardFonts.HelveticaBold),
  };
  const face = (name: keyof Faces): Face => ({
    font: faces[name],
    name,
    letters: new Set(faces[name].getCharacterSet()),
  });
  const writer = new PageWriter(pdf, { plain: face('plain'), bold: face('bold') });
  for (const { width, height, marks } of papers) {
    const page = file.addPage([width * pointsPerMillimetre, height * pointsPerMillimetre]);
    for (const name of ['plain', 'bold'] as const) page.node.setFontDictionary(pdf.PDFName.of(name), faces[name].ref);
    page.pushOperators(
      pdf.pushGraphicsState(),
      pdf.concatTransformationMatrix(pointsPerMillimetre, 0, 0, -pointsPerMillimetre, 0, height * pointsPerMillimetre),
      pdf.setLineJoin(pdf.LineJoinStyle.Round),
      ...marks.flatMap((mark) => writer.mark(mark)),
      pdf.popGraphicsState(),
    );
  }
  return file.save();
}

/**
 * Letters that the fonts of a PDF hold without being put into the file: those of WinAnsi encoding.
 *
 * Source: ISO 32000-1, annex D.2; a test compares them with what the PDF library carries.
 */
const beyondLatin = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';

export const inPdfFonts = (letter: string): boolean => {
  const code = letter.codePointAt(0) ?? 0;
  return (code >= 0x20 && code <= 0x7e) || (code >= 0xa0 && code <= 0xff) || beyondLatin.includes(letter);
};
