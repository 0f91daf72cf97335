/** What every job card, the README and an exported book say about safety: declared once, for all of them. */
interface SafetyReminder {
  readonly text: string;
  /** Rules that ask for it, where there are any; local codes decide. */
  readonly rules: string;
}

export const safetyPurpose = 'Skewbook computes and reminds; it does not authorise work.';

/** Paraphrased from the rules named beside them. */
export const safetyReminders: readonly SafetyReminder[] = [
  {
    text:
      'Isolate and lock out every energy source of the belt and of what feeds it, and try to start it, before ' +
      'any work on the joint.',
    rules: '29 CFR 1910.147; 29 CFR 1926.555(a); ISO 14118 (from memory)',
  },
  {
    text:
      'Belt tension, a take-up weight and a loaded slope are stored energy: release the tension, clamp the belt, ' +
      'block the weight and block run-back before the joint is opened, and keep checking that none builds up again.',
    rules: '29 CFR 1910.147; 30 CFR 56.14105, 57.14105 and 75.1725(c)',
  },
  {
    text: 'Keep hands, clothing and tools clear of pinch points: pulleys, idlers, clamps and belt ends under tension.',
    rules: 'EN 620:2021; EN 619:2022; AS/NZS 4024.3610 (from memory)',
  },
  {
    text: 'Put every guard back, account for people and tools, and give the start warning before start-up.',
    rules: '29 CFR 1926.555(a); EN 620:2021',
  },
  {
    text:
      'Underground and in fire-rated belt the joint must keep the belt flame resistant, and hot work and dust ' +
      'follow the fire rules of the site.',
    rules: '30 CFR 75.1731(d)',
  },
  {
    text: 'Wear eye, hand and hearing protection while cutting, skiving, punching and driving bolts.',
    rules: 'ISO 12100 (from memory): the risk assessment of the job decides',
  },
  {
    text:
      "The supplier's instructions, the site's rules, local codes and licensed or competent persons decide, " +
      'whatever this book says.',
    rules: 'CSA Z460 (from memory) and local law',
  },
];
