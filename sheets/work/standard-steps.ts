import { inOrder, release, restore } from './stored-energy.ts';

/**
 * The work at a bolted-plate joint, step by step, as rows of a sheet: the reader of steps takes these rows and edited
 * ones alike. Names in braces are filled with a belt's own values.
 */

/** Headers of the steps' sheet, in its order. */
export const stepHeaders = [
  'Order',
  'Step',
  'Joint',
  'Text',
  'Tools',
  'Hold point',
  'Sign-off',
  'Cautions',
  'Only when',
  'Source',
] as const;

export type StepHeader = (typeof stepHeaders)[number];
export type StepRow = Readonly<Partial<Record<StepHeader, string | number | boolean | null>>>;

const practice = 'common practice, no source';
const trigonometry = 'trigonometry of the right triangle';

/** Work stops until it is signed. */
const hold = { 'Hold point': 'yes', 'Sign-off': 'yes' } as const;
const signed = { 'Sign-off': 'yes' } as const;

/** A step of both kinds of joint that nobody signs, unless it says otherwise itself. */
const step = (order: number, title: string, tools: string, text: string, more: StepRow = {}): StepRow => ({
  Order: order,
  Step: title,
  Joint: 'both',
  Text: text,
  Tools: tools,
  'Hold point': 'no',
  'Sign-off': 'no',
  Cautions: '',
  Source: practice,
  ...more,
});

