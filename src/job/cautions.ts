import { serviceNeeds } from '../functions/series.ts';
import { safetyReminders } from '../workbook/safety.ts';

/** What can hurt at a joint, when it is to be said, and the rules that ask for it. Paraphrased; local codes decide. */

export interface Caution {
  /** How a step names it. */
  readonly key: string;
  readonly title: string;
  readonly text: string;
  /** Rules that ask for it, or the mark of a fact without a source. */
  readonly rules: string;
  /** Said only where the belt's service is one of these, or is not known. */
  readonly services?: readonly string[];
}

/** The reminder that every document carries and that begins so. */
function reminder(beginning: string): { readonly text: string; readonly rules: string } {
  const found = safetyReminders.find(({ text }) => text.startsWith(beginning));
  if (found === undefined) throw new Error(`no safety reminder begins with "${beginning}"`);
  return found;
}

const practice = 'common practice, no source';
const fireServices = Object.entries(serviceNeeds).flatMap(([service, need]) =>
  need === 'flameResistant' ? [service] : [],
);

/** In the order in which a card says them. */
export const cautions: readonly Caution[] = [
  { key: 'supplier', title: 'Who decides', ...reminder("The supplier's instructions") },
  { key: 'isolation', title: 'Isolation and lock-out', ...reminder('Isolate and lock out') },
  { key: 'stored energy', title: 'Stored tension and weights', ...reminder('Belt tension') },
  {
    key: 'run-back',
    title: 'Run-back',
    text:
      'An inclined belt may run back, a declined one away, as soon as drive, brake or backstop no longer holds ' +
      'it: empty it first, clamp both runs to the frame on both sides of the joint, and stand beside the belt, ' +
      'never below it.',
    rules: '30 CFR 56.14105; 30 CFR 57.14105; 30 CFR 75.1725(c)',
  },
  { key: 'pinch', title: 'Pinch points', ...reminder('Keep hands') },
  { key: 'fire', title: 'Fire-rated belt', ...reminder('Underground and in fire-rated belt'), services: fireServices },
  { key: 'protection', title: 'Eyes, hands, ears', ...reminder('Wear eye') },
  {
    key: 'hand tools',
    title: 'Knives and hand tools',
    text:
      'Cut away from the body and from the other hand, along a clamped straight edge; change blades before they ' +
      'need force; sheathe a knife that is put down; no one holds the belt where the blade is going.',
    rules: practice,
  },
  {
    key: 'hot bits',
    title: 'Hot and flying pieces',
    text:
      'Punches, drill bits and bolt ends just broken off are hot and sharp: let them cool, break bolt ends away ' +
      'from people, and collect all of them from the belt.',
    rules: practice,
  },
  {
    key: 'noise',
    title: 'Noise',
    text:
      'Hammering, power wrenches and a punch on steel are loud, louder still in a tunnel: ears covered, ' +
      'bystanders too, and agree on hand signals.',
    rules: '29 CFR 1910.95 (from memory)',
  },
  {
    key: 'lifting',
    title: 'Lifting',
    text:
      'A belt end weighs more than it looks and springs when it is let go: lift with a winch or several people, ' +
      'hold it with a clamp and not by hand, and keep from under it.',
    rules: practice,
  },
  { key: 'start-up', title: 'Before start-up', ...reminder('Put every guard back') },
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

/** The cautions before step 1 of a belt with such a service: all but those that it has no need of. */
export function cautionsFor(service: string | undefined): CautionNote[] {
  const words = serviceWords(service);
  return cautions.flatMap((caution): CautionNote[] => {
    if (caution.services === undefined) return [{ caution }];
    if (words === undefined)
      return [
        {
          caution,
          remark: `The belt's service is not known: find out whether it is ${caution.services.join(' or ')}.`,
        },
      ];
    return words.some((word) => caution.services?.includes(word) === true) ? [{ caution }] : [];
  });
}

/** Lines that a card leaves free for what the site itself gives. */
export const permitFields = [
  'Permit number',
  'Isolation points and lock numbers',
  'Permit issued by',
  'Date and time',
] as const;
