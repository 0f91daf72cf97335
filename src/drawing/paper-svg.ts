import { escaped } from '../sheet/words.ts';
import type { Spot } from './belt-axes.ts';
import {
  arrowHeads,
  type Box,
  type Mark,
  type Matrix,
  type Outline,
  type Paper,
  type PenName,
  pens,
  type Point,
  scaleOf,
  type TextMark,
} from './paper.ts';

/**
 * A paper as SVG text, its size in millimetres.
 *
 * Coordinates of views are written as they are, at full precision, under their matrix; those of the paper itself to a
 * thousandth of a millimetre. Looks are attributes, not rules, so that several drawings stand in one page without
 * minding each other; black on white whatever the page wears.
 */
const short = (value: number): string => String(Number(value.toFixed(3)) + 0);
const grey = (level: number): string =>
  `#${Math.round(level * 255)
    .toString(16)
    .padStart(2, '0')
    .repeat(3)}`;

/** A pen's attributes for lines that are enlarged by `scale` when drawn. */
function stroke(name: PenName, scale = 1): string {
  const { width, grey: level, dash } = { dash: undefined, ...pens[name] };
  const sized = (millimetres: number): string => String(Number((millimetres / scale).toPrecision(4)));
  return (
    `stroke="${grey(level)}" ` +
    `stroke-width="${sized(width)}"${dash === undefined ? '' : ` stroke-dasharray="` + `${dash.map(sized).join(' ')}"`}`
  );
}

const path = (points: readonly Point[]): string =>
  points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('');
const exactPath = (spots: readonly Spot[]): string =>
  spots.map(({ along, across }, index) => `${index === 0 ? 'M' : 'L'}${along} ${across}`).join('');
const filling = (fill: number | undefined): string => `fill="${fill === undefined ? 'none' : grey(fill)}"`;

function outlineText(outline: Outline, scale: number): string {
  const look = `${outline.name === undefined ? '' : ` class="${outline.name}"`} ${stroke(outline.pen, scale)}`;
  switch (outline.type) {
    case 'line':
      return `<path${look} fill="none" d="${exactPath(outline.points)}"/>`;
    case 'area':
      return `<path${look} ${filling(outline.fill)} d="${exactPath(outline.corners)}Z"/>`;
    case 'circle':
      return (
        `<circle${look} ${filling(outline.fill)} cx="${outline.centre.along}" cy="${outline.centre.across}" ` +
        `r="${outline.diameter / 2}"/>`
      );
  }
}

const rectangle = ({ x, y, width, height }: Box): string =>
  `x="${short(x)}" y="${short(y)}" width="${short(width)}" height="${short(height)}"`;

function viewText(matrix: Matrix, outlines: readonly Outline[], clip: Box | undefined, name: string): string {
  const { a, b, c, d, e, f } = matrix;
  const group = [
    `<g transform="matrix(${[a, b, c, d, e, f].join(' ')})">`,
    ...outlines.map((outline) => outlineText(outline, scaleOf(matrix))),
    '</g>',
  ].join('\n');
  return clip === undefined
    ? group
    : `<clipPath id="${name}"><rect ${rectangle(clip)}/></clipPath>\n<g clip-path="url(#${name})">\n${group}\n</g>`;
}

function writtenText({ at, text, size, anchor, turned, bold }: TextMark): string {
  const turn = turned === 0 ? '' : ` rotate(${short(-turned)})`;
  return (
    `<text stroke="#ffffff" stroke-width="0.8" transform="translate(${short(at.x)} ${short(at.y)})${turn}" ` +
    `y="${short(size * 0.36)}" font-size="${short(size)}"${bold === true ? ' font-weight="bold"' : ''} ` +
    `text-anchor="${anchor}">${escaped(text)}</text>`
  );
}

function markText(mark: Mark, name: string): string {
  switch (mark.type) {
    case 'view':
      return viewText(mark.matrix, mark.outlines, mark.clip, name);
    case 'line':
      return `<path ${stroke(mark.pen)} fill="none" d="${path(mark.points)}"/>`;
    case 'box':
      return (
        `<rect ${mark.pen === undefined ? '' : `${stroke(mark.pen)} `}${filling(mark.fill)} ` +
        `${rectangle(mark.box)}/>`
      );
    case 'arrow':
      return [
        `<path ${stroke(mark.pen)} fill="none" d="${path([mark.from, mark.to])}"/>`,
        ...arrowHeads(mark).map((corners) => `<path fill="${grey(pens[mark.pen].grey)}" d="${path(corners)}Z"/>`),
      ].join('');
    case 'text':
      return writtenText(mark);
  }
}

/** `name` tells clips of several drawings in one page apart. */
export function paperSvg({ title, width, height, marks }: Paper, name = 'drawing'): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${short(width)} ${short(height)}" ` +
      `width="${short(width)}mm" height="${short(height)}mm" role="img" aria-label="${escaped(title)}">`,
    `<title>${escaped(title)}</title>`,
    `<rect fill="#ffffff" width="${short(width)}" height="${short(height)}"/>`,
    '<g font-family="Liberation Sans, Arial, Helvetica, sans-serif" fill="#000000" stroke-linejoin="round" ' +
      'paint-order="stroke">',
    ...marks.map((mark, index) => markText(mark, `${name}-${index}`)),
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}
