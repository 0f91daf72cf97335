import { declareSheet, needing } from '../src/sheet/declaration.ts';

const yesNo = ['yes', 'no'] as const;

/** Suppliers' plate series: every figure is the user's, from the supplier of the plates. */
export const plateSeries = declareSheet({
  name: 'Plate series',
  purpose: "Ranges of plates, one row a series: the supplier's figures, entered by you",
  record: 'plate series',
  key: 'Series',
  columns: [
    { header: 'Series', kind: 'text', doc: 'the name that belts refer to', alsoCalled: ['plate series', 'series name', 'fastener series', 'plate'] },
    { header: 'Supplier', kind: 'text', doc: 'who sells it', alsoCalled: ['vendor', 'maker'] },
    { header: 'Least thickness', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'least clamped thickness', alsoCalled: ['minimum thickness', 'min thickness', 'thickness from', 'min belt thickness'] },
    { header: 'Greatest thickness', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'greatest clamped thickness', alsoCalled: ['maximum thickness', 'max thickness', 'thickness to', 'max belt thickness'] },
    { header: 'Square pulley', kind: 'length', above: 0, digits: { metric: 0, us: 2 }, doc: 'least pulley for a square joint', alsoCalled: ['pulley square', 'square pulley rating', 'min pulley', 'minimum pulley', 'least pulley', 'pulley rating', 'pulley at 0'] },
    { header: 'Pulley at 45', kind: 'length', above: 0, digits: { metric: 0, us: 2 }, doc: "the supplier's least pulley for a joint at 45 degrees; blank when there is none", alsoCalled: ['45 degree pulley', 'pulley 45', 'pulley rating at 45 degrees', 'skew pulley', 'min pulley 45'] },
    { header: 'Tension rating', kind: 'lineTension', above: 0, digits: { metric: 1, us: 0 }, doc: 'greatest working tension per belt width', alsoCalled: ['rating', 'rated tension', 'max tension', 'tension', 'joint rating'] },
    { header: 'Pitch', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'from plate to plate along the cut', alsoCalled: ['plate pitch', 'spacing', 'plate spacing'] },
    { header: 'Plate size', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: "the plate's size along the cut", alsoCalled: ['plate width', 'plate length', 'size along the cut', 'plate size along the cut'] },
    { header: 'Least edge', kind: 'length', min: 0, digits: { metric: 1, us: 3 }, doc: "least clear distance from the outer plate to the belt's edge, along the cut", alsoCalled: ['edge distance', 'least edge distance', 'min edge', 'minimum edge', 'min edge distance', 'edge min'] },
    { header: 'Greatest edge', kind: 'length', min: 0, digits: { metric: 1, us: 3 }, doc: "greatest clear distance from the outer plate to the belt's edge, along the cut", alsoCalled: ['greatest edge distance', 'max edge', 'maximum edge', 'max edge distance', 'edge max'] },
    { header: 'Hole distance', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'from the cut to the centres of the holes, square to the cut', alsoCalled: ['hole back', 'hole distance from the cut', 'distance from cut'] },
    { header: 'Hole gap', kind: 'length', min: 0, digits: { metric: 1, us: 3 }, doc: 'between the holes of one plate on one side, along the cut', alsoCalled: ['gap', 'hole spacing', 'hole pitch'] },
    { header: 'Holes per side', kind: 'count', min: 1, max: 6, doc: 'holes of one plate in one belt end', alsoCalled: ['per side', 'holes', 'holes per plate side'] },
    { header: 'Bolts per plate', kind: 'count', min: 1, max: 12, doc: 'bolts that one plate takes', alsoCalled: ['bolts'] },
    { header: 'Bolt length', kind: 'length', above: 0, digits: { metric: 0, us: 2 }, doc: 'bolt up to the changing thickness', alsoCalled: ['bolt', 'short bolt'] },
    { header: 'Changing thickness', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'clamped thickness above which the longer bolt is used; blank when one length serves all', alsoCalled: ['bolt change thickness', 'thickness for longer bolt'] },
    { header: 'Longer bolt', kind: 'length', above: 0, digits: { metric: 0, us: 2 }, doc: 'bolt above the changing thickness', alsoCalled: ['long bolt', 'bolt length 2'] },
    { header: 'Punch size', kind: 'length', above: 0, digits: { metric: 1, us: 3 }, doc: 'diameter of the hole', alsoCalled: ['punch', 'hole diameter', 'hole size'] },
    { header: 'Flame resistant', kind: 'flag', choices: yesNo, doc: 'may be used in underground or fire-rated belts', alsoCalled: ['underground', 'fire rated', 'fire-rated'] },
    { header: 'Non-magnetic', kind: 'flag', choices: yesNo, doc: 'passes metal detectors and magnets', alsoCalled: ['nonmagnetic', 'non magnetic', 'magnet safe'] },
    { header: 'Corrosion resistant', kind: 'flag', choices: yesNo, doc: 'for wet and corrosive duty', alsoCalled: ['stainless', 'corrosion proof', 'corrosion'] },
    { header: 'Food', kind: 'flag', choices: yesNo, doc: 'for food duty', alsoCalled: ['food grade', 'food duty'] },
    { header: 'Strip', kind: 'text', choices: { sheet: 'Strips', header: 'Strip' }, doc: 'the strip laid into its joints', alsoCalled: ['strip name'] },
    { header: 'Plates per pack', kind: 'count', min: 1, doc: 'plates in a pack, with or without their bolts', alsoCalled: ['pack size', 'plates per box', 'pack'] },
    { header: 'Pack price', kind: 'money', min: 0, digits: 2, doc: 'price of a pack of plates', alsoCalled: ['price per pack', 'plate pack price', 'price'] },
    { header: 'Bolts per pack', kind: 'count', min: 1, doc: 'bolts in a pack', alsoCalled: ['bolt pack size', 'bolts per box'] },
    { header: 'Bolt pack price', kind: 'money', min: 0, digits: 2, doc: 'price of a pack of bolts, 0 when they come with the plates', alsoCalled: ['price per bolt pack'] },
    { header: 'Plate price', kind: 'money', digits: 3, doc: 'price of one plate', formula: needing('{Pack price}/{Plates per pack}', ['{Pack price}', '{Plates per pack}']) },
    { header: 'Bolt price', kind: 'money', digits: 3, doc: 'price of one bolt', formula: needing('{Bolt pack price}/{Bolts per pack}', ['{Bolt pack price}', '{Bolts per pack}']) },
    {
      header: 'Strip price', kind: 'moneyPerLength', digits: 4, doc: 'price of its strip per short length',
      formula: 'INDEX({Strips.Strip price},MATCH({Strip},{Strips.Strip},0))',
    },
    { header: 'Remark', kind: 'text', doc: 'free', alsoCalled: ['note', 'notes', 'remarks'] },
  ],
});