export const standardSteps: readonly StepRow[] = [
  step(
    10,
    'Read and check',
    "supplier's instructions; this card; tape; thickness gauge",
    "Read the plate supplier's instructions for {Plate series}: where they differ from this card, follow them. Check " +
      'the parts against the list of parts: {Plates} plates, each an upper and a lower one, {Bolts} bolts of {Bolt ' +
      'length}. Check the belt against the card: width {Width}, thickness {Thickness}. If anything differs, stop and ' +
      'ask the planner.',
    { ...signed, Cautions: 'supplier, fire' },
  ),
  step(
    20,
    'Isolate and try',
    'locks and tags; permit',
    `Run belt {Belt} empty and stop it. ${inOrder([release.isolate, 'hang your own lock', release.attempt])}. ` +
      'Write the number of the permit on the card. Do not continue unless it fails to start.',
    { ...hold, Cautions: 'isolation', Source: '29 CFR 1910.147' },
  ),
  step(
    30,
    'Take the tension off',
    'belt clamps for both runs; blocks and chains for the weight; winch',
    `In this order: ${[release.takeUp, release.clamp, release.prove, release.open].join('; ')}. This joint takes ` +
      `{Joint takes} of belt and needs {Travel needed} of take-up travel; {Take-up travel} is left. If less is left, ` +
      `or if more belt must be cut off, stop and ask for a belt insert.`,
    { ...hold, Cautions: 'stored energy, run-back, pinch', Source: '29 CFR 1910.147; the length by trigonometry' },
  ),
  step(
    40,
    'Mark the centre line',
    'tape; chalk line; marker; straight edge longer than the cut',
    'On each belt end, mark the middle of the width at {Midpoints} places or more, spread over at least {Centre line ' +
      'length} of belt. Draw the straight line that fits them: the centre line. A point clearly off the line shows a ' +
      'worn edge: leave it out and mark another.',
  ),
  step(
    50,
    'Mark the square line',
    'large square; straight edge longer than the cut; marker',
    'Draw a line square to the centre line, across the whole belt, far enough from the worn end for the cut to clear ' +
      'it. Set the square against the centre line and never against an edge: belt edges are not straight.',
  ),
  step(
    60,
    'Prove the square line',
    'long tape',
    'Measure {Diagonal distance} from the square line along both edges and mark it. Both diagonals of this rectangle ' +
      'must be {Diagonal}. If they differ from each other, the line is not square: draw it again. If they are equal ' +
      'but of another length, the belt is not {Width} wide here: measure it.',
    { ...hold, Source: 'theorem of Pythagoras' },
  ),
  step(
    70,
    'Mark the skew',
    'tape; straight edge longer than the cut; marker',
    'Start on the trailing end (the belt end behind the joint in the direction of travel), its carrying side up. ' +
      'Looking in the direction of travel, its square line meets the {Skew hand} edge at the marked corner. From the ' +
      'other end of the square line, measure {Edge offset} along the edge in the direction of travel, and draw the ' +
      'cut from there to the marked corner: {Cut length} from edge to edge, {Skew} from square. Where the carrying ' +
      'side faces down, as on the return run, left and right are swapped. Check again before you cut: from the ' +
      'marked corner the cut runs forward, in the direction of travel.',
    { ...hold, Joint: 'skew', Source: trigonometry },
  ),
  step(
    70,
    'Take the square line for the cut',
    'marker',
    'The proven square line is the cut: {Cut length} from edge to edge. Mark it so that it cannot be mistaken for ' +
      'another line.',
    { Joint: 'square' },
  ),
  step(
    80,
    'Cut the first end',
    'belt knife; fresh blades; straight edge longer than the cut; clamps for the straight edge; board',
    'Lay a board under the belt and cut along the straight edge, with the knife upright, in several light strokes. ' +
      'Measure the cut: {Cut length}.',
    { Cautions: 'hand tools, protection' },
  ),
  step(
    90,
    'Cut the second end',
    'belt knife; straight edge longer than the cut; marker',
    'Lay the first end on the second, centre line on centre line, and mark the second cut along it: the first end is ' +
      'the pattern. Cut. Put the ends together: no gap may show light, and the centre lines must run straight on.',
    { ...hold, Cautions: 'hand tools, lifting' },
  ),
  step(
    100,
    'Punch the holes',
    'pattern; punch; board; hammer',
    'Lay the pattern along the cut, its outer plates {Edge clearance} from the edges, and fix it. In each end, ' +
      'punch {Holes per end} holes, diameter {Punch size}, {Hole setback} from the cut; plate pitch {Pitch} (centre ' +
      'to centre). Count the holes, and check the first and the last against the table of holes.',
    { ...signed, Cautions: 'hot bits, noise, protection' },
  ),
  step(
    110,
    'Skive the cover',
    'skiving knife or machine; thickness gauge; gloves; dust mask',
    'With the holes punched (the pattern lies flat on the full cover only), skive the cover under the plates {Skive ' +
      'depth} deep, evenly across the whole width and as far back as the ' +
      'plates reach. Do not touch the carcass. Belt left between the plates: {Clamped thickness}; measure it at both ' +
      'edges and in the middle.',
    { ...hold, Cautions: 'hand tools, protection', 'Only when': 'Skive depth' },
  ),
  step(
    120,
    'Set the lower plates',
    'bolt holder',
    'Push the bolts through the {Plates} lower plates, line the plates up under the first end and fit its holes over ' +
      'the bolts. Leave none out.',
    { Cautions: 'pinch' },
  ),
  step(
    130,
    'Lay the strips below',
    'belt knife; tape',
    'Strips to lay on the lower plates along the cut: {Strips below} of {Strip length each}, half of the strip width ' +
      'under the first end, with equal overhang at both edges.',
    { Cautions: 'hand tools', 'Only when': 'Strips below' },
  ),
  step(
    140,
    'Join the ends',
    'winch; clamps for the belt ends; tapered pin',
    'Pull the second end up and fit its holes over the bolts, from one edge to the other. Look along the edges: they ' +
      'must run straight on, and the cuts must meet without a gap.',
    { ...hold, Cautions: 'stored energy, pinch, lifting' },
  ),
  step(
    150,
    'Lay the strips above',
    'belt knife; tape',
    'Strips to lay over the joint along the cut: {Strips above} of {Strip length each}, with equal overhang ' +
      'at both edges.',
    { Cautions: 'hand tools', 'Only when': 'Strips above' },
  ),
  step(
    160,
    'Set the upper plates',
    '',
    'Put the {Plates} upper plates on, and a nut on each of the {Bolts} bolts by hand. All plates must lie flat and ' +
      'in line before you tighten any.',
    { Cautions: 'pinch' },
  ),
  step(
    170,
    'Tighten, first pass: snug',
    'wrench',
    'Tighten all nuts of a plate evenly, only until the plate sits flat. Order of the plates, counted from the ' +
      'marked corner: {Tightening order}. Each plate once.',
    { ...signed, Cautions: 'noise, protection' },
  ),
  step(
    180,
    'Tighten, second pass: clamp',
    'torque wrench',
    "The same order again: {Tightening order}. Tighten to the supplier's torque, so that the plates' edges sink into " +
      'the cover and the belt does not bulge between them. Each plate once; leave no nut out.',
    { ...hold, Cautions: 'noise, protection' },
  ),
  step(
    190,
    'Break and dress the bolt ends',
    'hand tool to break bolts with; hammer; grinder where the hot-work permit allows it; magnet; dust mask',
    'Break off the bolt ends above the nuts and peen what protrudes. Grind only under a hot-work permit, with the ' +
      'dust cleared away and an extinguisher and a fire watch in place. Collect all pieces: {Bolts} ends.',
    {
      ...signed,
      Cautions: 'hot bits, hot work, noise, protection',
      Source: `${practice}; 29 CFR 1910.252 (from memory)`,
    },
  ),
  step(200, 'Trim the strips', 'belt knife', 'Cut all {Strip pieces} strips flush with the edges of the belt.', {
    Cautions: 'hand tools',
    'Only when': 'Strip pieces',
  }),
  step(
    205,
    'Trim the corners',
    'belt knife',
    'Each belt end has one sharp corner, the two on opposite edges of the belt. Cut these two off if the supplier ' +
      'says so; no other corner.',
    { Cautions: 'hand tools' },
  ),
  step(
    210,
    'Check the joint',
    'tape; straight edge longer than the cut; this card',
    'Count {Plates} plates on each side. Edge clearance: {Edge clearance} at both ends. No plate is raised or ' +
      'crooked, no nut is missing, no bolt end can catch. The centre line runs straight through the joint.',
    { ...hold },
  ),
  step(
    220,
    'Clear and put the guards back',
    'tool list; permit',
    `In this order, with the joint closed: ${Object.values(restore).slice(1).join('; ')}.`,
    { ...hold, Cautions: 'start-up, stored energy, run-back', Source: '29 CFR 1926.555(a); 29 CFR 1910.147' },
  ),
  step(
    230,
    'Test run',
    'radio or hand signals',
    'Give the start warning. Run the belt empty for a few turns; look and listen from outside the guards: the joint ' +
      'must pass the smallest pulley, {Smallest pulley}, and the scrapers without striking, and the belt must run ' +
      'straight. Then run it loaded and look again.',
    { ...hold, Cautions: 'start-up, pinch' },
  ),
  step(
    240,
    'Tighten again after the first hours',
    'locks and tags; torque wrench',
    'After {First hours} of running, or sooner if the supplier says so: isolate and secure the belt in the same ' +
      'order as before, look at every plate, and tighten once more in the same order: {Tightening order}. Then put ' +
      'every guard back, make sure that everyone is clear, remove the locks, give the start warning, and watch a ' +
      'test run from outside the guards. Note the date of the next check.',
    {
      ...hold,
      Cautions: 'isolation, stored energy, run-back, pinch, noise, protection, start-up',
      Source: `${practice}; 29 CFR 1910.147; 29 CFR 1926.555(a)`,
    },
  ),
];
