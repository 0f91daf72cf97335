import { serviceNeeds } from '../functions/series.ts';
import { reminders } from '../workbook/safety.ts';

/** The hazards at a joint, which cards say them, and the rules that ask for it. Paraphrased; local codes decide. */

export interface Caution {
  /** How a step names it. */
  readonly key: string;
  readonly title: string;
  readonly text: string;
  /** Rules that ask for it, or the mark of a fact without a source. */
  readonly rules: string;
  /** Said only where the belt's service is one of these, or is not known. */
  readonly services?: readonly string[];
  /** Said only where a step of the card asks for it; all others are said on every card. */
  readonly ofSteps?: true;
}

const practice = 'common practice, no source';

/** How a step names hot work. */
const hotWork = 'hot work';

/**
 * Words for what makes sparks or flame, as tools and texts of steps use them. A step that has one is hot work whether
 * it says so or not; one that makes sparks in other words is not known as such. Common practice, no source.
 */
const sparkWords = [
  String.raw`grind(?:er|ers|s|ing)?`,
  String.raw`cut-?off (?:wheel|saw|disc|disk)s?`,
  String.raw`cutting (?:disc|disk|wheel|torch)\w*`,
  String.raw`weld(?:s|er|ing)?`,
  String.raw`oxy-\w+`,
  'plasma',
  'sparks?',
];
const makesSparks = new RegExp(String.raw`\b(?:${sparkWords.join('|')})\b`, 'i');

/** The cautions that a step's own words call for. */
export const cautionsOfWords = (words: string): readonly string[] => (makesSparks.test(words) ? [hotWork] : []);

const fireServices = Object.entries(serviceNeeds).flatMap(([service, need]) =>
  need === 'flameResistant' ? [service] : [],
);

/** In the order in which a card says them. */
export const cautions: readonly Caution[] = [
  { key: 'supplier', title: 'Who decides', ...reminders.supplier },
  { key: 'isolation', title: 'Isolation and lock-out', ...reminders.isolation },
  { key: 'stored energy', title: 'Stored tension and weights', ...reminders.storedEnergy },
  {
    key: 'run-back',
    title: 'Run-back',
    text:
      'An inclined belt may run back and a downhill belt may run away as soon as the drive, brake or backstop no ' +
      'longer holds it: run it empty before you isolate it, keep off the belt until it is clamped, and stand ' +
      'beside it, never below it.',
    rules: '30 CFR 56.14105; 30 CFR 57.14105; 30 CFR 75.1725(c)',
  },
  { key: 'pinch', title: 'Pinch points', ...reminders.pinch },
  { key: hotWork, title: 'Hot work and combustible dust', ...reminders.hotWork, ofSteps: true },
  { key: 'fire', title: 'Fire-rated belt', ...reminders.flameResistance, services: fireServices },
  { key: 'protection', title: 'Eyes, hands, ears, lungs', ...reminders.protection },
  {
    key: 'hand tools',
    title: 'Knives and hand tools',
    text:
      'Cut away from the body and from the other hand, along a clamped straight edge; change blades before they ' +
      'get dull; sheathe a knife that you put down; keep hands off the belt where the blade is going.',
    rules: practice,
  },
  {
    key: 'hot bits',
    title: 'Hot and flying pieces',
    text:
      'Punches, drill bits and freshly broken bolt ends are hot and sharp: let them cool, break bolt ends away ' +
      'from people, and collect all of them from the belt.',
    rules: practice,
  },
  {
    key: 'noise',
    title: 'Noise',
    text:
      'Hammering, power wrenches and a punch on steel are loud, and louder in a tunnel: all people nearby wear ' +
      'hearing protection. Agree on hand signals.',
    rules: '29 CFR 1910.95 (from memory)',
  },
  {
    key: 'lifting',
    title: 'Lifting',
    text:
      'A belt end is heavier than it looks and springs when it is released: lift it with a winch or several ' +
      'people, hold it with a clamp and not by hand, and keep out from under it.',
    rules: practice,
  },
  { key: 'start-up', title: 'Before start-up', ...reminders.startUp },
];

export const cautionKeys: readonly string[] = cautions.map(({ key }) => key);

export interface CautionNote {
  readonly caution: Caution;
  /** What to find out, where the belt's service is not known and decides whether the caution applies. */
  readonly remark?: string;
}

/** A service as a cell holds it, with commas between, as words; undefined for a blank. */
function serviceWords(service: string | undefined): readonly string[] | undefined {
  const words = (service ?? '').split(',').map((word) => word.trim().toLowerCase());
  return words.every((word) => word === '') ? undefined : words;
}

/**
 * The cautions before step 1 of a belt with such a service: all but those that neither its service nor one of its steps
 * asks for.
 */
export function cautionsFor(service: string | undefined, named: ReadonlySet<string>): CautionNote[] {
  const words = serviceWords(service);
  return cautions.flatMap((caution): CautionNote[] => {
    if (caution.ofSteps === true && !named.has(caution.key)) return [];
    if (caution.services === undefined) return [{ caution }];
    if (words === undefined)
      return [
        {
          caution,
          remark: `The belt's service is not known. Find out whether it is ${caution.services.join(' or ')}.`,
        },
      ];
    return words.some((word) => caution.services?.includes(word) === true) ? [{ caution }] : [];
  });
}

const permitFields = [
  'Permit number',
  'Isolation points and lock numbers',
  'Permit issued by',
  'Date and time',
] as const;
const hotWorkFields = ['Hot-work permit number', 'Fire watch until'] as const;

/** Lines that a card with such cautions leaves free for what the site itself gives. */
export const permitLines = (notes: readonly CautionNote[]): readonly string[] =>
  notes.some(({ caution }) => caution.key === hotWork) ? [...permitFields, ...hotWorkFields] : permitFields;
