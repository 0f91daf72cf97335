import { html, svg, type TemplateResult } from 'lit-html';
import { ImpossiblePath, type PathPulley } from '../../advice/belt-path.ts';
import { loopPicture } from '../loop-picture-layout.ts';

/** A belt's loop around its pulleys: their names, the belt's travel, and how far it lies around each. */

const arrow = 'M-5 -4L5 0L-5 4Z';
const slashes = 'M-6 6L-1 -6M1 6L6 -6';

export function loopView(
  pulleys: readonly PathPulley[],
  width: number,
  size: (index: number) => string,
  choose: (index: number) => void,
): TemplateResult {
  let picture;
  try {
    picture = loopPicture(pulleys, width);
  } catch (error) {
    if (error instanceof ImpossiblePath) return html`<p class="remark">${error.message}</p>`;
    throw error;
  }
  const { height, belt, arrows, breaks, shortened, pulleys: drawn } = picture;
  const words =
    `Loop of the belt: ` +
    `${drawn
      .map(
        ({ name, wrap, reverse }, index) =>
          `${name}, ${size(index)}, ` + `${Math.round(wrap)}° wrap${reverse ? ', reverse ' + 'bend' : ''}`,
      )
      .join('; ')}`;
  return html`
    <div class="plot-place"><svg class="plot loop" width=${width} height=${height} viewBox="0 0 ${width} ${height}"
      role="img" aria-label=${words}>
      ${drawn.map(
        ({ centre, radius, reverse, label, above }, index) => svg`
        <line class="plot-leader" x1=${label.x} y1=${above ? label.y + 18 : label.y + 4} x2=${centre.x}
          y2=${centre.y + (above ? -radius : radius)} />
        <circle class="loop-pulley ${reverse ? 'loop-reverse' : ''}" cx=${centre.x} cy=${centre.y} r=${radius}
          @click=${() => choose(index)} />
        <circle class="loop-centre" cx=${centre.x} cy=${centre.y} r="1.5" />`,
      )}
      <path class="loop-belt" d=${belt} />
      ${breaks.map(
        ({ x, y, turned }) => svg`<g transform="translate(${x} ${y}) rotate(${turned})"><rect
        class="loop-gap" x="-4" y="-4" width="8" height="8" /><path class="loop-break" d=${slashes} /></g>`,
      )}
      ${arrows.map(
        ({ x, y, turned }) => svg`<path class="loop-arrow"
        transform="translate(${x} ${y}) rotate(${turned})" d=${arrow} />`,
      )}
      ${drawn.map(
        ({ name, wrap, label }) => svg`<text class="halo loop-name" text-anchor="middle" x=${label.x}
        y=${label.y + 2}>${name}</text><text class="halo plot-tick" text-anchor="middle" x=${label.x}
          y=${label.y + 15}>${Math.round(wrap)}°</text>`,
      )}
    </svg></div>
    <p class="caption">The belt and its wrap angle on each pulley, seen from the side that the coordinates were
      measured from.${
        shortened ? ' Not to scale: long runs are shortened (//) and the slope is flattened; the angles are true.' : ''
      } Open circles: reverse bends.</p>`;
}
