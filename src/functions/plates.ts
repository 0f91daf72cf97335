import { define, Refusal } from '../formula/define.ts';
import { cutLength, plateCentre, type PlateRow, platesOnCut, radians } from './geometry.ts';
import { edge, pitch, plate, plates, skew, width } from './parameters.ts';

/**
 * How many plates a joint takes, where they and their holes lie, in which order they are tightened, what each carries.
 */

const row = { width, skew, pitch, plate, edge };

/** Plates of one joint: the widest belts take some hundreds, and more can neither be drawn nor listed. Ours. */
const mostPlates = 10_000;
const mostHoles = 4 * mostPlates;

/** Plates on the cut, at least one; refuses plates that overlap and belts too narrow for a plate. */
function fittingPlates(given: PlateRow): number {
  if (given.pitch < given.plate)
    throw new Refusal('pitch', `must be at least the plate (${given.plate}), or the plates overlap`);
  const count = platesOnCut(given);
  if (count === 0) {
    const cut = cutLength(given.width, given.skew);
    throw new Refusal(
      'plate',
      `must fit on the cut: with the minimum edge on both sides one plate takes ${given.plate + 2 * given.edge}, ` +
        `the cut is ${cut}`,
    );
  }
  return count;
}

/** Refuses a row of plates too long to be listed one by one. */
function listable(count: number): void {
  if (count > mostPlates)
    throw new Refusal('width', `must be so small that at most ${mostPlates} plates are listed; it takes ${count}`);
}

const cutText = '{width}/COS(RADIANS({skew}))';
/** Plates beyond the first, as a plain formula. */
const beyondFirst = `INT(ROUND((${cutText}-2*{edge}-{plate})/{pitch},9))`;
const unlessNone = (value: string): string =>
  `IF(OR({pitch}<{plate},ROUND((${cutText}-2*{edge}-{plate})/{pitch},9)<0),{refused},${value})`;

/**
 * Plates that fit on the cut.
 *
 * The first plate takes its own size, each further one a pitch, and the edge distance is kept at both ends, all
 * measured along the cut. The room is counted after rounding to 9 decimals, so that a belt converted from inches holds
 * as many. A supplier may ask for a given count at a given width instead; then that goes first.
 */
export const plateCount = define({
  name: 'PLATECOUNT',
  summary: 'plates that fit on the cut',
  parameters: row,
  result: { kind: 'count', doc: 'plates in the joint' },
  source: 'counting along the cut; plates evenly pitched: common practice, no source',
  example: ['=PLATECOUNT(650,45,42,38,12)', 21],
  calculate(given) {
    return fittingPlates(given);
  },
  formula: unlessNone(`1+${beyondFirst}`),
});

/**
 * Clear distance that remains at each end of the cut, the plates centred.
 *
 * Never less than the edge distance asked for (but for the 9th decimal of a pitch), and less than half a pitch more.
 */
export const plateEdge = define({
  name: 'PLATEEDGE',
  summary: 'edge clearance at each end, with the plates centred',
  parameters: row,
  result: { kind: 'length', doc: "from the outer plate to the belt's edge, along the cut" },
  source: 'counting along the cut',
  example: ['=PLATEEDGE(650,45,42,38,12)', 20.61940777125589],
  calculate(given) {
    return (cutLength(given.width, given.skew) - given.plate - (fittingPlates(given) - 1) * given.pitch) / 2;
  },
  formula: unlessNone(`(${cutText}-{plate}-${beyondFirst}*{pitch})/2`),
});

/**
 * Centres of the plates along the cut, from the belt's near edge.
 *
 * Symmetric about the middle of the cut, a pitch apart; fills as many cells downwards as PLATECOUNT says.
 */
export const plateSpots = define({
  name: 'PLATESPOTS',
  summary: "centres of the plates along the cut, from the belt's near edge",
  parameters: row,
  result: { kind: 'length', doc: 'one centre a row' },
  source: 'counting along the cut',
  example: ['=PLATESPOTS(400,0,120,90,10)', [[80], [200], [320]]],
  spills: true,
  calculate(given) {
    const count = fittingPlates(given);
    const cut = cutLength(given.width, given.skew);
    listable(count);
    return Array.from({ length: count }, (_, index) => [plateCentre(cut, count, given.pitch, index)]);
  },
  formula: unlessNone(`IF(OR({column}>1,{row}>1+${beyondFirst}),"",${cutText}/2+({row}-1-${beyondFirst}/2)*{pitch})`),
});

const holeSpot = {
  along: `{s}*SIN(RADIANS({skew}))+{side}*{holeBack}*COS(RADIANS({skew}))`,
  across: `{s}*COS(RADIANS({skew}))-{side}*{holeBack}*SIN(RADIANS({skew}))`,
};
const holeFilled = (text: string): string =>
  text
    .replaceAll(
      '{s}',
      `(${cutText}/2+(INT(({row}-1)/(2*{perSide}))-${beyondFirst}/2)*{pitch}+(MOD({row}-1,` +
        `{perSide})-({perSide}-1)/2)*{holeGap})`,
    )
    .replaceAll('{side}', '(2*MOD(INT(({row}-1)/{perSide}),2)-1)');

