/** Cases of load that a belt is tensioned for, and what each asks of the slack side. */

/** Cases of load: the pull of each, and what the belt's tension grows by from the head to the tail in it. */
export const cases = [
  { pull: 'Effective tension empty', rise: '{Return run resistance}', load: '0' },
  { pull: 'Effective tension loaded', rise: '{Return run resistance}', load: '{Load mass}' },
  {
    pull: 'Effective tension starting empty',
    rise: '{Return run resistance}+({Start factor used}-1)*{Effective tension empty}*{Return share empty}',
    load: '0',
  },
  {
    pull: 'Effective tension starting',
    rise: '{Return run resistance}+({Start factor used}-1)*{Effective tension loaded}*{Return share}',
    load: '{Load mass}',
  },
  { pull: 'Effective tension low friction', rise: '{Return run resistance low friction}', load: '{Load mass}' },
  {
    pull: 'Effective tension braking',
    rise:
      '{Return run resistance low friction}+' +
      '({Start factor used}-1)*{Effective tension low friction}*{Return share}',
    load: '{Load mass}',
  },
  { pull: 'Effective tension at rest', rise: '-{Belt mass used}*Gravity*{Lift}', load: '{Load mass}' },
] as const;

/** Cases in which the belt neither gathers speed nor is slowed down: those its carcass bends in all day. */
const passing: readonly string[] = [
  'Effective tension starting',
  'Effective tension starting empty',
  'Effective tension braking',
];
export const steadyCases = cases.filter(({ pull }) => !passing.includes(pull));

/**
 * What each case asks of the slack tension: grip at the head, sag at the head and the tail of the carrying run and the
 * tail of the return run.
 */
export const slackNeeds = cases.flatMap(({ pull, rise, load }) => {
  const carrySag = load === '0' ? '{Sag tension empty}' : '{Sag tension loaded}';
  return [
    `{${pull}}*{Wrap factor}`,
    `-{${pull}}*(1+{Wrap factor})`,
    `${carrySag}-{${pull}}`,
    `${carrySag}-(${rise})`,
    `{Sag tension return}-(${rise})`,
  ];
});
