import { serviceNeeds } from '../../functions/series.ts';

/** Words of lists for what our cells hold as fixed words: yes and no, service, nothing known. */

const words = (text: string): ReadonlySet<string> => new Set(text.split('|'));

const yes = words('y|yes|x|✓|✔|true|1|ja|j|oui|o|si|sí|s|sim|ok|on|wahr|vrai|verdadero');
const no = words('n|no|false|0|nein|non|não|nee|off|falsch|faux|falso');
const blank = words(
  [
    '-|--|---|–|—|?|??|n/a|n.a.|n.a|na|nil known|tbc|tba|tbd|t.b.d.|unknown|not known|unbekannt|k.a.|k. ' +
      'a.|inconnu|desconocido|s/d',
    'onbekend|nvt|n.v.t.|s/o|.|…|...|to be confirmed|to be measured|not measured|not available',
  ].join('|'),
);
const square = words('square|sq|straight|perpendicular|square cut|90° square|gerade|droit|recto|recht|rechtwinklig');

const plain = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ');

export function yesOrNo(text: string): 'yes' | 'no' | undefined {
  const word = plain(text);
  return yes.has(word) ? 'yes' : no.has(word) ? 'no' : undefined;
}

/** Whether a text stands for "nothing known", as "-", "n/a" or "TBC". */
export const meansBlank = (text: string): boolean => blank.has(plain(text));

/** Whether a text says that a joint is square. */
export const meansSquare = (text: string): boolean => square.has(plain(text).replace(/\.$/, ''));

type ServiceWord = keyof typeof serviceNeeds;

/** Other words for each service, without case and accents. */
const otherWords: Readonly<Record<ServiceWord, string>> = {
  none:
    'no|nil|nothing|no special|no special service|not ' +
    'applicable|keine|keins|aucun|aucune|neant|ninguno|ninguna|geen',
  underground: [
    'ug|u/g|u.g.|under ground|underground mine|underground coal|coal mine underground|untertage|unter ' +
      'tage|fond|souterrain|subterraneo',
    'bajo tierra|ondergronds',
  ].join('|'),
  'fire-rated': [
    'fire rated|fire resistant|fire-resistant|fr|fras|fire resistant anti static|fire resistant ' +
      'antistatic|flame resistant',
    'flame-resistant|flame retardant|flame proof|self extinguishing|flammwidrig|schwer ' +
      'entflammbar|schwerentflammbar|ignifuge',
    'difficilement inflammable|ignifugo|resistente al fuego|brandwerend|vlamdovend',
  ].join('|'),
  'metal detector': [
    'md|metal detection|metal detector in line|tramp metal detector|metalldetektor|metallsuchgerat|detecteur de metaux',
    'detector de metales|metaaldetector',
  ].join('|'),
  magnet: [
    'magnets|magnetic separator|overband magnet|overbelt magnet|belt magnet|tramp iron ' +
      'magnet|magnetabscheider|uberbandmagnet',
    'separateur magnetique|aimant|iman|separador magnetico|magneet',
  ].join('|'),
  corrosive: [
    'corrosion|corrosive duty|acid|acidic|chemical|chemicals|salt water|seawater|sea ' +
      'water|marine|korrosiv|korrosion|corrosif|corrosivo',
    'corrosief',
  ].join('|'),
  food:
    'food grade|food duty|foodstuff|foodstuffs|food ' +
    'contact|lebensmittel|alimentaire|alimentario|alimentos|voedsel|levensmiddelen',
};

/** Words that make one think of a service without saying it. */
const unsure: Readonly<Record<string, ServiceWord>> = {
  wet: 'corrosive',
  stainless: 'corrosive',
  rust: 'corrosive',
  salt: 'corrosive',
  mine: 'underground',
  coal: 'fire-rated',
  fire: 'fire-rated',
  flame: 'fire-rated',
  metal: 'metal detector',
  grain: 'food',
};

const bare = (text: string): string => plain(text).normalize('NFKD').replaceAll(/\p{M}/gu, '');
const isServiceWord = (word: string): word is ServiceWord => Object.hasOwn(serviceNeeds, word);
const serviceFor = new Map<string, ServiceWord>();
for (const [service, others] of Object.entries(otherWords)) {
  if (isServiceWord(service)) for (const other of [service, ...others.split('|')]) serviceFor.set(other, service);
}

interface ServiceReading {
  /** Words of ours that the text says, without repeats. */
  readonly known: readonly ServiceWord[];
  /** Parts that say none of them. */
  readonly unknown: readonly string[];
  /** A word that an unknown part may mean. */
  readonly hint?: ServiceWord;
}

/** A text of services, as "UG, FRAS" or "fire resistant + food". */
export function knownService(text: string): ServiceReading {
  const whole = serviceFor.get(bare(text));
  if (whole !== undefined) return { known: [whole], unknown: [] };
  const known: ServiceWord[] = [];
  const unknown: string[] = [];
  let hint: ServiceWord | undefined;
  for (const part of text.split(/[,;+&\n]|\s\/\s|(?<!\bu)\/(?!g\b)|\s+(?:and|und|et|y|en)\s+/i)) {
    const word = bare(part);
    if (word === '') continue;
    const service = serviceFor.get(word);
    if (service === undefined) {
      unknown.push(part.trim());
      hint ??= Object.entries(unsure).find(([near]) => word.includes(near))?.[1];
    } else if (!known.includes(service)) known.push(service);
  }
  return { known, unknown, ...(hint === undefined ? {} : { hint }) };
}
