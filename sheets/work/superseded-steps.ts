/**
 * Texts of standard steps as books of earlier versions hold them, by the title of the step that replaces each now. The
 * first released the tension in another order than the cautions say, named no hot work, or laid strips that a series
 * may not have; the others say the same in other words. A text that was given out is never edited here: whoever
 * changes a standard step's text adds the one before. Names in braces may be those of before.
 */
export const supersededSteps: readonly { readonly text: string; readonly now: string }[] = [
  {
    text:
      "Read the plate supplier's instructions for {Plate series}: where they differ from this card, they go first. " +
      'Check the parts: {Plates} plates, each an upper and a lower one, {Bolts} bolts of {Bolt length}, {Strip ' +
      'pieces} strips of {Strip per piece} each. Check the belt against the card: width {Width}, ' +
      'thickness {Thickness}.',
    now: 'Read and check',
  },
  {
    text:
      'Run belt {Belt} empty. Stop it, isolate and lock out every source of energy, hang your own lock, and try to ' +
      'start it. Write the number of the permit on the card. No one goes on before the attempt has failed.',
    now: 'Isolate and try',
  },
  {
    text:
      'Clamp both runs, block the take-up weight and let the tension off, slowly. Belt that the skew takes on the ' +
      'centre line, from two square ends: {Belt consumed}; what is cut off with the old joint comes on top. Travel ' +
      'left in the take-up: {Take-up travel}. Where that is not enough, stop and plan an insert of belt.',
    now: 'Take the tension off',
  },
  {
    text:
      'Lay {Strips below} strip of {Strip per piece} on the lower plates along the cut, half of its breadth under ' +
      'the first end, as long over at one edge as at the other.',
    now: 'Lay the strips below',
  },
  { text: 'Lay {Strips above} strips of {Strip per piece} over the joint along the cut.', now: 'Lay the strips above' },
  {
    text: 'Break off the bolt ends above the nuts, peen or grind what stands out, and gather all pieces: {Bolts} ends.',
    now: 'Break and dress the bolt ends',
  },
  {
    text:
      'Take clamps, blocks and tools off and count them, set the tension, put every guard back, clear everyone, take ' +
      'the locks off in the order of the permit.',
    now: 'Clear and put the guards back',
  },
  {
    text:
      'After {First hours} of running, or sooner where the supplier says so: isolate and secure the belt as at ' +
      'first, look at every plate, and tighten once more in the same order: {Tightening order}. Note the date for ' +
      'the next look.',
    now: 'Tighten again after the first hours',
  },
  {
    text:
      "Read the plate supplier's instructions for {Plate series}: where they differ from this card, they go " +
      'first. Check the parts against the list of parts: {Plates} plates, each an upper and a lower one, {Bolts} ' +
      'bolts of {Bolt length}. Check the belt against the card: width {Width}, thickness {Thickness}.',
    now: 'Read and check',
  },
  {
    text:
      'In this order: draw back the take-up or raise its weight, slowly, and secure it; clamp both runs to the ' +
      'frame on both sides of the joint; prove that no tension is left between the clamps; only then open the joint. ' +
      'Belt that the skew takes on the centre line, from two square ends: {Belt lost to skew}; add what is cut off ' +
      'with the old joint. Travel left in the take-up: {Take-up travel}. Where that is not enough, stop and plan an ' +
      'insert of belt.',
    now: 'Take the tension off',
  },
  {
    text:
      'On each belt end, mark the middle of the width at {Midpoints} places or more, spread over at least ' +
      '{Centre line length} of belt. Draw the straight line that fits them: the centre line. A point that clearly ' +
      'stands off the line shows a worn edge: leave it out and mark another.',
    now: 'Mark the centre line',
  },
  {
    text:
      'Draw a line square to the centre line, across the whole belt, far enough from the worn end for the cut to ' +
      'clear it. Set the square against the centre line and never against an edge: edges wear and wander.',
    now: 'Mark the square line',
  },
  {
    text:
      'Measure {Diagonal distance} from the square line along both edges and mark it. Both diagonals of this ' +
      'rectangle must be {Diagonal}. Diagonals that differ: the line is not square, draw it again. Diagonals that ' +
      'are alike but of another length: the belt is not {Width} wide here, measure it.',
    now: 'Prove the square line',
  },
  {
    text:
      'Begin on the end that travels behind the joint, its carrying side up. Its square line meets the {Skew ' +
      'hand} edge, looking the way the belt travels, at the marked corner. From the other end of the square line ' +
      'measure {Edge offset} along the edge the way the belt travels, and draw the cut from there to the marked ' +
      'corner: {Cut length} from edge to edge, {Skew} from square. Where the carrying side lies below, as on the ' +
      'return run, left and right change places. Look once more before cutting: from the marked corner the cut runs ' +
      'forward, the way the belt travels.',
    now: 'Mark the skew',
  },
  {
    text:
      'The proven square line is the cut: {Cut length} from edge to edge. Mark it so that it cannot be taken for ' +
      'another line.',
    now: 'Take the square line for the cut',
  },
  {
    text:
      'Lay a board under the belt and cut along the straight edge, upright, in several light strokes. Measure ' +
      'the cut: {Cut length}.',
    now: 'Cut the first end',
  },
  {
    text:
      'Lay the first end on the second, centre line on centre line, and mark the second cut along it: the first ' +
      'end is the pattern. Cut. With the ends put together, no gap may show light and the centre lines must run ' +
      'on straight.',
    now: 'Cut the second end',
  },
  {
    text:
      'Lay the pattern along the cut, its outer plates {Edge clearance} from the edges, and fix it. Punch {Holes ' +
      'per end} holes of {Punch size} in each end, {Hole setback} from the cut, plates {Pitch} apart. Punch before ' +
      'any cover is skived: on the full cover the pattern lies flat. Count the holes, and measure the first and the ' +
      'last by the table of holes.',
    now: 'Punch the holes',
  },
  {
    text:
      'Take {Skive depth} off the cover under the plates, evenly across the whole width and as far back as the ' +
      'plates reach. The carcass must not be touched. Belt left between the plates: {Clamped thickness}, measured at ' +
      'both edges and in the middle.',
    now: 'Skive the cover',
  },
  {
    text:
      'Push the bolts through the {Plates} lower plates, lay the plates in line under the first end and draw its ' +
      'holes over the bolts. Leave none out.',
    now: 'Set the lower plates',
  },
  {
    text:
      'Strips to lay on the lower plates along the cut: {Strips below}, each {Strip length each} long, half of ' +
      'the breadth under the first end, with equal overhang at both edges.',
    now: 'Lay the strips below',
  },
  {
    text:
      'Draw the second end up and its holes over the bolts, from one edge to the other. Look along the edges: ' +
      'they run on straight, and the cuts meet without a gap.',
    now: 'Join the ends',
  },
  {
    text:
      'Put the {Plates} upper plates on, and a nut on each of the {Bolts} bolts by hand. All plates lie flat and ' +
      'in line before any is tightened.',
    now: 'Set the upper plates',
  },
  {
    text:
      'Bring all nuts of a plate up evenly, only until the plate lies on. Order of the plates, counted from the ' +
      'marked corner: {Tightening order}. Each plate once.',
    now: 'Tighten, first pass: snug',
  },
  {
    text:
      "The same order again: {Tightening order}. Now to the supplier's torque, so that the plates' edges sink " +
      'into the cover and the belt does not bulge between them. Each plate once, and no nut left out.',
    now: 'Tighten, second pass: clamp',
  },
  {
    text:
      'Break off the bolt ends above the nuts and peen what stands out. Grind only under a hot-work permit: dust ' +
      'cleared away, extinguisher and fire watch in place. Gather all pieces: {Bolts} ends.',
    now: 'Break and dress the bolt ends',
  },
  {
    text: 'Take the sharp corner off the trailing side of each belt end where the supplier says so.',
    now: 'Trim the corners',
  },
  {
    text:
      'Count {Plates} plates on either side. Edge clearance: {Edge clearance} at both ends. No plate stands up ' +
      'or is crooked, no nut is missing, no bolt end can catch. The centre line runs straight through the joint.',
    now: 'Check the joint',
  },
  {
    text:
      'In this order, with the joint closed: let the take-up down slowly until it holds the belt; only then take ' +
      'off the clamps; put every guard back and account for people and tools; make sure that everyone is clear, and ' +
      'take off the locks in the order of the permit.',
    now: 'Clear and put the guards back',
  },
  {
    text:
      'Give the start warning. Run empty for a few turns of the belt, look and listen from outside the guards: ' +
      'the joint passes the smallest pulley, {Smallest pulley}, and the scrapers without striking, and the belt runs ' +
      'straight. Then run loaded and look again.',
    now: 'Test run',
  },
  {
    text:
      'After {First hours} of running, or sooner where the supplier says so: isolate and secure the belt in the ' +
      'same order as at first, look at every plate, and tighten once more in the same order: {Tightening order}. ' +
      'Then put every guard back, make sure that everyone is clear, take off the locks, give the start warning, and ' +
      'watch a test run from outside the guards. Note the date for the next look.',
    now: 'Tighten again after the first hours',
  },
  {
    text:
      'In this order: draw back the take-up or raise its weight, slowly, and secure it; clamp both runs to the ' +
      'frame on both sides of the joint; prove that no tension is left between the clamps; only then open the joint. ' +
      'Belt lost to the skew on the centre line, from two square ends: {Belt lost to skew}; add what is cut off with ' +
      'the old joint. Travel left in the take-up: {Take-up travel}. If that is not enough, stop and plan a belt ' +
      'insert.',
    now: 'Take the tension off',
  },
  {
    text:
      'Strips to lay on the lower plates along the cut: {Strips below}, each {Strip length each} long, half of their ' +
      'width under the first end, with equal overhang at both edges.',
    now: 'Lay the strips below',
  },
  {
    text:
      'Lay the pattern along the cut, its outer plates {Edge clearance} from the edges, and fix it. Punch {Holes per ' +
      'end} holes of {Punch size} in each end, {Hole setback} from the cut; plate pitch {Pitch} (centre to centre). ' +
      'Punch before you skive: the pattern lies flat on the full cover. Count the holes, and check the first and the ' +
      'last against the table of holes.',
    now: 'Punch the holes',
  },
  {
    text:
      'Skive the cover under the plates {Skive depth} deep, evenly across the whole width and as far back as the ' +
      'plates reach. Do not touch the carcass. Belt left between the plates: {Clamped thickness}; measure it at both ' +
      'edges and in the middle.',
    now: 'Skive the cover',
  },
  {
    text:
      'Strips to lay over the joint along the cut: {Strips above}, each {Strip length each} long, with equal ' +
      'overhang at both edges.',
    now: 'Lay the strips above',
  },
  {
    text: 'Cut the sharp corner off the trailing side of each belt end if the supplier says so.',
    now: 'Trim the corners',
  },
];
