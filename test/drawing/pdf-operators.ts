import { decodePDFRawStream, PDFArray, PDFDocument, PDFRawStream, type PDFPage } from '@cantoo/pdf-lib';

/** Lines and circles of a PDF's pages as a printer has them: in millimetres from the page's upper left corner. */
export interface PrintedPage {
  readonly width: number;
  readonly height: number;
  readonly segments: readonly { readonly from: PrintedPoint; readonly to: PrintedPoint; readonly dashed: boolean }[];
  /**
   * Closed runs of four curves, by the middle and breadth of the points they join; those alone whose middle is not
   * clipped away.
   */
  readonly circles: readonly (PrintedPoint & { readonly diameter: number })[];
}

export interface PrintedPoint {
  readonly x: number;
  readonly y: number;
}

type Six = readonly [number, number, number, number, number, number];

const millimetres = 25.4 / 72;

function contents(page: PDFPage): string {
  const node = page.node.Contents();
  const streams =
    node instanceof PDFArray ? node.asArray().map((reference) => page.doc.context.lookup(reference)) : [node];
  return streams
    .map((stream) => {
      if (!(stream instanceof PDFRawStream)) throw new Error('a page without a stream');
      return new TextDecoder('latin1').decode(decodePDFRawStream(stream).decode());
    })
    .join('\n');
}

/** The inner matrix first, then the outer one (ISO 32000-1, 8.3.4). */
const product = ([a, b, c, d, e, f]: Six, [A, B, C, D, E, F]: Six): Six => [
  a * A + b * C,
  a * B + b * D,
  c * A + d * C,
  c * B + d * D,
  e * A + f * C + E,
  e * B + f * D + F,
];

function printed(page: PDFPage): PrintedPage {
  const { width, height } = page.getSize();
  let matrix: Six = [1, 0, 0, 1, 0, 0];
  let dashed = false;
  let clip = { left: 0, top: 0, right: width * millimetres, bottom: height * millimetres };
  let box = clip;
  const kept: { matrix: Six; dashed: boolean; clip: typeof clip }[] = [];
  const at = (x: number, y: number): PrintedPoint => {
    const [a, b, c, d, e, f] = matrix;
    return { x: (a * x + c * y + e) * millimetres, y: (height - (b * x + d * y + f)) * millimetres };
  };
  const segments: { from: PrintedPoint; to: PrintedPoint; dashed: boolean }[] = [];
  const circles: (PrintedPoint & { diameter: number })[] = [];
  let path: PrintedPoint[] = [];
  let curves = 0;
  for (const line of contents(page).split('\n')) {
    const words = line.trim().split(/\s+/);
    const numbers = words.slice(0, -1).map(Number);
    const [
      one = Number.NaN,
      two = Number.NaN,
      three = Number.NaN,
      four = Number.NaN,
      five = Number.NaN,
      six = Number.NaN,
    ] = numbers;
    switch (words.at(-1)) {
      case 'q':
        kept.push({ matrix, dashed, clip });
        break;
      case 'Q':
        ({ matrix, dashed, clip } = kept.pop() ?? { matrix, dashed, clip });
        break;
      case 'cm':
        matrix = product([one, two, three, four, five, six], matrix);
        break;
      case 'd':
        dashed = !line.includes('[]');
        break;
      case 're': {
        const [corner, other] = [at(one, two), at(one + three, two + four)];
        box = {
          left: Math.min(corner.x, other.x),
          top: Math.min(corner.y, other.y),
          right: Math.max(corner.x, other.x),
          bottom: Math.max(corner.y, other.y),
        };
        break;
      }
      case 'W':
        clip = box;
        break;
      case 'm':
        path = [at(one, two)];
        curves = 0;
        break;
      case 'l':
        segments.push({ from: path.at(-1) ?? at(one, two), to: at(one, two), dashed });
        path.push(at(one, two));
        break;
      case 'c':
        path.push(at(five, six));
        curves += 1;
        break;
      case 'h':
        if (curves === 4) {
          const [first, , third] = path;
          if (first === undefined || third === undefined) throw new Error('a circle without points');
          const [x, y] = [(first.x + third.x) / 2, (first.y + third.y) / 2];
          if (x > clip.left && x < clip.right && y > clip.top && y < clip.bottom)
            circles.push({ x, y, diameter: Math.hypot(first.x - third.x, first.y - third.y) });
        }
        break;
      default:
        break;
    }
  }
  return { width: width * millimetres, height: height * millimetres, segments, circles };
}

export async function printedPages(bytes: Uint8Array): Promise<readonly PrintedPage[]> {
  return (await PDFDocument.load(bytes)).getPages().map(printed);
}
