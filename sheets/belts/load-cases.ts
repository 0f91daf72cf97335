/** Cases of load that a belt is tensioned for, and what each asks of the slack side and makes of the tension. */

const caseWords = [
  'empty',
  'loaded',
  'starting empty',
  'starting',
  'low friction',
  'braking',
  'braking empty',
  'at rest',
] as const;
export type CaseWord = (typeof caseWords)[number];

/** Cases in which the belt gathers speed or is slowed down: its carcass does not bend in them all day. */
const passing: readonly CaseWord[] = ['starting empty', 'starting', 'braking', 'braking empty'];
const unloaded: readonly CaseWord[] = ['empty', 'starting empty', 'braking empty'];
/** Empty or loaded, the return run is the same. */
const returnRuns: Readonly<Partial<Record<CaseWord, string>>> = {
  empty: 'Return run resistance',
  loaded: 'Return run resistance',
};

export const cases = caseWords.map((word) => ({
  word,
  /** Pull of all drives together. */
  pull: `{Effective tension ${word}}`,
  /** What the tension gains along the return run. */
  gain: `{${returnRuns[word] ?? `Return run resistance ${word}`}}`,
  carrySag: unloaded.includes(word) ? '{Sag tension empty}' : '{Sag tension loaded}',
  steady: !passing.includes(word),
}));
type LoadCase = (typeof cases)[number];

export const steadyCases = cases.filter(({ steady }) => steady);

/** Both drives: share of the pull, place on the return run, share given up to there, grip, sag before and behind. */
const drives = [
  ['(1-{Second share})', '{Drive position}', '{Share to drive}', '{Grip factor}', '{Sag tension at drive}'],
  [
    '{Second share}',
    '{Second drive position}',
    '{Share to second drive}',
    '{Second grip factor}',
    '{Sag tension at second drive}',
  ],
] as const;

/** Tension before the head over that at the take-up. */
export const headOverTakeUp = ({ pull, gain }: LoadCase): string =>
  `{Share to take-up}*${pull}-{Take-up place}*${gain}`;

/** Tension behind the tail over that at the take-up. */
export const tailOverTakeUp = (loadCase: LoadCase): string =>
  `${headOverTakeUp(loadCase)}+${loadCase.gain}-${loadCase.pull}`;

/** Tensions of both ends of the return run over that at the take-up. */
export const returnOverTakeUp = (loadCase: LoadCase): readonly string[] => [
  `${headOverTakeUp(loadCase)}-{Share at head}*${loadCase.pull}`,
  `${tailOverTakeUp(loadCase)}+{Share at tail}*${loadCase.pull}`,
];

/**
 * What a case asks of the tension at the take-up: little sag at both ends of either run and at a drive on the return
 * run, and grip on each drive, behind one that drives and before one that brakes.
 */
export function neededAtTakeUp(loadCase: LoadCase): string {
  const { pull, gain, carrySag } = loadCase;
  const grips = drives.map(
    ([share, position, passed, grip, sag]) =>
      `MAX(${pull}*${grip},-${pull}*(${grip}+${share}),${sag},${sag}-${pull}*${share})` +
      `+${pull}*${passed}-${gain}*${position}`,
  );
  const beforeHead = [
    carrySag,
    `${carrySag}-${gain}+${pull}`,
    `{Sag tension return}+${pull}*{Share at head}`,
    `{Sag tension return}-${gain}+${pull}*(1-{Share at tail})`,
    ...grips,
  ];
  return `MAX(${beforeHead.join(',')})+{Take-up place}*${gain}-{Share to take-up}*${pull}`;
}

/** The maximum in a case: before the head, behind the tail, or on either side of a drive. */
export function maximumInCase(loadCase: LoadCase): string {
  const { pull, gain } = loadCase;
  const besideDrives = drives.flatMap(([share, position, passed]) => [
    `${gain}*${position}-${pull}*${passed}`,
    `${gain}*${position}-${pull}*(${passed}-${share})`,
  ]);
  return `{Slack-side tension}+${headOverTakeUp(loadCase)}+MAX(0,${gain}-${pull},${besideDrives.join(',')})`;
}
