import { escaped } from '../sheet/words.ts';
import type { Spot } from './joint.ts';
import type { Drawing, Shape } from './shapes.ts';

/**
 * A drawing as SVG text.
 *
 * Colours are the page's custom properties where they are set, otherwise printable ones, so that the same text serves
 * on screen and in a file. Travel runs to the right, the far edge is above.
 */
interface Sheet {
  /** Size of the picture in CSS pixels; the drawing fills it as far as its proportions let it. */
  readonly width: number;
  readonly height: number;
  readonly textSize: number;
}

const style = [
  'text{font-family:system-ui,sans-serif;fill:var(--ink,#111)}',
  '.belt{fill:var(--belt,#e4e4e4)}',
  '.plate{fill:var(--plate,#c8d2d0);stroke:var(--ink,#111);stroke-width:.6}',
  '.edge{stroke:var(--ink,#111);stroke-width:1.4}',
  '.cut{stroke:var(--accent,#1f5a66);stroke-width:2}',
  '.centre{stroke:var(--soft,#555);stroke-width:.8;stroke-dasharray:12 3 2 3}',
  '.help{stroke:var(--soft,#555);stroke-width:.7;stroke-dasharray:3 3}',
  '.dimension{stroke:var(--soft,#555);stroke-width:.8}',
  '.travel{stroke:var(--ink,#111);stroke-width:1.4}',
  '.hole{fill:var(--surface,#fff);stroke:var(--ink,#111);stroke-width:.7}',
  '.head{fill:var(--soft,#555)}.head-travel{fill:var(--ink,#111)}',
  '.halo{stroke:var(--surface,#fff);stroke-width:3.5;stroke-linejoin:round;paint-order:stroke}',
]
  .map((rule) => `.drawing ${rule.replace('}.', '}.drawing .')}`)
  .join('');

const short = (value: number): string => String(Number(value.toFixed(2)));

interface Point {
  readonly x: number;
  readonly y: number;
}

function head(tip: Point, from: Point, className: string): string {
  const angle = Math.atan2(tip.y - from.y, tip.x - from.x);
  const wing = (turn: number): string =>
    `${short(tip.x - 7 * Math.cos(angle + turn))} ${short(tip.y - 7 * Math.sin(angle + turn))}`;
  return `<path class="${className}" d="M${short(tip.x)} ${short(tip.y)}L${wing(0.35)}L${wing(-0.35)}Z"/>`;
}

class Plotter {
  readonly #place: (spot: Spot) => Point;
  readonly #scale: number;
  readonly #textSize: number;

  constructor(place: (spot: Spot) => Point, scale: number, textSize: number) {
    this.#place = place;
    this.#scale = scale;
    this.#textSize = textSize;
  }

  #path(spots: readonly Spot[]): string {
    return spots
      .map((spot, index) => {
        const { x, y } = this.#place(spot);
        return `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`;
      })
      .join('');
  }

  draw(shape: Shape): string {
    switch (shape.type) {
      case 'area':
        return `<path class="${shape.style}" d="${this.#path(shape.corners)}Z"/>`;
      case 'line':
        return `<path class="${shape.style}" fill="none" d="${this.#path(shape.points)}"/>`;
      case 'circle': {
        const { x, y } = this.#place(shape.centre);
        return (
          `<circle class="${shape.style}" cx="${short(x)}" cy="${short(y)}" ` +
          `r="${short((shape.diameter / 2) * this.#scale)}"/>`
        );
      }
      case 'arrow': {
        const [from, to] = [this.#place(shape.from), this.#place(shape.to)];
        const body =
          `<path class="${shape.style}" fill="none" d="M${short(from.x)} ${short(from.y)}L${short(to.x)} ` +
          `${short(to.y)}"/>`;
        if (shape.style === 'travel') return body + head(to, from, 'head-travel');
        return Math.hypot(to.x - from.x, to.y - from.y) < 16
          ? body
          : body + head(to, from, 'head') + head(from, to, 'head');
      }
      case 'arc': {
        const at = (degrees: number): Point =>
          this.#place({
            along: shape.centre.along + shape.radius * Math.cos((degrees * Math.PI) / 180),
            across: shape.centre.across + shape.radius * Math.sin((degrees * Math.PI) / 180),
          });
        const [from, to] = [at(shape.from), at(shape.to)];
        const radius = short(shape.radius * this.#scale);
        return (
          `<path class="dimension" fill="none" d="M${short(from.x)} ${short(from.y)}A${radius} ${radius} 0 0 0 ` +
          `${short(to.x)} ${short(to.y)}"/>`
        );
      }
      case 'text':
        return this.#text(shape);
    }
  }

  #text({ at, text, anchor, turned, lift }: Extract<Shape, { readonly type: 'text' }>): string {
    const { x, y } = this.#place(at);
    const size = this.#textSize;
    const down = lift === 'above' ? -0.4 * size : lift === 'below' ? 1.15 * size : 0.35 * size;
    const turn = turned === 0 ? '' : ` rotate(${short(-turned)})`;
    return (
      `<text class="halo" text-anchor="${anchor}" font-size="${size}" transform="translate(${short(x)} ` +
      `${short(y)})${turn}" y="${short(down)}">${escaped(text)}</text>`
    );
  }
}

export function svgText({ title, shapes, from, to }: Drawing, { width, height, textSize }: Sheet): string {
  const scale = Math.min(width / (to.along - from.along), height / (to.across - from.across));
  const left = (width - (to.along - from.along) * scale) / 2;
  const top = (height - (to.across - from.across) * scale) / 2;
  const plotter = new Plotter(
    ({ along, across }) => ({ x: left + (along - from.along) * scale, y: top + (to.across - across) * scale }),
    scale,
    textSize,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="0 0 ${short(width)} ${short(height)}" ` +
      `width="${short(width)}" height="${short(height)}" role="img" aria-label="${escaped(title)}">`,
    `<title>${escaped(title)}</title><style>${style}</style>`,
    ...shapes.map((shape) => plotter.draw(shape)),
    '</svg>',
  ].join('\n');
}
