import { define, Refusal } from '../formula/define.ts';
import { radians } from './geometry.ts';
import { skew } from './parameters.ts';
import { settled } from './rounding.ts';
import { carcassFigureOf, pulleyGroups, stepFigure } from './figure-names.ts';
import { carcassFactors, chosenText, columnText, passedOver, pulleySteps, standardPulleys } from './tables.ts';

/** How small a pulley may be: for the joint at its skew, and for the belt's own carcass. */

const largestPulley = standardPulleys.at(-1) ?? 0;
/** Downwards, so that a look-up finds the next one up. */
const pulleysDown = columnText(standardPulleys.toReversed());

/** Place in the series of the next standard diameter up; the series' length when there is none. */
function standardPlace(diameter: number): number {
  const least = settled(diameter);
  const place = standardPulleys.findIndex((standard) => standard >= least);
  return place < 0 ? standardPulleys.length : place;
}

/** Place so many steps along the series, negative downwards; it may lie before its beginning or after its end. */
function steppedPlace(place: number, steps: number): number {
  const diameter = standardPulleys[place] ?? largestPulley;
  const passed = passedOver.filter((bound) => diameter > bound).length;
  return place + steps - Math.max(0, Math.min(-steps, passed));
}

/** What that adds to the place of a diameter in the downward list, as a plain formula. */
const stepsDown = (diameter: string, steps: string): string =>
  `-${steps}+MAX(0,MIN(-${steps},${passedOver.map((bound) => `(ROUND(${diameter},9)>${bound})`).join('+')}))`;

/**
 * Least pulley for a skew joint by the bend at the middle of the plate's edge.
 *
 * A rigid plate of half length a, turned by the skew, spans a cos(skew) of the pulley's circumference, so the angle
 * asin(a cos(skew) / R) by which the belt bends at its edge stays the same when R shrinks by cos(skew). At 45 degrees
 * that is 29.3 %; common practice says "over 25 %". Equal height of the plate over the belt would allow cos squared
 * (Euler's theorem for a cylinder).
 *
 * Where it stops: it takes the plate for a needle across the cut. Away from the middle of its edge a plate with a
 * breadth bends the belt more, at the corner of a usual one even more than a square joint does. The book's own checks
 * take the more cautious line of JOINTPULLEY and RATEDPULLEY.
 */
export const minPulley = define({
  name: 'MINPULLEY',
  summary:
    'theoretical lower bound of the minimum pulley for a skew joint, from its rating as a square joint; ' +
    'the checks use JOINTPULLEY',
  parameters: { square: { kind: 'length', above: 0, doc: 'minimum pulley of the series as a square joint' }, skew },
  result: { kind: 'length', doc: 'minimum pulley diameter' },
  source: "equal bend angle at the plate's edge; Euler's theorem (encyclopediaofmath.org, Euler formula)",
  example: ['=MINPULLEY(450,45)', 318.1980515339464],
  calculate({ square, skew }) {
    return square * Math.cos(radians(skew));
  },
  formula: '{square}*COS(RADIANS({skew}))',
});

/**
 * Next standard pulley diameter up, in mm.
 *
 * A diameter of the series answers itself, also when it misses it by less than the 9th decimal.
 */
export const standardPulley = define({
  name: 'STANDARDPULLEY',
  summary: 'next standard pulley diameter up, mm',
  parameters: {
    diameter: {
      kind: 'millimetres',
      above: 0,
      max: largestPulley,
      doc: 'minimum diameter, mm',
      advice: 'The series ends there: a larger pulley is made to order',
    },
  },
  result: { kind: 'millimetres', doc: 'standard diameter without lagging, mm' },
  source: 'DIN 22101, ISO 1536, from memory',
  example: ['=STANDARDPULLEY(432)', 500],
  calculate({ diameter }) {
    return standardPulleys[standardPlace(diameter)] ?? largestPulley;
  },
  formula: `INDEX(${pulleysDown},MATCH(ROUND({diameter},9),${pulleysDown},-1))`,
});

/**
 * Standard diameter that stands so many steps along the series from the next one up, in mm.
 *
 * What CARCASSPULLEY does with the bare product, for steps of the user's own: a belt that is pulled less may bend
 * sharper. From 1600 mm up a step down passes over entries, as the published tables do. Steps below the series' first
 * diameter stop there; above its last the answer is #NUM!.
 */
export const steppedPulley = define({
  name: 'STEPPEDPULLEY',
  summary: 'standard pulley diameter, so many steps from the next one up, mm',
  parameters: {
    diameter: { kind: 'millimetres', above: 0, max: largestPulley, doc: 'minimum diameter before steps, mm' },
    steps: { kind: 'count', whole: true, doc: 'steps along the series, negative to smaller pulleys' },
  },
  result: { kind: 'millimetres', doc: 'standard diameter without lagging, mm' },
  source: 'DIN 22101, ISO 1536, from memory',
  example: ['=STEPPEDPULLEY(432,-2)', 315],
  calculate({ diameter, steps }) {
    const stepped = standardPulleys[Math.max(0, steppedPlace(standardPlace(diameter), steps))];
    if (stepped === undefined)
      throw new Refusal('steps', `must stay within the standard series, which ends at ${largestPulley} mm`);
    return stepped;
  },
  formula:
    `IF(MATCH(ROUND({diameter},9),${pulleysDown},-1)-{steps}<1,{refused},INDEX(${pulleysDown},` +
    `MIN(${standardPulleys.length},MATCH(ROUND({diameter},9),${pulleysDown},` +
    `-1)${stepsDown('{diameter}', '{steps}')})))`,
});

