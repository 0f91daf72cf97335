import { columns, declareSheet } from '../../src/sheet/declaration.ts';
import { withNames } from '../also-called.ts';
import { plateSeriesNames } from './plate-series-names.ts';

const yesNo = ['yes', 'no'] as const;

const inputs = columns([
  { header: 'Series', kind: 'text', doc: 'the name that belts refer to' },
  { header: 'Supplier', kind: 'text', doc: 'who sells it' },
  { header: 'Least thickness', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'least clamped thickness' },
  {
    header: 'Greatest thickness',
    kind: 'length',
    above: 0,
    digits: { metric: 1, us: 3 },
    doc: 'greatest clamped thickness',
  },
  {
    header: 'Square pulley',
    kind: 'length',
    above: 0,
    digits: { metric: 0, us: 2 },
    doc: 'least pulley for a square joint',
  },
  {
    header: 'Pulley at 45',
    kind: 'length',
    above: 0,
    digits: { metric: 0, us: 2 },
    doc: "the supplier's least pulley for a joint at 45 degrees; blank when there is none",
  },
  {
    header: 'Tension rating',
    kind: 'lineTension',
    above: 0,
    digits: { metric: 1, us: 0 },
    doc: 'greatest working tension per belt width',
  },
  { header: 'Pitch', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'from plate to plate along the cut' },
  {
    header: 'Plate size',
    kind: 'length',
    above: 0,
    digits: { metric: 1, us: 3 },
    doc: "the plate's size along the cut",
  },
  {
    header: 'Least edge',
    kind: 'length',
    min: 0,
    digits: { metric: 1, us: 3 },
    doc: "least clear distance from the outer plate to the belt's edge, along the cut",
  },
  {
    header: 'Greatest edge',
    kind: 'length',
    min: 0,
    digits: { metric: 1, us: 3 },
    doc: "greatest clear distance from the outer plate to the belt's edge, along the cut",
  },
  {
    header: 'Hole distance',
    kind: 'length',
    above: 0,
    digits: { metric: 1, us: 3 },
    doc: 'from the cut to the centres of the holes, square to the cut',
  },
  {
    header: 'Hole gap',
    kind: 'length',
    min: 0,
    digits: { metric: 1, us: 3 },
    doc: 'between the holes of one plate on one side, along the cut',
  },
  { header: 'Holes per side', kind: 'count', min: 1, max: 6, doc: 'holes of one plate in one belt end' },
  { header: 'Bolts per plate', kind: 'count', min: 1, max: 12, doc: 'bolts that one plate takes' },
  {
    header: 'Bolt length',
    kind: 'length',
    above: 0,
    digits: { metric: 0, us: 2 },
    doc: 'bolt up to the changing thickness',
  },
  {
    header: 'Changing thickness',
    kind: 'length',
    above: 0,
    digits: { metric: 1, us: 3 },
    doc: 'clamped thickness above which the longer bolt is used; blank when one length serves all',
  },
  {
    header: 'Longer bolt',
    kind: 'length',
    above: 0,
    digits: { metric: 0, us: 2 },
    doc: 'bolt above the changing thickness',
  },
  { header: 'Punch size', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'diameter of the hole' },
  {
    header: 'Plate length',
    kind: 'length',
    above: 0,
    digits: { metric: 1, us: 3 },
    doc: "the plate's length square to the cut; blank takes twice the hole distance and three punch sizes",
  },
  {
    header: 'Minimum rim',
    kind: 'length',
    min: 0,
    digits: { metric: 1, us: 3 },
    doc: "minimum belt between a hole's rim and the belt's edge, square to the edge; blank takes RimDistance",
  },
  { header: 'Flame resistant', kind: 'flag', choices: yesNo, doc: 'may be used in underground or fire-rated belts' },
  { header: 'Non-magnetic', kind: 'flag', choices: yesNo, doc: 'passes metal detectors and magnets' },
  { header: 'Corrosion resistant', kind: 'flag', choices: yesNo, doc: 'for wet and corrosive duty' },
  { header: 'Food', kind: 'flag', choices: yesNo, doc: 'for food duty' },
  {
    header: 'Strip',
    kind: 'text',
    choices: { sheet: 'Strips', header: 'Strip' },
    doc: 'the strip laid into its joints',
  },
  { header: 'Plates per pack', kind: 'count', min: 1, doc: 'plates in a pack, with or without their bolts' },
  { header: 'Pack price', kind: 'money', min: 0, digits: 2, doc: 'price of a pack of plates' },
  { header: 'Bolts per pack', kind: 'count', min: 1, doc: 'bolts in a pack' },
  {
    header: 'Bolt pack price',
    kind: 'money',
    min: 0,
    digits: 2,
    doc: 'price of a pack of bolts, 0 when they come with the plates',
  },
]);

/** Suppliers' plate series: every figure is the user's, from the supplier of the plates. */
export const plateSeries = declareSheet({
  name: 'Plate series',
  purpose: "Ranges of plates, one row a series: the supplier's figures, entered by you",
  record: 'plate series',
  key: 'Series',
  columns: withNames(
    [
      ...inputs,
      {
        header: 'Plate price',
        kind: 'money',
        digits: 3,
        doc: 'price of one plate',
        formula: '{Pack price}/{Plates per pack}',
      },
      {
        header: 'Bolt price',
        kind: 'money',
        digits: 3,
        doc: 'price of one bolt',
        formula: '{Bolt pack price}/{Bolts per pack}',
      },
      {
        header: 'Strip price',
        kind: 'moneyPerLength',
        digits: 4,
        doc: 'price of its strip per short length',
        formula: 'IF(LEN({Strip})=0,NA(),INDEX({Strips.Strip price},MATCH({Strip},{Strips.Strip},0)))',
      },
      { header: 'Remark', kind: 'text', doc: 'free' },
    ],
    plateSeriesNames,
  ),
});
