import { define, Refusal } from '../formula/define.ts';
import { plyThickness, polyamideCodes, safetyFactors, steelCords } from './belt-tables.ts';
import { carcassCodes, type Designation, readDesignation } from './designation.ts';
import { settled } from './rounding.ts';
import { columnText } from './tables.ts';

/** What a belt is: figures read from its designation, and figures derived from those where nothing better is known. */

const construction = { kind: 'text', doc: "the belt's designation, such as EP 400/3 4+2" } as const;
const designations = 'designations in the manner of ISO 14890 and DIN 22102, from memory';

/** A figure of the designation; one that it does not hold is #N/A. */
function figure(construction: string, part: 'plies' | 'topCover' | 'bottomCover', must: string): number {
  const designation: Designation = readDesignation(construction);
  const value = designation[part];
  if (value === undefined) throw new Refusal('construction', must, '#N/A');
  return value;
}

/**
 * Type strength of the belt, read from its designation.
 *
 * Of the whole belt, in N/mm whatever the book's units, since designations are metric. What makes a designation
 * readable, and what is refused because it can be read in two ways, stands with the reader.
 */
export const beltStrength = define({
  name: 'BELTSTRENGTH',
  summary: "the belt's nominal strength in N/mm, read from its designation",
  parameters: { construction },
  result: { kind: 'newtonsPerMillimetre', doc: 'strength of the whole belt per width, N/mm' },
  source: designations,
  example: ['=BELTSTRENGTH("1000 EP 630/4 6/2 Y")', 630],
  calculate({ construction }) {
    return readDesignation(construction).strength;
  },
  formula: null,
});

/**
 * Plies of the carcass, read from the belt's designation. A steel cord belt has none: #N/A, as for one that names none.
 */
export const beltPlies = define({
  name: 'BELTPLIES',
  summary: "plies of the carcass, read from the belt's designation",
  parameters: { construction },
  result: { kind: 'count', doc: 'plies' },
  source: designations,
  example: ['=BELTPLIES("EP 400/3 4+2")', 3],
  calculate({ construction }) {
    return figure(construction, 'plies', 'must name its plies after a slash, as in "EP 400/3"');
  },
  formula: null,
});

/** Cover on the carrying side, read from the belt's designation: the first of the two that it names. */
export const topCover = define({
  name: 'TOPCOVER',
  summary: "cover on the carrying side in mm, read from the belt's designation",
  parameters: { construction },
  result: { kind: 'millimetres', doc: 'thickness of the cover, mm' },
  source: designations,
  example: ['=TOPCOVER("EP 400/3 4+2")', 4],
  calculate({ construction }) {
    return figure(construction, 'topCover', 'must name both covers, as in "EP 400/3 4+2"');
  },
  formula: null,
});

/** Cover on the running side, read from the belt's designation: the second of the two that it names. */
export const bottomCover = define({
  name: 'BOTTOMCOVER',
  summary: "cover on the pulley side in mm, read from the belt's designation",
  parameters: { construction },
  result: { kind: 'millimetres', doc: 'thickness of the cover, mm' },
  source: designations,
  example: ['=BOTTOMCOVER("St1250 8:6")', 6],
  calculate({ construction }) {
    return figure(construction, 'bottomCover', 'must name both covers, as in "EP 400/3 4+2"');
  },
  formula: null,
});

/**
 * Tension that the belt may work at, from its strength.
 *
 * The safety factor stands for start-up, bending, ageing and the loss at a vulcanised joint. Nothing is said here about
 * a bolted joint: its rating is the plate supplier's.
 */
export const permittedTension = define({
  name: 'PERMITTEDTENSION',
  summary: 'the belt rating (permitted working tension), from its strength',
  parameters: {
    strength: { kind: 'lineTension', above: 0, doc: "the belt's nominal strength" },
    safety: {
      kind: 'number',
      min: 1,
      doc:
        `strength over belt rating: fabric ${safetyFactors.fabric.least} to ${safetyFactors.fabric.most}, ` +
        `steel cord ${safetyFactors.steelCord.least} to ${safetyFactors.steelCord.most}`,
    },
  },
  result: { kind: 'lineTension', doc: 'permitted working tension per width' },
  source: 'DIN 22101, from memory',
  example: ['=PERMITTEDTENSION(630,10)', 63],
  calculate({ strength, safety }) {
    return strength / safety;
  },
  formula: '{strength}/{safety}',
});

