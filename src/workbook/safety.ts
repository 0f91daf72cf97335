import { inOrder, release, releaseOrder, restoreOrder } from '../../sheets/work/stored-energy.ts';

/** What every job card, the README and an exported book say about safety: declared once, for all of them. */
interface SafetyReminder {
  readonly text: string;
  /** Rules that ask for it, where there are any; local codes decide. */
  readonly rules: string;
}

export const safetyPurpose = 'Skewbook computes and reminds; it does not authorise work.';

/** Whom to ask before something is done that this program only computes: "before you …" follows. */
const askBefore = (deed: string): string => `Ask the plate supplier or a competent engineer before ${deed}.`;

/** Where the decision falls, in the words of what is decided. */
export const deferrals = {
  run: askBefore('you run this belt'),
  use: askBefore('you cut, drill or run a belt by these figures'),
  skew: askBefore('you cut a joint at this skew or change its plates'),
  series: askBefore('you change the plate series of the fleet'),
  order: askBefore('you order: have the supplier confirm series, bolt length and rating'),
} as const;

/** The reminders by what they are about, in the order in which documents list them; paraphrased from the rules. */
export const reminders = {
  isolation: {
    text: `${inOrder([release.isolate, release.attempt])}, before any work on the joint.`,
    rules: '29 CFR 1910.147; 29 CFR 1926.555(a); ISO 14118 (from memory)',
  },
  storedEnergy: {
    text:
      `Belt tension, a take-up weight and a loaded slope are stored energy. Work in this order. ${releaseOrder}. ` +
      `Keep checking that tension cannot build up again. At the end work in this order, in which the clamps come off ` +
      `last. ${restoreOrder}.`,
    rules: '29 CFR 1910.147; 30 CFR 56.14105, 57.14105 and 75.1725(c)',
  },
  pinch: {
    text: 'Keep hands, clothing and tools clear of pinch points: pulleys, idlers, clamps and belt ends under tension.',
    rules: 'EN 620:2021; EN 619:2022; AS/NZS 4024.3610 (from memory)',
  },
  startUp: {
    text: 'Put every guard back, account for people and tools, and give the start warning before start-up.',
    rules: '29 CFR 1926.555(a); EN 620:2021',
  },
  hotWork: {
    text:
      'Anything that makes sparks or flame is hot work on any belt, including a grinder or a cutting disc. Get ' +
      'a hot-work ' +
      'permit; clear away spillage and dust (dust of grain, coal, sugar, wood and sulphur can explode; belt and ' +
      'covers burn); keep an extinguisher and a fire watch beside the work, and keep watching for 30 minutes ' +
      'afterwards, or longer where the site requires it. Where dust hangs in the air, make no sparks: use hand tools.',
    rules: '29 CFR 1910.252(a) and 29 CFR 1910.272(f) (from memory)',
  },
  flameResistance: {
    text: 'Underground, and on fire-rated belt, the joint must keep the belt flame resistant.',
    rules: '30 CFR 75.1731(d)',
  },
  protection: {
    text:
      'Wear eye, hand and hearing protection while cutting, skiving, punching and driving bolts, and respiratory ' +
      'protection as well while grinding, skiving by machine and working in dust.',
    rules: 'ISO 12100 and 29 CFR 1910.134 (from memory): the risk assessment of the job decides',
  },
  supplier: {
    text:
      "The supplier's instructions, the site's rules, local codes and licensed or competent persons decide, " +
      'whatever this book says.',
    rules: 'CSA Z460 (from memory) and local law',
  },
} as const satisfies Readonly<Record<string, SafetyReminder>>;

export const safetyReminders: readonly SafetyReminder[] = Object.values(reminders);
