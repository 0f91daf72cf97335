import type { UnitSystem } from './quantities.ts';

/** How books in US customary units spell: the same columns and texts, as their readers write them. */

const usWords: Readonly<Record<string, string>> = {
  centre: 'center',
  centres: 'centers',
  Cancelled: 'Canceled',
  cancelled: 'canceled',
  labour: 'labor',
  Labour: 'Labor',
  metre: 'meter',
  metres: 'meters',
  grey: 'gray',
  millimetre: 'millimeter',
  millimetres: 'millimeters',
  neighbour: 'neighbor',
  neighbouring: 'neighboring',
  authorise: 'authorize',
  authorised: 'authorized',
  authorises: 'authorizes',
  vulcanise: 'vulcanize',
  vulcanised: 'vulcanized',
  Vulcanise: 'Vulcanize',
};

const british = new RegExp(`\\b(?:${Object.keys(usWords).join('|')})\\b`, 'g');

/** In small letters, and where a header begins so: a user's own "Centre 1" keeps its name in a finding. */
export const usSpelling = (text: string): string => text.replaceAll(british, (word) => usWords[word] ?? word);

/** A text in the spelling of a unit system's users. */
export const spelt = (text: string, units: UnitSystem): string => (units === 'us' ? usSpelling(text) : text);