const strongestCord = steelCords.at(-1)?.strength ?? 0;
/** Downwards, so that a look-up finds the next one up. */
const cordsDown = steelCords.toReversed();
const cordText =
  `IF(ROUND({strength},9)>${strongestCord},{refused},INDEX(${columnText(cordsDown.map(({ diameter }) => diameter))},` +
  `MATCH(ROUND({strength},9),${columnText(cordsDown.map(({ strength }) => strength))},-1)))`;

/**
 * Thickness of the carcass, estimated from the belt's strength: for a belt whose maker's figure is not at hand.
 *
 * Fabric: plies times a part that each has and a part that grows with its strength, so the strength's part does not
 * depend on the plies; plies of polyamide (P, NN) are thinner for their strength. Steel cord: the cord's greatest
 * diameter, of the next strength up in the list; the plies do not count. Cotton is not estimated: it is far thicker for
 * its strength. A figure entered from the maker's sheet, or the whole thickness less both covers, is better.
 */
export const carcassThickness = define({
  name: 'CARCASSTHICKNESS',
  summary: "thickness of the carcass in mm, estimated from the belt's strength",
  parameters: {
    material: {
      kind: 'text',
      choices: carcassCodes.filter((code) => code !== 'B'),
      doc: 'code of the carcass, see CARCASSMATERIAL',
    },
    strength: { kind: 'newtonsPerMillimetre', above: 0, doc: 'nominal strength of the whole belt, N/mm' },
    plies: {
      kind: 'count',
      min: 1,
      whole: true,
      optional: true,
      doc: 'plies of a fabric carcass; steel cord needs none',
    },
    base: { kind: 'millimetres', min: 0, default: plyThickness.base, doc: 'base thickness of a ply, mm' },
    perStrength: {
      kind: 'number',
      min: 0,
      optional: true,
      doc:
        `thickness of a ply per its strength, mm per N/mm; ${plyThickness.perStrength} when it is left out, of ` +
        `polyamide ${plyThickness.perStrengthPolyamide}`,
    },
  },
  result: { kind: 'millimetres', doc: 'estimated thickness, of a steel cord belt the cord diameter, mm' },
  source: 'ply thickness and cord diameters (DIN 22131) from memory',
  example: ['=CARCASSTHICKNESS("EP",400,3)', 3.3],
  calculate({ material, strength, plies, base, perStrength }) {
    if (material === 'St') {
      const cord = steelCords.find((cord) => cord.strength >= settled(strength));
      if (cord === undefined)
        throw new Refusal(
          'strength',
          `must be at most ${strongestCord} N/mm, the strongest steel cord belt in the list`,
        );
      return cord.diameter;
    }
    if (plies === undefined) throw new Refusal('plies', 'must be given for a fabric carcass', '#VALUE!');
    const usual = polyamideCodes.includes(material) ? plyThickness.perStrengthPolyamide : plyThickness.perStrength;
    return plies * base + (perStrength ?? usual) * strength;
  },
  formula: (given) => {
    const isPolyamide = `OR(${polyamideCodes.map((code) => `TRIM({material})="${code}"`).join(',')})`;
    const usual = `IF(${isPolyamide},${plyThickness.perStrengthPolyamide},${plyThickness.perStrength})`;
    const per = given.has('perStrength') ? `IF(ISBLANK({perStrength}),${usual},{perStrength})` : usual;
    const fabric = given.has('plies') ? `IF(ISBLANK({plies}),"?"+1,{plies}*{base}+${per}*{strength})` : '"?"+1';
    return `IF(TRIM({material})="St",${cordText},${fabric})`;
  },
});
