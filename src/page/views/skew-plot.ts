import { degreesText } from '../../units/shown-mark.ts';
import { html, nothing, svg, type TemplateResult } from 'lit-html';
import { pulleyText, reachedText, type ReachedPulley, type SkewRange } from '../../advice/belt-skews.ts';
import { placedPlot, type PlotLine } from '../skew-plot-layout.ts';

/** The minimum pulley of a belt's joint over its skew, a line a plate series, with the belt's own pulleys across. */

interface SkewPlot {
  readonly width: number;
  readonly height: number;
  readonly greatestSkew: number;
  readonly unit: string;
  readonly lines: readonly PlotLine[];
  readonly marks: readonly ReachedPulley[];
  readonly size: (pulley: number) => string;
  /** The skew that is looked at, and the chosen series' minimum pulley there. */
  readonly skew: number;
  readonly pulley: number | undefined;
  /** Skews at which the chosen series passes every check. */
  readonly passes: readonly SkewRange[];
  readonly choose: (skew: number) => void;
}

/** What the picture shows, in words. */
function inWords({ lines, marks, size }: SkewPlot): string {
  const chosen = lines.find((line) => line.chosen);
  const [first, last] = [chosen?.curve[0], chosen?.curve.at(-1)];
  if (chosen === undefined || first === undefined || last === undefined) return 'Minimum pulley against skew';
  const of = `${chosen.series} needs ${size(first.pulley)} at ${degreesText(first.skew)} and ${size(last.pulley)} at ${degreesText(last.skew)}`;
  return (
    `Minimum pulley against skew. ${of}. ` +
    `${marks.map((mark) => `${pulleyText(mark, size)}: enough ` + `${reachedText(mark.from)}.`).join(' ')}`
  );
}

type Placed = NonNullable<ReturnType<typeof placedPlot>>;

const axis = ({ frame, ticksX, ticksY }: Placed, { height, unit }: SkewPlot): TemplateResult => svg`
  ${ticksY.map(
    ({ at, value }) => svg`<line class="plot-rule" x1=${frame.left} x2=${frame.right} y1=${at} y2=${at}
    /><text class="plot-tick" x=${frame.left - 6} y=${at + 4} text-anchor="end">${value}</text>`,
  )}
  ${ticksX.map(
    ({ at, value }) => svg`<line class="plot-axis" x1=${at} x2=${at} y1=${frame.bottom}
    y2=${frame.bottom + 4} /><text class="plot-tick" x=${at} y=${frame.bottom + 16}
      text-anchor="middle">${value}°</text>`,
  )}
  <path class="plot-axis" d="M${frame.left} ${frame.top}V${frame.bottom}H${frame.right}" />
  <text class="plot-title" x=${frame.left - 40} y="11">minimum pulley${unit === '' ? '' : `, ${unit}`}</text>
  <text class="plot-title" x=${(frame.left + frame.right) / 2} y=${height - 4}
    text-anchor="middle">skew of the cut</text>`;

/** A level line for each pulley of the belt, and where a joint begins to pass it. */
const pulleyLines = ({ frame, x, marks }: Placed): readonly TemplateResult[] =>
  marks.map(
    ({ mark, y: at }) => svg`
    <line class="plot-pulley" x1=${frame.left} x2=${frame.right} y1=${at} y2=${at} />
    ${
      mark.from === undefined || mark.from === 0
        ? nothing
        : svg`<line class="plot-drop" x1=${x(mark.from)}
      x2=${x(mark.from)} y1=${at} y2=${frame.bottom} /><circle class="plot-reach" cx=${x(mark.from)} cy=${at} r="3.5"
        />`
    }`,
  );

/** A curve for each series, the chosen one over the others. */
const curves = ({ frame, lines }: Placed): readonly TemplateResult[] =>
  lines
    .toSorted((one, other) => Number(one.line.chosen) - Number(other.line.chosen))
    .map(
      ({ line, path, label }) => svg`
    <path class="plot-line ${line.chosen ? 'plot-chosen' : line.passes ? 'plot-passes' : 'plot-hindered'}" d=${path} />
    <path class="plot-leader" d="M${frame.right + 1} ${label.at}L${frame.right + 11} ${label.y}" />`,
    );

const passing = ({ frame, x }: Placed, { passes }: SkewPlot): readonly TemplateResult[] =>
  passes.map(
    ({ from, to }) =>
      svg`<path class="plot-range"
        d="M${Math.max(frame.left, x(from) - 1)} ${frame.bottom}H${Math.min(frame.right, x(to) + 1)}" />`,
  );

const labels = (
  { frame, x, lines, marks }: Placed,
  size: SkewPlot['size'],
  least: number | undefined,
): TemplateResult => svg`
  ${lines.map(
    ({ line, label }) => svg`<text
    class="plot-series halo ${line.chosen ? 'plot-series-chosen' : ''}" x=${label.x}
      y=${label.y + 4}>${label.text}</text>`,
  )}
  ${marks.map(
    ({ mark, label }) => svg`<text class="plot-mark halo" x=${label.x}
    y=${label.y}>${pulleyText(mark, size)}: ${reachedText(mark.from)}</text>`,
  )}
  ${
    least === undefined
      ? nothing
      : svg`<text class="plot-least-text halo" x=${Math.max(
          frame.left + 66,
          Math.min(x(least), frame.right - 30),
        )} y=${frame.top - 6} text-anchor="middle">minimum that passes: ${degreesText(least)}</text>`
  }`;

export function skewPlot(plot: SkewPlot): TemplateResult | typeof nothing {
  const { width, height, greatestSkew, lines, marks, size, skew, pulley, passes, choose } = plot;
  const placed = placedPlot({ width, height, greatestSkew, lines, marks });
  if (placed === undefined) return nothing;
  const { frame, x, y, skewAt } = placed;
  const least = passes[0]?.from;
  const onClick = (event: MouseEvent): void => {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    choose(Math.round(skewAt(((event.clientX - box.left) / box.width) * width) * 2) / 2);
  };
  return html`<svg class="plot" width=${width} height=${height} viewBox="0 0 ${width} ${height}" role="img"
    aria-label=${inWords(plot)} @click=${onClick}>
    ${axis(placed, plot)} ${curves(placed)} ${pulleyLines(placed)} ${passing(placed, plot)}
    ${least === undefined ? nothing : svg`<path class="plot-least" d="M${x(least)} ${frame.top}V${frame.bottom}" />`}
    ${pulley === undefined ? nothing : svg`<circle class="plot-here" cx=${x(skew)} cy=${y(pulley)} r="5" />`}
    ${labels(placed, size, least)}
  </svg>`;
}
