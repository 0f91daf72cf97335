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

export const standardSteps: readonly StepRow[] = [
  {
    Order: 10,
    Step: 'Read and check',
    Joint: 'both',
    Text:
      "Read the plate supplier's instructions for {Plate series}: where they differ from this card, they go " +
      'first. Check the parts: {Plates} plates, each an upper and a lower one, {Bolts} bolts of {Bolt length}, ' +
      '{Strip pieces} strips of {Strip per piece} each. Check the belt against the card: width {Width}, thickness ' +
      '{Thickness}.',
    Tools: "supplier's instructions; this card; tape; thickness gauge",
    'Hold point': 'no',
    'Sign-off': 'yes',
    Cautions: 'supplier',
    Source: practice,
  },
  {
    Order: 20,
    Step: 'Isolate and try',
    Joint: 'both',
    Text:
      'Run belt {Belt} empty. Stop it, isolate and lock out every source of energy, hang your own lock, and try ' +
      'to start it. Write the number of the permit on the card. No one goes on before the attempt has failed.',
    Tools: 'locks and tags; permit',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'isolation',
    Source: '29 CFR 1910.147',
  },
  {
    Order: 30,
    Step: 'Take the tension off',
    Joint: 'both',
    Text:
      'Clamp both runs, block the take-up weight and let the tension off, slowly. Belt that the skew takes on ' +
      'the centre line, from two square ends: {Belt consumed}; what is cut off with the old joint comes on top. ' +
      'Travel left in the take-up: {Take-up travel}. Where that is not enough, stop and plan an insert of belt.',
    Tools: 'belt clamps on both runs; blocks and chains for the weight; winch',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'stored energy, run-back, pinch',
    Source: '29 CFR 1910.147; the length by trigonometry',
  },
  {
    Order: 40,
    Step: 'Mark the centre line',
    Joint: 'both',
    Text:
      'On each belt end, mark the middle of the width at {Midpoints} places or more, spread over at least ' +
      '{Centre line length} of belt. Draw the straight line that fits them: the centre line. A point that clearly ' +
      'stands off the line shows a worn edge: leave it out and mark another.',
    Tools: 'tape; chalk line; marker; straight edge',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: '',
    Source: practice,
  },
  {
    Order: 50,
    Step: 'Mark the square line',
    Joint: 'both',
    Text:
      'Draw a line square to the centre line, across the whole belt, far enough from the worn end for the cut to ' +
      'clear it. Set the square against the centre line and never against an edge: edges wear and wander.',
    Tools: 'large square; straight edge; marker',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: '',
    Source: practice,
  },
  {
    Order: 60,
    Step: 'Prove the square line',
    Joint: 'both',
    Text:
      'Measure {Diagonal distance} from the square line along both edges and mark it. Both diagonals of this ' +
      'rectangle must be {Diagonal}. Diagonals that differ: the line is not square, draw it again. Diagonals that ' +
      'are alike but of another length: the belt is not {Width} wide here, measure it.',
    Tools: 'two tapes or one long tape',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: '',
    Source: 'theorem of Pythagoras',
  },
  {
    Order: 70,
    Step: 'Mark the skew',
    Joint: 'skew',
    Text:
      'Begin on the end that travels behind the joint, its carrying side up. Its square line meets the {Skew ' +
      'hand} edge, looking the way the belt travels, at the marked corner. From the other end of the square line ' +
      'measure {Edge offset} along the edge the way the belt travels, and draw the cut from there to the marked ' +
      'corner: {Cut length} from edge to edge, {Skew} from square. Where the carrying side lies below, as on the ' +
      'return run, left and right change places. Look once more before cutting: from the marked corner the cut runs ' +
      'forward, the way the belt travels.',
    Tools: 'tape; straight edge longer than the cut; marker',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: '',
    Source: trigonometry,
  },
  {
    Order: 70,
    Step: 'Take the square line for the cut',
    Joint: 'square',
    Text:
      'The proven square line is the cut: {Cut length} from edge to edge. Mark it so that it cannot be taken for ' +
      'another line.',
    Tools: 'marker',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: '',
    Source: practice,
  },
  {
    Order: 80,
    Step: 'Cut the first end',
    Joint: 'both',
    Text:
      'Lay a board under the belt and cut along the straight edge, upright, in several light strokes. Measure ' +
      'the cut: {Cut length}.',
    Tools: 'belt knife with fresh blades; straight edge; clamps; board',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'hand tools, protection',
    Source: practice,
  },
  {
    Order: 90,
    Step: 'Cut the second end',
    Joint: 'both',
    Text:
      'Lay the first end on the second, centre line on centre line, and mark the second cut along it: the first ' +
      'end is the pattern. Cut. With the ends put together, no gap may show light and the centre lines must run ' +
      'on straight.',
    Tools: 'belt knife; straight edge; marker',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'hand tools, lifting',
    Source: practice,
  },
  {
    Order: 100,
    Step: 'Punch the holes',
    Joint: 'both',
    Text:
      'Lay the pattern along the cut, its outer plates {Edge left} from the edges, and fix it. Punch {Holes per ' +
      'end} holes of {Punch size} in each end, {Hole distance} from the cut, plates {Pitch} apart. Punch before any ' +
      'cover is skived: on the full cover the pattern lies flat. Count the holes, and measure the first and the last ' +
      'by the table of holes.',
    Tools: 'pattern; punch; board; hammer or punching machine',
    'Hold point': 'no',
    'Sign-off': 'yes',
    Cautions: 'hot bits, noise, protection',
    Source: practice,
  },
  {
    Order: 110,
    Step: 'Skive the cover',
    Joint: 'both',
    Text:
      'Take {Skive} off the cover under the plates, evenly across the whole width and as far back as the plates ' +
      'reach. The carcass must not be touched. Belt left between the plates: {Clamped thickness}, measured at both ' +
      'edges and in the middle.',
    Tools: 'skiving knife or machine; thickness gauge; gloves',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'hand tools, protection',
    'Only when': 'Skive',
    Source: practice,
  },
  {
    Order: 120,
    Step: 'Set the lower plates',
    Joint: 'both',
    Text:
      'Push the bolts through the {Plates} lower plates, lay the plates in line under the first end and draw its ' +
      'holes over the bolts. Leave none out.',
    Tools: 'lower plates; bolts; bolt holder',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'pinch',
    Source: practice,
  },
  {
    Order: 130,
    Step: 'Lay the strip below',
    Joint: 'both',
    Text:
      'Lay {Strips below} strip of {Strip per piece} on the lower plates along the cut, half of its breadth ' +
      'under the first end, as long over at one edge as at the other.',
    Tools: 'strip; knife',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'hand tools',
    Source: practice,
  },
  {
    Order: 140,
    Step: 'Join the ends',
    Joint: 'both',
    Text:
      'Draw the second end up and its holes over the bolts, from one edge to the other. Look along the edges: ' +
      'they run on straight, and the cuts meet without a gap.',
    Tools: 'winch and clamps; tapered pin',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'stored energy, pinch, lifting',
    Source: practice,
  },
  {
    Order: 150,
    Step: 'Lay the strips above',
    Joint: 'both',
    Text: 'Lay {Strips above} strips of {Strip per piece} over the joint along the cut.',
    Tools: 'strips; knife',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'hand tools',
    Source: practice,
  },
  {
    Order: 160,
    Step: 'Set the upper plates',
    Joint: 'both',
    Text:
      'Put the {Plates} upper plates on, and a nut on each of the {Bolts} bolts by hand. All plates lie flat and ' +
      'in line before any is tightened.',
    Tools: 'upper plates; nuts',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'pinch',
    Source: practice,
  },
  {
    Order: 170,
    Step: 'Tighten, first pass: snug',
    Joint: 'both',
    Text:
      'Bring all nuts of a plate up evenly, only until the plate lies on. Order of the plates, counted from the ' +
      'marked corner: {Tightening order}. Each plate once.',
    Tools: 'wrench or driver as the supplier says',
    'Hold point': 'no',
    'Sign-off': 'yes',
    Cautions: 'noise, protection',
    Source: practice,
  },
  {
    Order: 180,
    Step: 'Tighten, second pass: clamp',
    Joint: 'both',
    Text:
      "The same order again: {Tightening order}. Now to the supplier's torque, so that the plates' edges sink " +
      'into the cover and the belt does not bulge between them. Each plate once, and no nut left out.',
    Tools: 'torque wrench or driver as the supplier says',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'noise, protection',
    Source: practice,
  },
  {
    Order: 190,
    Step: 'Break and dress the bolt ends',
    Joint: 'both',
    Text: 'Break off the bolt ends above the nuts, peen or grind what stands out, and gather all pieces: {Bolts} ends.',
    Tools: 'hand tool to break bolts with; hammer; grinder where the site allows it; magnet',
    'Hold point': 'no',
    'Sign-off': 'yes',
    Cautions: 'hot bits, fire, noise, protection',
    Source: practice,
  },
  {
    Order: 200,
    Step: 'Trim the strips and corners',
    Joint: 'both',
    Text:
      'Cut the strips flush with the edges. Take the sharp corner off the trailing side of each belt end where ' +
      'the supplier says so.',
    Tools: 'knife',
    'Hold point': 'no',
    'Sign-off': 'no',
    Cautions: 'hand tools',
    Source: practice,
  },
  {
    Order: 210,
    Step: 'Check the joint',
    Joint: 'both',
    Text:
      'Count {Plates} plates on either side. Edge left: {Edge left} at both ends. No plate stands up or is ' +
      'crooked, no nut is missing, no bolt end can catch. The centre line runs straight through the joint.',
    Tools: 'tape; straight edge; this card',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: '',
    Source: practice,
  },
  {
    Order: 220,
    Step: 'Clear and put the guards back',
    Joint: 'both',
    Text:
      'Take clamps, blocks and tools off and count them, set the tension, put every guard back, clear everyone, ' +
      'take the locks off in the order of the permit.',
    Tools: 'tool list; permit',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'start-up, stored energy',
    Source: '29 CFR 1926.555(a); 29 CFR 1910.147',
  },
  {
    Order: 230,
    Step: 'Test run',
    Joint: 'both',
    Text:
      'Give the start warning. Run empty for a few turns of the belt, look and listen from outside the guards: ' +
      'the joint passes the smallest pulley, {Smallest pulley}, and the scrapers without striking, and the belt runs ' +
      'straight. Then run loaded and look again.',
    Tools: 'radio or hand signals',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'start-up, pinch',
    Source: practice,
  },
  {
    Order: 240,
    Step: 'Tighten again after the first hours',
    Joint: 'both',
    Text:
      'After {First hours} of running, or sooner where the supplier says so: isolate and secure the belt as at ' +
      'first, look at every plate, and tighten once more in the same order: {Tightening order}. Note the date for ' +
      'the next look.',
    Tools: 'locks and tags; torque wrench',
    'Hold point': 'yes',
    'Sign-off': 'yes',
    Cautions: 'isolation, stored energy, run-back',
    Source: practice,
  },
];
