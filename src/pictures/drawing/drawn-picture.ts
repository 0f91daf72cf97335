import { plot, type PlotOptions } from '@observablehq/plot';
import { escaped } from '../../sheet/words.ts';
import type { Picture, Tone } from '../picture.ts';
import { verdictMarks } from '../verdict-marks.ts';
import { textSize, textWidth } from './axes.ts';
import { inFixedColours, ink, printed, toneInk } from './colours.ts';
import { bars } from './bars.ts';
import { bins } from './bins.ts';
import { dots, lines, lookOf } from './dots-and-lines.ts';
import { map } from './map.ts';
import { partClass, type Size } from './plot-frame.ts';
import { SmallDocument, SmallElement } from './small-document.ts';

/** Pictures as SVG text: for the page, where each part can be reached and chosen, and for files. */

/** What a colour or a kind of line means. */
interface Meaning {
  readonly text: string;
  readonly colour: string;
  readonly dash?: string | undefined;
  readonly shape: 'line' | 'square' | Tone;
}

function meanings(picture: Picture): readonly Meaning[] {
  switch (picture.of) {
    case 'bins':
      return [];
    case 'lines':
      return picture.names.length < 2
        ? []
        : picture.names.map((text, place) => {
            const { ink: name, dash } = lookOf(place);
            return { text, colour: ink(name), dash, shape: 'line' };
          });
    default:
      return picture.tones.map((tone) => ({
        text: `${verdictMarks[tone]} ${tone}`,
        colour: toneInk(tone),
        shape: picture.of === 'dots' ? tone : 'square',
      }));
  }
}

/** The height of a line of the explanation, and of what stands before its words. */
const [lineHeight, swatch] = [18, 12];

/** A dot as it stands in the picture. */
function dotOf(document: SmallDocument, tone: Tone, colour: string, x: number, y: number): SmallElement {
  const look = { stroke: colour, 'stroke-width': 1.5, fill: colour, 'fill-opacity': 0.35 };
  const r = swatch / 2 - 1;
  const path = (d: string): SmallElement => document.drawn('path', { d, ...look });
  switch (tone) {
    case 'fails':
    case 'over':
      return path(`M${x - r} ${y - r}L${x + r} ${y + r}M${x - r} ${y + r}L${x + r} ${y - r}`);
    case 'tight':
      return path(`M${x} ${y - r - 1}L${x + r} ${y}L${x} ${y + r + 1}L${x - r} ${y}Z`);
    case 'not known':
      return document.drawn('rect', { x: x - r, y: y - r, width: 2 * r, height: 2 * r, ...look });
    default:
      return document.drawn('circle', { cx: x, cy: y, r, ...look });
  }
}

/** What colours mean, in one line; below the label of an upright axis, where there is one. */
function legend(document: SmallDocument, { of }: Picture, all: readonly Meaning[], width: number): SmallElement {
  const group = document.drawn('g', { 'aria-hidden': 'true', 'text-anchor': 'start', fill: ink('ink') });
  const top = of === 'bars' ? 0 : lineHeight;
  const middle = top + 10;
  const [before, between] = [5, 14];
  const spaces = all.reduce((sum, { shape }) => sum + (shape === 'line' ? 2 : 1) * swatch + before + between, 0);
  // All of them are whole where they have room together, however long one is.
  const whole = spaces + all.reduce((sum, { text }) => sum + textWidth(text), 0) <= width;
  let x = 4;
  for (const { text, colour, dash, shape } of all) {
    const letters = Math.max(4, Math.floor((width / all.length - 30) / 6));
    const shown = !whole && text.length > letters ? `${text.slice(0, letters - 1)}…` : text;
    const wide = shape === 'line' ? 2 * swatch : swatch;
    group.appendChild(
      shape === 'line'
        ? document.drawn('line', {
            x1: x,
            x2: x + wide,
            y1: middle,
            y2: middle,
            stroke: colour,
            'stroke-width': 2,
            ...(dash === undefined ? {} : { 'stroke-dasharray': dash }),
          })
        : shape === 'square'
          ? document.drawn('rect', { x, y: middle - swatch / 2, width: swatch, height: swatch, fill: colour })
          : dotOf(document, shape, colour, x + swatch / 2, middle),
    );
    x += wide + before;
    group.appendChild(document.drawn('text', { x, y: middle + 4 }, shown));
    x += textWidth(shown) + between;
  }
  return group;
}

/** Says of each part what it is, and lets keys reach it; all else is told by the picture's name and its table. */
function named(element: SmallElement, picture: Picture): void {
  for (const child of element.children) {
    if (child.getAttribute('class') === partClass) {
      const place = Number(child.getAttribute('data-part'));
      child.setAttribute('role', 'button');
      child.setAttribute('tabindex', place === 0 ? 0 : -1);
      child.setAttribute('aria-label', picture.parts[place]?.says ?? '');
    } else named(child, picture);
  }
  element.removeAttribute('aria-description');
  const holds = (one: SmallElement): boolean => one.getAttribute('class') === partClass || one.children.some(holds);
  if (element.tagName !== 'g') return;
  element.removeAttribute('aria-label');
  if (!holds(element)) element.setAttribute('aria-hidden', 'true');
}

function plotOptions(picture: Picture, size: Size): PlotOptions {
  switch (picture.of) {
    case 'bars':
      return bars(picture, size);
    case 'bins':
      return bins(picture, size);
    case 'dots':
      return dots(picture, size);
    case 'lines':
      return lines(picture, size);
    case 'map':
      return map(picture, size);
  }
}

/** A picture for the page. Its colours are the page's. */
export function drawnPicture(picture: Picture, size: Size): string {
  const document = new SmallDocument();
  const drawn: unknown = plot({
    ...plotOptions(picture, size),
    // It asks for no more of a document than the small one has.
    document: document as unknown as Document,
  });
  if (!(drawn instanceof SmallElement)) throw new Error('the picture was drawn elsewhere');
  const all = meanings(picture);
  if (all.length > 0) drawn.appendChild(legend(document, picture, all, size.width));
  named(drawn, picture);
  drawn.setAttribute('role', 'group');
  drawn.setAttribute('aria-label', `${picture.title}. ${picture.says}`);
  return drawn.toString();
}

/** Room for a title and a sentence above the picture of a file, and for what was left out below it. */
const [headRoom, footRoom] = [46, 24];

/** A picture as a file of its own, in the light colours, with its title and what it says. */
export function pictureFile(picture: Picture, { width, height }: Size, from: string): string {
  const inner = drawnPicture(picture, { width, height })
    .replaceAll(/ (?:role|tabindex|aria-label|data-part|class)="[^"]*"/g, '')
    .replace('<svg', `<svg y="${headRoom}"`);
  const line = (y: number, text: string, size: number, weight = 400): string =>
    `<text x="10" y="${y}" font-size="${size}" font-weight="${weight}" fill="${printed.ink}">${escaped(text)}</text>`;
  const whole = height + headRoom + footRoom;
  return inFixedColours(
    [
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${whole}" viewBox="0 0 ${width} ${whole}" ` +
        `role="img" aria-label="${escaped(`${picture.title}. ${picture.says}`)}" font-family="system-ui, sans-serif">`,
      `<title>${escaped(picture.title)}</title>`,
      `<rect width="100%" height="100%" fill="${printed.surface}"/>`,
      line(18, picture.title, 14, 600),
      line(36, picture.says, textSize),
      inner,
      line(whole - 8, [from, picture.leftOut].filter((text) => text !== '').join('. '), textSize - 1),
      '</svg>',
    ].join('\n'),
  );
}
