/**
 * Headers as words that can be compared: without case, accents, punctuation, plurals and the many ways to shorten them.
 *
 * Words keep their language; what lists call a column in it stands with the columns' declarations. Only words that say
 * how many, how large or which one are made the same here, because they combine with any other.
 */

const sameWords: Readonly<Record<string, string>> = {
  diameter: 'dia|diam|diams|dmr|durchmesser|diametre|diametro|o|od',
  thickness: 'thk|thck|thick|thickn|thicknes',
  minimum: 'min|minimal|minimale|minima|minimo|least|smallest|lowest|mini',
  maximum: 'max|maximal|maximale|maxima|maximo|greatest|largest|highest|biggest|maxi',
  number: 'no|nr|num|numero|nummer|n',
  count: 'cnt|qty|quantity|qnty|anzahl|aantal|cantidad|quantite|anz',
  centre: 'center|ctr|cntr|cent',
  hour: 'hr|std|stunde|heure|hora|uur|uren',
  year: 'yr|annum|jahr|ano|jaar',
  date: 'datum|fecha|dt',
  width: 'wd|wid|wdth',
  length: 'len|lgth|lg',
  pulley: 'pully|pul|plly',
  installed: 'inst|instd|installd',
  construction: 'constr|const',
  specification: 'spec',
  conveyor: 'conv|convr|conveyer',
  tension: 'tens|tensn',
  capacity: 'cap',
  elevation: 'elev',
  velocity: 'vel',
  speed: 'spd',
  temperature: 'temp',
  equipment: 'equip|eqpt',
  metre: 'meter',
  belt: 'blt',
  power: 'pwr|pot',
  drive: 'drv',
};
const wordFor = new Map(
  Object.entries(sameWords).flatMap(([word, others]) => others.split('|').map((other) => [other, word] as const)),
);

const wordSet = (...lines: readonly string[]): ReadonlySet<string> => new Set(lines.flatMap((line) => line.split(' ')));

/** Words that add nothing to a header. */
const empty = wordSet(
  'of the a an and on in at for de la le les du des del el los las der die das den dem van het et y e und en ' +
    'da do di l d',
);

/** Words that say how a figure was got, not what it is. */
const filler = wordSet(
  'measured approx approximate nominal nom actual existing current present value data info given new design calc ' +
    'calculated total',
  'overall avg average mean size dimension detail particular geometry general technical main',
);

/** Words that a list of belts may put before almost anything. */
const light = wordSet('belt conveyor band gurt bande banda cinta diameter value');

/** Names that lists of anything have columns for: alone they do not make a list of belts. */
const everyday = wordSet(
  'name id tag asset equipment type typ tipo spec designation length l longueur longitud lange lengte height h hohe ' +
    'hauteur altura hoogte',
  'date datum fecha hour life load rate line unit site plant section department building location zone standort ' +
    'bereich secteur sector lieu',
  'material product producto produit t w v p q c angle travel motor drive price prix preis precio prijs remark note ' +
    'comment serie repere',
  'nombre anlage vendor maker supplier source condition requirement environment umgebung',
);

const plain = (text: string): string =>
  text
    .replaceAll(/(^|[^\p{L}])(?:[Ø⌀∅]|ø(?!\p{L}))/gu, '$1 diameter ')
    .replaceAll('№', ' no ')
    .replaceAll('#', ' no ')
    .replaceAll('µ', 'μ')
    .replaceAll(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .replaceAll('ø', 'o')
    .replaceAll('æ', 'ae')
    .replaceAll('œ', 'oe')
    .replaceAll(/\b(?:no|nr|number|numero|nombre|nummer)\.?\s+(?:of|de|des|der|van)\b/g, ' count ')
    .replaceAll(/['’`]s\b/g, '')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

const singular = (word: string): string =>
  word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;

/** A header's words in their order. */
export function headerWords(text: string): string[] {
  const words = plain(text)
    .split(' ')
    .filter((word) => word !== '');
  const meant = words.filter((word) => !empty.has(word));
  return (meant.length === 0 ? words : meant).map(
    (word) => wordFor.get(word) ?? wordFor.get(word.replace(/s$/, '')) ?? singular(word),
  );
}

/** How much a word says: 1 for most, less for words that go with everything. */
export const wordWeight = (word: string): number => (filler.has(word) ? 0.2 : light.has(word) ? 0.35 : 1);

/** Words without those that say only how, or on what, a size was measured. */
export const barest = (words: readonly string[]): string[] =>
  words.filter((word) => !filler.has(word) && word !== 'diameter' && word !== 'conveyor');

/** Words of titles that tell something of what stands below them. */
export const telling = (words: readonly string[]): string[] => words.filter((word) => !filler.has(word));

export const isEveryday = (words: readonly string[]): boolean => words.length < 2 && everyday.has(words[0] ?? '');

/** Words as one key, whatever their order. */
export const wordKey = (words: readonly string[]): string => words.toSorted().join(' ');

/** Whether one letter added, lost, changed or swapped makes one word the other. */
export function oneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1 || a === b) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start += 1;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end += 1;
  const [left, right] = [a.length - start - end, b.length - start - end];
  if (left <= 1 && right <= 1) return true;
  return left === 2 && right === 2 && a[start] === b[start + 1] && a[start + 1] === b[start];
}
