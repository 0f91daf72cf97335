import { plyThickness, safetyFactors } from '../../src/functions/belt-tables.ts';
import { namedValues } from '../../src/sheet/declaration.ts';
import { inch } from '../../src/units/quantities.ts';

/** What a belt's construction is judged by: safety factors, estimates of its plies, how its covers may differ. */
const practice = 'common practice, no source';
const memory = 'from memory';

export const beltConstructionValues = namedValues([
  {
    name: 'SafetyFabric',
    kind: 'number',
    value: safetyFactors.fabric.usual,
    min: 1,
    max: 30,
    doc:
      `nominal strength over belt rating of a fabric belt, about ${safetyFactors.fabric.least} to ` +
      `${safetyFactors.fabric.most}`,
    source: `DIN 22101, ${memory}`,
  },
  {
    name: 'SafetyFabricMinimum',
    kind: 'number',
    value: safetyFactors.fabric.least,
    min: 1,
    max: 30,
    doc:
      'minimum safety factor of a fabric belt: it gives the maximum load of the belt, for a ' +
      'joint whose tension is not known otherwise',
    source: `DIN 22101, ${memory}`,
  },
  {
    name: 'SafetySteelCord',
    kind: 'number',
    value: safetyFactors.steelCord.usual,
    min: 1,
    max: 30,
    doc:
      `nominal strength over belt rating of a steel cord belt, ${safetyFactors.steelCord.least} to ` +
      `${safetyFactors.steelCord.most}`,
    source: `DIN 22101, ${memory}`,
  },
  {
    name: 'SafetySteelCordMinimum',
    kind: 'number',
    value: safetyFactors.steelCord.least,
    min: 1,
    max: 30,
    doc:
      'minimum safety factor of a steel cord belt: it gives the maximum load ' +
      'of the belt, for a ' +
      'joint whose tension is not known otherwise',
    source: `DIN 22101, ${memory}`,
  },
  {
    name: 'CarcassSafety',
    kind: 'number',
    value: 8,
    min: 1,
    max: 30,
    doc:
      'nominal strength over the steady tension at which the carcass counts as fully used, for its minimum pulleys; ' +
      'for fabric and steel cord alike',
    source: `DIN 22101, ${memory}`,
  },
  {
    name: 'CoverLeft',
    kind: 'length',
    value: { metric: 1, us: 0.04 },
    min: 0,
    doc: 'minimum top cover that a skive must leave over the carcass',
    source: practice,
  },
  {
    name: 'CoverDifference',
    kind: 'ratio',
    value: 0.25,
    min: 0,
    max: 1,
    doc: "share by which an entered top cover may differ from the designation's before it is reported",
    source: 'our choice, on the safe side',
  },
  {
    name: 'CarcassDifference',
    kind: 'ratio',
    value: 0.25,
    min: 0,
    max: 1,
    doc: 'methods for the carcass thickness that differ by more than this share of the largest are reported',
    source: 'our choice, on the safe side: real plies lie within about a fifth of the estimate, from memory',
  },
  {
    name: 'PlyBase',
    kind: 'length',
    value: { metric: plyThickness.base, us: plyThickness.base / inch },
    min: 0,
    doc: 'thickness that every ply has, for estimating the carcass',
    source: memory,
  },
  {
    name: 'PlyPerStrength',
    kind: 'number',
    value: plyThickness.perStrength,
    min: 0,
    doc: 'thickness of a ply of polyester (E, EP) per its strength, mm per N/mm in either unit system',
    source: memory,
  },
  {
    name: 'PlyPerStrengthPolyamide',
    kind: 'number',
    value: plyThickness.perStrengthPolyamide,
    min: 0,
    doc: 'thickness of a ply of polyamide (P, NN) per its strength, mm per N/mm in either unit system',
    source: `${memory}; one maker's published table, seen, agrees when rubber is added`,
  },
]);
