import { programName } from '../workbook/legal-notice.ts';
import { type DrawnStanding, drawingWarnings, figuredDimensions, supplierFirst } from './drawing-warnings.ts';
import { type LengthUnit, millimetres } from './tape.ts';
import type { Spot } from './belt-axes.ts';
import { beltEnd, type JointGeometry } from './joint.ts';
import { jointReport } from './joint-report.ts';

/** What a file for a cutting table or a drill is of. */
export interface JointFileOptions extends DrawnStanding {
  readonly unit: LengthUnit;
  /** Name of the belt. */
  readonly belt: string;
  /** True for the cut alone, which then needs neither plates nor holes. */
  readonly cutOnly?: boolean;
}

/** Why there is no file. */
export interface Refused {
  readonly refused: string;
}

export const isRefused = (outcome: string | Uint8Array | Refused): outcome is Refused =>
  typeof outcome === 'object' && 'refused' in outcome;

/**
 * What a machine or a crew may not be given, in a sentence: a pattern with holes missing, of a size that nobody named,
 * or off the belt.
 */
export function patternRefusal(
  joint: JointGeometry | string,
  { cutOnly = false }: Pick<JointFileOptions, 'cutOnly'>,
): string | undefined {
  if (typeof joint === 'string') return `The joint cannot be drawn: ${joint}.`;
  if (cutOnly) return undefined;
  if (joint.series === undefined)
    return joint.patternFaults.length > 0
      ? joint.patternFaults.join(' ')
      : 'There is no hole pattern: the joint has no plate series. Choose one, or ask for the cut alone.';
  if (joint.series.punch === undefined)
    return "The holes have no diameter: enter the plate series' punch size, or ask for the cut alone.";
  return joint.patternFaults.length > 0
    ? `${joint.patternFaults.join(' ')} Ask for the cut alone, or change the joint.`
    : undefined;
}

/** Layers with their colours by number: 7 is black on white, white on black. */
const layers = { belt: 8, cut: 1, holes: 5, plates: 3, text: 7 } as const;
type Layer = keyof typeof layers;

/** Height of letters, in millimetres. */
const letters = 8;

/**
 * A text that ends no line of the file, in any reader's opinion, and starts no control code: "%%" makes signs, "^J" the
 * end of a line, "^ " a caret ("Advanced Topics" of the published DXF reference, from memory).
 */
const plainText = (text: string): string =>
  text
    .replaceAll(/[\p{Cc}\p{Cs}\u2028\u2029]/gu, ' ')
    .replaceAll('%%', '% %')
    .replaceAll(/\^(?! )/g, '^ ')
    .trim();

/**
 * The joint as DXF at 1:1, in the belt's axes and the unit named in the file ($INSUNITS).
 *
 * Layers: belt (the edges of both ends), cut, holes (circles of the punch size), plates (outlines), text (lettering,
 * centre and square line). Numbers are written unrounded, as short as they read back to the same value. The same joint
 * gives the same text. The library that writes it is loaded only when asked for.
 */
export async function jointDxf(joint: JointGeometry | string, options: JointFileOptions): Promise<string | Refused> {
  const refused = patternRefusal(joint, options);
  if (refused !== undefined || typeof joint === 'string') return { refused: refused ?? String(joint) };
  const { DxfWriter, LWPolylineFlags, point3d, Units } = await import('@tarikjabiri/dxf');
  const { unit, belt, cutOnly = false } = options;
  const { width, offset, back, nearEnd, farEnd, squares, plates, holes, series, hand } = joint;
  const report = jointReport(joint, unit);
  const height = letters / millimetres[unit];
  const lines = [
    ...drawingWarnings(options).map((warning) => warning.toUpperCase()),
    `Joint of belt ${belt === '' ? 'without a name' : belt}, 1:1 in ${unit}, seen from above, travel to the right, ` +
      `${offset > 0 ? `${hand}-hand skew` : 'square'}`,
    `${supplierFirst} ${figuredDimensions}`,
    ...report.dimensions.map(({ name, text }) => `${name}: ${text}`),
  ];
  /** Foot of a line of lettering, counted from 0, below the belt. */
  const lineFoot = (index: number): number => -(index + 2) * 1.6 * height;
  const file = new DxfWriter();
  file.document.setUnits(unit === 'mm' ? Units.Millimeters : Units.Inches);
  file.setVariable('$LASTSAVEDBY', { 1: programName });
  file.setVariable('$MEASUREMENT', { 70: unit === 'mm' ? 1 : 0 });
  file.setVariable('$EXTMIN', { 10: -back, 20: lineFoot(lines.length), 30: 0 });
  file.setVariable('$EXTMAX', { 10: offset + back, 20: width, 30: 0 });
  for (const [name, colour] of Object.entries(layers)) file.addLayer(name, colour, 'Continuous');
  const point = ({ along, across }: Spot): ReturnType<typeof point3d> => point3d(along, across);
  const segment = (layerName: Layer, from: Spot, to: Spot): void => {
    file.addLine(point(from), point(to), { layerName });
  };
  for (const end of ['trailing', 'leading'] as const) {
    const [near, far, farAway, nearAway] = beltEnd(joint, end, back);
    segment('belt', nearAway, near);
    segment('belt', farAway, far);
  }
  segment('cut', nearEnd, farEnd);
  segment('text', { along: -back, across: width / 2 }, { along: offset + back, across: width / 2 });
  segment('text', ...squares.trailing.line);
  if (offset > 0) segment('text', ...squares.leading.line);
  if (!cutOnly && series?.punch !== undefined) {
    for (const { corners } of plates)
      file.addLWPolyline(
        corners.map((corner) => ({ point: { x: corner.along, y: corner.across } })),
        { flags: LWPolylineFlags.Closed, layerName: 'plates' },
      );
    for (const { at } of holes) file.addCircle(point(at), series.punch / 2, { layerName: 'holes' });
  }
  lines.forEach((line, index) =>
    file.addText(point3d(-back, lineFoot(index)), height, plainText(line), { layerName: 'text' }),
  );
  return file.stringify();
}
