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
    "Read the plate supplier's instructions for {Plate series}: where they differ from this card, they go first. " +
      'Check the parts: {Plates} plates, each an upper and a lower one, {Bolts} bolts of {Bolt length}, ' +
      '{Strip pieces} strips of {Strip per piece} each. Check the belt against the card: width {Width}, thickness ' +
      '{Thickness}.',
    { ...signed, Cautions: 'supplier' },
  ),
  step(
    20,
    'Isolate and try',
    'locks and tags; permit',
    'Run belt {Belt} empty. Stop it, isolate and lock out every source of energy, hang your own lock, and try to ' +
      'start it. Write the number of the permit on the card. No one goes on before the attempt has failed.',
    { ...hold, Cautions: 'isolation', Source: '29 CFR 1910.147' },
  ),
  step(
    30,
    'Take the tension off',
    'belt clamps on both runs; blocks and chains for the weight; winch',
    'Clamp both runs, block the take-up weight and let the tension off, slowly. Belt that the skew takes on the ' +
      'centre line, from two square ends: {Belt consumed}; what is cut off with the old joint comes on top. Travel ' +
      'left in the take-up: {Take-up travel}. Where that is not enough, stop and plan an insert of belt.',
    { ...hold, Cautions: 'stored energy, run-back, pinch', Source: '29 CFR 1910.147; the length by trigonometry' },
  ),
  step(
    40,
    'Mark the centre line',
    'tape; chalk line; marker; straight edge',
    'On each belt end, mark the middle of the width at {Midpoints} places or more, spread over at least ' +
      '{Centre line length} of belt. Draw the straight line that fits them: the centre line. A point that clearly ' +
      'stands off the line shows a worn edge: leave it out and mark another.',
  ),
  step(
    50,
    'Mark the square line',
    'large square; straight edge; marker',
    'Draw a line square to the centre line, across the whole belt, far enough from the worn end for the cut to ' +
      'clear it. Set the square against the centre line and never against an edge: edges wear and wander.',
  ),
  step(
    60,
    'Prove the square line',
    'two tapes or one long tape',
    'Measure {Diagonal distance} from the square line along both edges and mark it. Both diagonals of this ' +
      'rectangle must be {Diagonal}. Diagonals that differ: the line is not square, draw it again. Diagonals that ' +
      'are alike but of another length: the belt is not {Width} wide here, measure it.',
    { ...hold, Source: 'theorem of Pythagoras' },
  ),
  step(
    70,
    'Mark the skew',
    'tape; straight edge longer than the cut; marker',
    'Begin on the end that travels behind the joint, its carrying side up. Its square line meets the {Skew hand} ' +
      'edge, looking the way the belt travels, at the marked corner. From the other end of the square line measure ' +
      '{Edge offset} along the edge the way the belt travels, and draw the cut from there to the marked corner: ' +
      '{Cut length} from edge to edge, {Skew} from square. Where the carrying side lies below, as on the return run, ' +
      'left and right change places. Look once more before cutting: from the marked corner the cut runs forward, the ' +
      'way the belt travels.',
    { ...hold, Joint: 'skew', Source: trigonometry },
  ),
  step(
    70,
    'Take the square line for the cut',
    'marker',
    'The proven square line is the cut: {Cut length} from edge to edge. Mark it so that it cannot be taken for ' +
      'another line.',
    { Joint: 'square' },
  ),
  step(
    80,
    'Cut the first end',
    'belt knife with fresh blades; straight edge; clamps; board',
    'Lay a board under the belt and cut along the straight edge, upright, in several light strokes. Measure the ' +
      'cut: {Cut length}.',
    { Cautions: 'hand tools, protection' },
  ),
  step(
    90,
    'Cut the second end',
    'belt knife; straight edge; marker',
    'Lay the first end on the second, centre line on centre line, and mark the second cut along it: the first end ' +
      'is the pattern. Cut. With the ends put together, no gap may show light and the centre lines must run on ' +
      'straight.',
    { ...hold, Cautions: 'hand tools, lifting' },
  ),
  step(
    100,
    'Punch the holes',
    'pattern; punch; board; hammer or punching machine',
    'Lay the pattern along the cut, its outer plates {Edge left} from the edges, and fix it. Punch {Holes per end} ' +
      'holes of {Punch size} in each end, {Hole distance} from the cut, plates {Pitch} apart. Punch before any cover ' +
      'is skived: on the full cover the pattern lies flat. Count the holes, and measure the first and the last by ' +
      'the table of holes.',
    { ...signed, Cautions: 'hot bits, noise, protection' },
  ),
  step(
    110,
    'Skive the cover',
    'skiving knife or machine; thickness gauge; gloves',
    'Take {Skive} off the cover under the plates, evenly across the whole width and as far back as the plates ' +
      'reach. The carcass must not be touched. Belt left between the plates: {Clamped thickness}, measured at both ' +
      'edges and in the middle.',
    { ...hold, Cautions: 'hand tools, protection', 'Only when': 'Skive' },
  ),
  step(
    120,
    'Set the lower plates',
    'lower plates; bolts; bolt holder',
    'Push the bolts through the {Plates} lower plates, lay the plates in line under the first end and draw its ' +
      'holes over the bolts. Leave none out.',
    { Cautions: 'pinch' },
  ),
  step(
    130,
    'Lay the strip below',
    'strip; knife',
    'Lay {Strips below} strip of {Strip per piece} on the lower plates along the cut, half of its breadth under ' +
      'the first end, as long over at one edge as at the other.',
    { Cautions: 'hand tools' },
  ),
  step(
    140,
    'Join the ends',
    'winch and clamps; tapered pin',
    'Draw the second end up and its holes over the bolts, from one edge to the other. Look along the edges: they ' +
      'run on straight, and the cuts meet without a gap.',
    { ...hold, Cautions: 'stored energy, pinch, lifting' },
  ),
  step(
    150,
    'Lay the strips above',
    'strips; knife',
    'Lay {Strips above} strips of {Strip per piece} over the joint along the cut.',
    { Cautions: 'hand tools' },
  ),
  step(
    160,
    'Set the upper plates',
    'upper plates; nuts',
    'Put the {Plates} upper plates on, and a nut on each of the {Bolts} bolts by hand. All plates lie flat and in ' +
      'line before any is tightened.',
    { Cautions: 'pinch' },
  ),
  step(
    170,
    'Tighten, first pass: snug',
    'wrench or driver as the supplier says',
    'Bring all nuts of a plate up evenly, only until the plate lies on. Order of the plates, counted from the ' +
      'marked corner: {Tightening order}. Each plate once.',
    { ...signed, Cautions: 'noise, protection' },
  ),
  step(
    180,
    'Tighten, second pass: clamp',
    'torque wrench or driver as the supplier says',
    "The same order again: {Tightening order}. Now to the supplier's torque, so that the plates' edges sink into " +
      'the cover and the belt does not bulge between them. Each plate once, and no nut left out.',
    { ...hold, Cautions: 'noise, protection' },
  ),
  step(
    190,
    'Break and dress the bolt ends',
    'hand tool to break bolts with; hammer; grinder where the site allows it; magnet',
    'Break off the bolt ends above the nuts, peen or grind what stands out, and gather all pieces: {Bolts} ends.',
    { ...signed, Cautions: 'hot bits, fire, noise, protection' },
  ),
  step(
    200,
    'Trim the strips and corners',
    'knife',
    'Cut the strips flush with the edges. Take the sharp corner off the trailing side of each belt end where the ' +
      'supplier says so.',
    { Cautions: 'hand tools' },
  ),
  step(
    210,
    'Check the joint',
    'tape; straight edge; this card',
    'Count {Plates} plates on either side. Edge left: {Edge left} at both ends. No plate stands up or is crooked, ' +
      'no nut is missing, no bolt end can catch. The centre line runs straight through the joint.',
    { ...hold },
  ),
  step(
    220,
    'Clear and put the guards back',
    'tool list; permit',
    'Take clamps, blocks and tools off and count them, set the tension, put every guard back, clear everyone, take ' +
      'the locks off in the order of the permit.',
    { ...hold, Cautions: 'start-up, stored energy', Source: '29 CFR 1926.555(a); 29 CFR 1910.147' },
  ),
  step(
    230,
    'Test run',
    'radio or hand signals',
    'Give the start warning. Run empty for a few turns of the belt, look and listen from outside the guards: the ' +
      'joint passes the smallest pulley, {Smallest pulley}, and the scrapers without striking, and the belt runs ' +
      'straight. Then run loaded and look again.',
    { ...hold, Cautions: 'start-up, pinch' },
  ),
  step(
    240,
    'Tighten again after the first hours',
    'locks and tags; torque wrench',
    'After {First hours} of running, or sooner where the supplier says so: isolate and secure the belt as at ' +
      'first, look at every plate, and tighten once more in the same order: {Tightening order}. Note the date for ' +
      'the next look.',
    { ...hold, Cautions: 'isolation, stored energy, run-back' },
  ),
];
