import { type DrawnStanding, drawingWarnings, figuredDimensions, supplierFirst } from './drawing-warnings.ts';
import { planScale } from './plan-lanes.ts';
import { beltTitle } from '../records/belt.ts';
import type { JointGeometry } from './joint.ts';
import { type Dimension, type DimensionKey, jointReport, tighteningWords } from './joint-report.ts';
import type { Box, Mark, Paper } from './paper.ts';
import { cornerDetail } from './shop-detail.ts';
import { labelSize, rule, smallSize, text } from './shop-marks.ts';
import { jointPlan } from './shop-plan.ts';
import { fineText, type LengthUnit, millimetres } from './tape.ts';
import { fitted, textWidth, wrapped } from './text-width.ts';

/** What a shop drawing is of and for. */
interface ShopDrawingOptions extends DrawnStanding {
  readonly unit: LengthUnit;
  /** Name of the belt. */
  readonly belt: string;
  /** Name of the plate series, '' for none. */
  readonly series?: string;
  /** Of the paper within its margins, in millimetres; at least 230 by 165. A4, landscape, by default. */
  readonly width?: number;
  readonly height?: number;
}

const titleHeight = 10;
const rowHeight = 4.1;
const lineHeight = 3.4;
const nameWidth = 50;
const valueWidth = 27;
const tableWidth = nameWidth + valueWidth;

function scaleText(scale: number, unit: LengthUnit): string {
  const ratio = scale / millimetres[unit];
  return ratio >= 1 ? `${Number(ratio.toPrecision(2))} : 1` : `1 : ${Number((1 / ratio).toPrecision(3))}`;
}

const handText = ({ hand, skew }: JointGeometry): string =>
  skew === 0
    ? `square joint, measured from the ${hand} edge`
    : `${hand}-hand skew joint: its marked corner on the ${hand} edge`;

function table(dimensions: readonly Dimension[], { x, y }: Box): Mark[] {
  return dimensions.flatMap(({ name, text: value }, index): Mark[] => {
    const middle = y + rowHeight * (index + 0.5);
    return [
      text({ x, y: middle }, fitted(name, labelSize, nameWidth - 2), 'start'),
      text({ x: x + tableWidth, y: middle }, value, 'end'),
      rule('faint', { x, y: middle + rowHeight / 2 }, { x: x + tableWidth, y: middle + rowHeight / 2 }),
    ];
  });
}

function notesOf(joint: JointGeometry, unit: LengthUnit): string[] {
  const { plates, series } = joint;
  return [
    ...joint.remarks,
    `Seen from above, carrying side up, travel to the right; ${handText(joint)}, looking in the direction of travel. ` +
      `${figuredDimensions} ${supplierFirst}`,
    ...(plates.length === 0 || series === undefined
      ? []
      : [
          `Small numbers by the plates: counted from the marked corner. Tighten in two passes, each ` +
            `${tighteningWords(jointReport(joint, unit).tightening)}.` +
            (series.plateLength === undefined
              ? ' The series gives no plate length: plates are drawn to just beyond their holes.'
              : ''),
          ...(series.punch === undefined
            ? [`The series gives no hole diameter: holes are drawn ${fineText(joint.drawnPunch, unit)} wide.`]
            : []),
        ]),
  ];
}

interface Places {
  readonly plan: Box;
  readonly table: Box;
  /** Its heading stands above it. */
  readonly detail: Box;
  readonly notesTop: number;
}