/**
 * Where the holes are punched, in the belt's axes.
 *
 * Origin: where the cut meets the near edge; `along` runs with the belt's travel, `across` to the far edge. A point s
 * along the cut lies at (s sin(skew), s cos(skew)); square to the cut is (cos(skew), -sin(skew)). Each plate has
 * `perSide` holes in either belt end, `holeBack` from the cut, `holeGap` apart along the cut, centred on the plate.
 *
 * Rows: plate by plate; within a plate the end with the smaller `along` first; within an end along the cut.
 * The belt is taken flat and the cut straight; holes are not checked against the belt's edge.
 */
export const holeSpots = define({
  name: 'HOLESPOTS',
  summary: "holes of the joint as rows of along and across, in the belt's axes",
  parameters: {
    ...row,
    holeBack: { kind: 'length', above: 0, doc: 'from the cut to the holes, square to the cut' },
    holeGap: {
      kind: 'length',
      min: 0,
      doc: 'between holes of one plate and belt end, along the cut, centre to centre; not used with one hole',
    },
    perSide: { kind: 'count', min: 1, whole: true, doc: 'holes per plate in each belt end' },
  },
  result: { kind: 'length', doc: 'two columns, along and across; one hole a row' },
  source: 'rotation of the axes by the skew',
  example: [
    '=HOLESPOTS(100,0,60,50,10,20,30,2)',
    [
      [-20, 35],
      [-20, 65],
      [20, 35],
      [20, 65],
    ],
  ],
  spills: true,
  calculate({ holeBack, holeGap, perSide, ...given }) {
    if (perSide > 1 && holeGap === 0)
      throw new Refusal('holeGap', `must be more than 0 between ${perSide} holes of one plate, or they coincide`);
    const count = fittingPlates(given);
    const cut = cutLength(given.width, given.skew);
    const sine = Math.sin(radians(given.skew));
    const cosine = Math.cos(radians(given.skew));
    listable(count);
    if (count * perSide * 2 > mostHoles)
      throw new Refusal('perSide', `must be so small that ${count} plates have at most ${mostHoles} holes`);
    return Array.from({ length: count * perSide * 2 }, (_, index) => {
      const centre = plateCentre(cut, count, given.pitch, Math.floor(index / (2 * perSide)));
      const s = centre + ((index % perSide) - (perSide - 1) / 2) * holeGap;
      const back = (Math.floor(index / perSide) % 2 === 0 ? -1 : 1) * holeBack;
      return [s * sine + back * cosine, s * cosine - back * sine];
    });
  },
  formula: `IF(AND({perSide}>1,{holeGap}=0),{refused},${unlessNone(
    `IF(OR({column}>2,{row}>2*{perSide}*(1+${beyondFirst})),"",IF({column}=1,${holeFilled(holeSpot.along)},` +
      `${holeFilled(holeSpot.across)}))`,
  )})`,
});

/**
 * The turn at which a plate is tightened.
 *
 * First from plate 1, at the marked corner, to the middle, then from plate n to the middle. With an odd number of
 * plates the middle one belongs to the first run. The same order serves for the first, snug round and for the clamping
 * round after it.
 */
export const tightenTurn = define({
  name: 'TIGHTENTURN',
  summary: 'turn of a plate in the tightening order: marked corner to the middle, then the other end to the middle',
  parameters: { n: plates, i: { kind: 'count', min: 1, whole: true, doc: 'the plate, counted from the near edge' } },
  result: { kind: 'count', doc: 'turn, from 1 to n' },
  source: 'common practice, no source',
  example: ['=TIGHTENTURN(7,5)', 7],
  calculate({ n, i }) {
    if (i > n) throw new Refusal('i', `must be at most the number of plates (${n})`);
    const firstRun = Math.ceil(n / 2);
    return i <= firstRun ? i : firstRun + n - i + 1;
  },
  formula: 'IF({i}>{n},{refused},IF({i}<=INT(({n}+1)/2),{i},INT(({n}+1)/2)+{n}-{i}+1))',
});

/**
 * Force on one plate, along the belt.
 *
 * The tension of the belt's width shared evenly: true for plates alike, evenly tightened, in a belt that runs straight.
 * The skew does not enter: the plates of a longer cut are more, and each takes less.
 */
export const plateForce = define({
  name: 'PLATEFORCE',
  summary: 'load on one plate, along the belt',
  parameters: { tension: { kind: 'lineTension', min: 0, doc: 'belt tension per unit width' }, width, n: plates },
  result: { kind: 'force', doc: 'load on one plate' },
  source: 'equilibrium, the plates sharing evenly',
  example: ['=PLATEFORCE(40,650,21)', 1238.095238095238],
  calculate({ tension, width, n }) {
    return (tension * width) / n;
  },
  formula: '{tension}*{width}/{n}',
});
