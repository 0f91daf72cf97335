import type { SeriesHeader } from '../../sheets/index.ts';
import type { Value } from '../formula/values.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { Belt } from '../records/belt.ts';
import { listed } from '../sheet/words.ts';
import { unitOf } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type JointGeometry } from './joint.ts';
import { jointGeometry, type JointInputs } from './joint-geometry.ts';

/** The joint of a belt in the book, and why it cannot be drawn. */
export interface BeltJoint {
  readonly belt: string;
  readonly series: string;
  readonly unit: string;
  /** Absent when not even the cut can be drawn. */
  readonly geometry?: JointGeometry;
  readonly remarks: readonly string[];
}

/** Plate series' columns that the drawing needs, by what the geometry calls them. */
const needed = {
  pitch: 'Pitch',
  plate: 'Plate width',
  leastEdge: 'Minimum edge',
  holeBack: 'Hole setback',
  holeGap: 'Hole spacing',
  perSide: 'Holes per side',
} as const;

function numbers<Name extends string, Header extends string>(
  columns: Readonly<Record<Name, Header>>,
  read: (header: Header) => Value,
): { readonly found: Partial<Record<Name, number>>; readonly missing: readonly string[] } {
  const found: Partial<Record<Name, number>> = {};
  const missing: string[] = [];
  for (const name of Object.keys(columns) as Name[]) {
    const value = read(columns[name]);
    if (typeof value === 'number') found[name] = value;
    else missing.push(columns[name]);
  }
  return { found, missing };
}

function seriesInputs(belt: Belt): { readonly inputs?: NonNullable<JointInputs['series']>; readonly remark?: string } {
  const name = belt.text('Plate series');
  if (name === '') return { remark: 'No plates are drawn: the belt has no plate series. Choose one.' };
  if (belt.seriesRecord === undefined)
    return {
      remark:
        `No plates are drawn: "${name}" is not in the sheet ${plateSeries.name}. Choose another series, or ` +
        `enter this one.`,
    };
  const read = (header: SeriesHeader): Value => belt.ofSeries(header);
  const { found, missing } = numbers(needed, read);
  const { pitch, plate, leastEdge, holeBack, holeGap = 0, perSide } = found;
  if (
    pitch === undefined ||
    plate === undefined ||
    leastEdge === undefined ||
    holeBack === undefined ||
    perSide === undefined
  ) {
    return { remark: `No plates are drawn: enter ${listed(missing)} of the plate series ${name}.` };
  }
  const [punch, plateLength] = [read('Punch size'), read('Plate length')];
  return {
    inputs: {
      pitch,
      plate,
      leastEdge,
      holeBack,
      holeGap,
      perSide,
      ...(typeof punch === 'number' ? { punch } : {}),
      ...(typeof plateLength === 'number' && plateLength > 0 ? { plateLength } : {}),
    },
  };
}

/** What the record's joint looks like; its remarks say what is missing and what to enter. */
export function beltJoint(book: Workbook, record: number): BeltJoint {
  const belt = new Belt(book, record);
  const head = { belt: belt.name, series: belt.text('Plate series'), unit: unitOf('length', book.units) };
  const { found, missing } = numbers({ width: 'Width', skew: 'Skew' } as const, (header) => belt.value(header));
  const { width, skew } = found;
  if (width === undefined || skew === undefined)
    return {
      ...head,
      remarks: [
        `The joint cannot be drawn: enter ${listed(missing)} as ${missing.length === 1 ? 'a number' : 'numbers'}.`,
      ],
    };
  const { inputs, remark } = seriesInputs(belt);
  const overhang = belt.named('StripOverhang');
  const [below, above] = [belt.ofSeries('Strips laid below'), belt.ofSeries('Strips laid above')];
  const geometry = jointGeometry({
    width,
    skew,
    unit: head.unit,
    hand: belt.text('Skew hand') === 'left' ? 'left' : 'right',
    ...(overhang !== undefined && typeof below === 'number' && typeof above === 'number'
      ? { strips: { overhang, below, above } }
      : {}),
    ...(inputs === undefined ? {} : { series: inputs }),
  });
  if (typeof geometry === 'string') return { ...head, remarks: [`The joint cannot be drawn: ${geometry}.`] };
  return { ...head, geometry, remarks: [...(remark === undefined ? [] : [remark]), ...geometry.remarks] };
}