/** Where everything stands: the plan takes the sheet's breadth or leaves the table a column, as draws it larger. */
function placesOn(
  joint: JointGeometry,
  { width, height }: { readonly width: number; readonly height: number },
  { dimensions, notes }: { readonly dimensions: number; readonly notes: number },
): Places {
  const notesTop = height - notes * lineHeight - 1;
  const tableHeight = dimensions * rowHeight + 2;
  const body = notesTop - titleHeight - 2;
  const detailHeight = joint.plates.length === 0 ? 0 : Math.max(52, Math.min(tableHeight, body * 0.42));
  const wide: Box = { x: 0, y: titleHeight, width, height: body - Math.max(tableHeight, detailHeight + 5) };
  const tall: Box = {
    x: 0,
    y: titleHeight,
    width: width - tableWidth - 8,
    height: body - detailHeight - (detailHeight > 0 ? 5 : 0),
  };
  const across = planScale(joint, wide) >= planScale(joint, tall);
  const plan = across ? wide : tall;
  const detailTop = plan.y + plan.height + 5;
  return {
    plan,
    table: {
      x: width - tableWidth,
      y: across ? notesTop - tableHeight : titleHeight + 3,
      width: tableWidth,
      height: tableHeight,
    },
    detail: { x: 0, y: detailTop, width: width - tableWidth - 8, height: notesTop - detailTop - 1 },
    notesTop,
  };
}

/** The sheet's title on the left, what kind of joint it is on the right. */
function titleMarks(name: string, kind: string, width: number): Mark[] {
  return [
    {
      type: 'text',
      at: { x: 0, y: 3.5 },
      text: fitted(`${name}: layout of the joint`, 4.2, width - textWidth(kind, labelSize) - 6, true),
      size: 4.2,
      anchor: 'start',
      turned: 0,
      bold: true,
    },
    text({ x: width, y: 3.7 }, kind, 'end'),
    rule('edge', { x: 0, y: 7 }, { x: width, y: 7 }),
  ];
}

/**
 * The whole drawing of a joint on one sheet: plan, marked corner enlarged, measures, notes.
 *
 * Of a joint without plates it shows what there is, and its notes say why there are none. All in black and grey. The
 * plan takes the sheet's breadth, or, of a square joint, leaves the measures a column beside it: whichever draws it
 * larger.
 */
export function shopDrawing(
  joint: JointGeometry,
  { unit, belt, series = '', width = 277, height = 190, worst, invented }: ShopDrawingOptions,
): Paper {
  const report = jointReport(joint, unit);
  const labels = new Map<DimensionKey, string>(report.dimensions.map((dimension) => [dimension.key, dimension.text]));
  const warnings = drawingWarnings({ worst, invented });
  const lines = (words: readonly string[], bold: boolean): { readonly line: string; readonly bold: boolean }[] =>
    words.flatMap((note) => wrapped(note, labelSize, width).map((line) => ({ line, bold })));
  const notes = [
    ...lines(warnings.length === 0 ? [] : [warnings.join(' ')], true),
    ...lines(notesOf(joint, unit), false),
  ];
  const places = placesOn(joint, { width, height }, { dimensions: report.dimensions.length, notes: notes.length });
  const { notesTop } = places;
  const plan = jointPlan(joint, labels, places.plan);
  const detail = cornerDetail(joint, unit, places.detail);
  const kind =
    `${joint.skew === 0 ? 'square' : `skew ${labels.get('skew') ?? ''}, ${joint.hand}-hand`}` +
    `${series === '' ? '' : `, ${series}`}, plan ${scaleText(plan.scale, unit)}`;
  return {
    title: `Joint of ${belt === '' ? 'a belt without a name' : `belt ${belt}`}`,
    width,
    height,
    marks: [
      ...titleMarks(beltTitle(belt), kind, width),
      ...plan.marks,
      ...(detail === undefined
        ? []
        : [
            text(
              { x: 0, y: places.detail.y - 3 },
              `Marked corner, cut level, ${scaleText(detail.scale, unit)}; holes ${fineText(joint.drawnPunch, unit)} ` +
                `in diameter`,
              'start',
              0,
              smallSize + 0.3,
            ),
            ...detail.marks,
          ]),
      ...table(report.dimensions, places.table),
      rule('faint', { x: 0, y: notesTop - 1 }, { x: width, y: notesTop - 1 }),
      ...notes.map(({ line, bold }, index): Mark => ({
        ...text({ x: 0, y: notesTop + lineHeight * (index + 0.5) }, line, 'start'),
        ...(bold ? { bold: true } : {}),
      })),
    ],
  };
}