/** What CARCASSPULLEY takes for the one of use and group that is left out when the other is given. */
const fullUse = 100;
const drive = 'A';

/** What a printed figure is written as. */
type Written = (figure: string) => string;

const carcassNames = carcassFactors.map(carcassFigureOf);
const stepNames = pulleySteps.flatMap(({ over }) => pulleyGroups.map((group) => stepFigure(over, group)));

const bare = (written: Written): string =>
  `{carcass}*${chosenText(
    `MATCH(TRIM({material}),${columnText(carcassFactors.map(({ code }) => code))},0)`,
    carcassNames.map(written),
  )}`;
const placeDown = (written: Written): string => `MATCH(ROUND(${bare(written)},9),${pulleysDown},-1)`;
const shares = pulleySteps.map(({ over }) => over).filter((over) => over > 0);

/** How many rows of the steps come before: those whose share is not exceeded; none where the first is. */
const rowsBefore = (use: string): string => `IFERROR(MATCH(${use},${columnText(shares)},-1),0)`;

/** The plain formula, as short as it can be, since its arguments are often long formulas themselves. */
function carcassFormula(given: ReadonlySet<string>, written: Written): string {
  const left = ['use', 'group'].filter((name) => given.has(name));
  if (left.length === 0) return bare(written);
  const before = given.has('use')
    ? rowsBefore(`ROUND(IF(ISBLANK({use}),${fullUse},{use}),9)`)
    : rowsBefore(String(fullUse));
  const column = given.has('group') ? 'IFERROR(MATCH(TRIM({group}),{"A","B","C"},0),1)' : '1';
  const step = chosenText(`${before}*${pulleyGroups.length}+${column}`, stepNames.map(written));
  const place = `${placeDown(written)}${stepsDown(bare(written), step)}`;
  const stepped = `IF(IFERROR(${place},0)<1,{refused},INDEX(${pulleysDown},MIN(${standardPulleys.length},${place})))`;
  return `IF(AND(${left.map((name) => `ISBLANK({${name}})`).join(',')}),${bare(written)},${stepped})`;
}

/**
 * Least pulley for the belt's own carcass, in mm.
 *
 * The carcass's thickness (not the belt's) times the factor of its material limits the stretch of the outer plies. With
 * the use of the belt's permitted tension, or the pulley's group, it is rounded up to a standard diameter and moved
 * along the series: a belt that is pulled less may bend sharper. Steps below the series' first diameter stop there;
 * above its last the answer is #NUM!. With neither given (or blank) the answer is the bare product.
 *
 * The standard is not meant for carcasses over 20 mm, interply rubber over 0.8 mm, above 100 or below -40 degrees C.
 */
export const carcassPulley = define({
  name: 'CARCASSPULLEY',
  summary: "minimum pulley for the belt's own carcass, mm",
  parameters: {
    material: {
      kind: 'text',
      choices: carcassFactors.map(({ code }) => code),
      doc: carcassFactors.map(({ code, material }) => `${code} ${material}`).join(', '),
    },
    carcass: { kind: 'millimetres', above: 0, doc: 'thickness of the carcass, of a steel cord its diameter, mm' },
    use: {
      kind: 'percent',
      above: 0,
      optional: true,
      doc: `belt tension in per cent of the belt rating; ${fullUse} if only the group is given`,
    },
    group: {
      kind: 'text',
      choices: ['A', 'B', 'C'],
      optional: true,
      doc:
        `A drive and high tension, B low tension, C snubs to 30 degrees of wrap; ${drive} when only the use is ` +
        `given`,
    },
  },
  result: { kind: 'millimetres', doc: 'diameter, mm: standard if use or group is given, otherwise the bare product' },
  source: 'DIN 22101, ISO 3684, from memory; factors also in GB 50431-2020 clause 8.2.1',
  example: ['=CARCASSPULLEY("EP",4,80,"B")', 400],
  figures: {
    ...Object.fromEntries(carcassFactors.map((row) => [carcassFigureOf(row), row.factor])),
    ...Object.fromEntries(
      pulleySteps.flatMap((row) => pulleyGroups.map((group) => [stepFigure(row.over, group), row[group]])),
    ),
  },
  calculate({ material, carcass, use, group }, figure) {
    const code = carcassFactors.find((row) => row.code === material);
    const diameter = carcass * (code === undefined ? Number.NaN : figure(carcassFigureOf(code)));
    if (use === undefined && group === undefined) return diameter;
    const tooLarge = new Refusal(
      'carcass',
      `must give a pulley within the standard series, which ends at ${largestPulley} mm; ${material} gives ` +
        `${diameter} mm before steps`,
    );
    const place = standardPlace(diameter);
    if (place === standardPulleys.length) throw tooLarge;
    const row = pulleySteps.find(({ over }) => settled(use ?? fullUse) > over);
    const step = row === undefined ? 0 : figure(stepFigure(row.over, group === 'B' || group === 'C' ? group : drive));
    const stepped = standardPulleys[Math.max(0, steppedPlace(place, step))];
    if (stepped === undefined) throw tooLarge;
    return stepped;
  },
  formula: carcassFormula,
});
