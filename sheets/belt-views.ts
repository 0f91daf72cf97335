import type { BeltHeader } from './index.ts';

/** Columns of the sheet Belts that one kind of reader works with, in the order in which they are read. */
interface DeclaredView {
  readonly name: string;
  readonly doc: string;
  /** 'all' for every column but the intermediate ones. */
  readonly headers: readonly BeltHeader[] | 'all';
}

// prettier-ignore
/** Ready-made views of the sheet Belts. The first is shown until a reader chooses another. */
export const beltViews = [
  { name: 'Planner', doc: 'what is to be done, when, and what it takes', headers: [
    'Belt', 'Verdict', 'Area', 'Width', 'Construction', 'Pulley centres', 'Speed', 'Smallest pulley', 'Skew',
    'Skew hand', 'Plate series', 'Joints', 'Installed', 'Due', 'Due reason', 'Retighten on', 'Cut length', 'Plates',
    'Working tension', 'Labour hours', 'Downtime', 'Joint cost', 'Findings',
  ] },
  { name: 'Buyer', doc: 'plates, strip and belt to order, and what they cost', headers: [
    'Belt', 'Verdict', 'Area', 'Width', 'Construction', 'Thickness', 'Plate series', 'Joints', 'Skew', 'Cut length',
    'Plates', 'Bolts', 'Bolt length', 'Strip length each', 'Strips', 'Strip per joint', 'Insert to order',
    'Roll length', 'Rolls', 'Belt to order', 'Spare belt', 'Due', 'Parts cost', 'Joint cost',
  ] },
  { name: 'Engineer', doc: 'tensions, pulleys, the joint and every check', headers: [
    'Belt', 'Verdict', 'Width', 'Construction', 'Thickness', 'Belt strength', 'Pulley centres', 'Lift', 'Speed',
    'Power', 'Capacity', 'Tension method', 'Known tension', 'Effective tension', 'Working tension', 'Belt rating used',
    'Rating used', 'Load per plate', 'Skew', 'Plate series', 'Plates', 'Smallest pulley', 'Joint minimum pulley',
    'Carcass minimum pulley', 'Critical pulley', 'Take-up travel', 'Travel needed', 'Pulley check', 'Carcass check',
    'Thickness check', 'Tension check', 'Edge check', 'Belt tension check', 'Load per plate check', 'Skive check',
    'Take-up check', 'Service check', 'Age check', 'Findings',
  ] },
  { name: 'All columns', doc: 'every column but the intermediate ones, in the order of the sheet', headers: 'all' },
] as const satisfies readonly DeclaredView[];
