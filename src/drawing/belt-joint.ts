import { recordInRow } from '../formula/address.ts';
import { isFault, type Value } from '../formula/values.ts';
import type { BeltHeader, SeriesHeader } from '../../sheets/index.ts';
import { unitOf } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type JointGeometry, jointGeometry, type JointInputs } from './joint.ts';

/** The joint of a belt in the book, with what stands in the way of drawing it. */
export interface BeltJoint {
  readonly belt: string;
  readonly series: string;
  readonly unit: string;
  /** Absent when not even the cut can be drawn. */
  readonly geometry?: JointGeometry;
  readonly remarks: readonly string[];
}

const beltsSheet = 'Belts';
const seriesSheet = 'Plate series';

/** Plate series' columns that the drawing needs, by what the geometry calls them. */
const needed = {
  pitch: 'Pitch',
  plate: 'Plate size',
  leastEdge: 'Least edge',
  holeBack: 'Hole distance',
  holeGap: 'Hole gap',
  perSide: 'Holes per side',
} as const;

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1) ?? ''}`;

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

function seriesInputs(
  book: Workbook,
  record: number,
  name: string,
): { readonly inputs?: NonNullable<JointInputs['series']>; readonly remark?: string } {
  const row = book.read(beltsSheet, record, 'Series row');
  if (name === '') return { remark: 'No plates are drawn: the belt has no plate series yet.' };
  if (typeof row !== 'number') return { remark: `No plates are drawn: "${name}" is not in the sheet ${seriesSheet}.` };
  const read = (header: SeriesHeader): Value => book.read(seriesSheet, recordInRow(row), header);
  const { found, missing } = numbers(needed, read);
  const { pitch, plate, leastEdge, holeBack, holeGap = 0, perSide } = found;
  if (
    pitch === undefined ||
    plate === undefined ||
    leastEdge === undefined ||
    holeBack === undefined ||
    perSide === undefined
  ) {
    return { remark: `No plates are drawn: the plate series ${name} lacks ${listed(missing)}.` };
  }
  const punch = read('Punch size');
  return {
    inputs: { pitch, plate, leastEdge, holeBack, holeGap, perSide, ...(typeof punch === 'number' ? { punch } : {}) },
  };
}

/** What the record's joint looks like; its remarks say what is missing and what to enter. */
export function beltJoint(book: Workbook, record: number): BeltJoint {
  const text = (header: BeltHeader): string => {
    const value = book.read(beltsSheet, record, header);
    return value === null || isFault(value) ? '' : String(value);
  };
  const series = text('Plate series');
  const head = { belt: text('Belt'), series, unit: unitOf('length', book.units) };
  const { found, missing } = numbers({ width: 'Width', skew: 'Skew' } as const, (header) =>
    book.read(beltsSheet, record, header),
  );
  const { width, skew } = found;
  if (width === undefined || skew === undefined)
    return {
      ...head,
      remarks: [
        `The joint can't be drawn before ${listed(missing)} ${missing.length === 1 ? 'is' : 'are'} entered as a ` +
          `number.`,
      ],
    };
  const { inputs, remark } = seriesInputs(book, record, series);
  const [overhang, pieces] = [book.named('StripOverhang'), book.named('StripPieces')];
  const geometry = jointGeometry({
    width,
    skew,
    unit: head.unit,
    hand: text('Skew hand') === 'left' ? 'left' : 'right',
    ...(typeof overhang === 'number' && typeof pieces === 'number' ? { strips: { overhang, pieces } } : {}),
    ...(inputs === undefined ? {} : { series: inputs }),
  });
  if (typeof geometry === 'string') return { ...head, remarks: [`The joint can't be drawn: ${geometry}.`] };
  return { ...head, geometry, remarks: [...(remark === undefined ? [] : [remark]), ...geometry.remarks] };
}
