import fc from 'fast-check';
import type { EngineeringFunction } from '../../src/formula/define.ts';
import type { Parameter } from '../../src/formula/parameter.ts';
import { Fault, type Matrix, type Value } from '../../src/formula/values.ts';

/** Random arguments for our functions: plausible ones, ones at and beyond the bounds, blanks, words and errors. */

export const decimals = (min: number, max: number, digits = 3): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.ceil(min * 10 ** digits), max: Math.floor(max * 10 ** digits) })
    .map((whole) => whole / 10 ** digits);

/** Price breaks: ascending quantities from 0 or 1 with their prices, mostly falling. */
export const breaks: fc.Arbitrary<{ quantities: number[]; prices: number[] }> = fc
  .array(fc.record({ step: fc.integer({ min: 1, max: 60 }), price: decimals(0, 20, 2) }), {
    minLength: 1,
    maxLength: 6,
  })
  .chain((rows) => fc.boolean().map((falling) => ({ rows, falling })))
  .map(({ rows, falling }) => {
    const prices = rows.map(({ price }) => price);
    return {
      quantities: rows.map((_, index) =>
        rows.slice(1, index + 1).reduce((sum, { step }) => sum + step, rows[0]?.step === 1 ? 0 : 1),
      ),
      prices: falling ? prices.toSorted((one, other) => other - one) : prices,
    };
  });

const verdictWords = ['fits', 'tight', 'not known', 'fails', 'Fits', 'FAILS', 'other', 'yes', 'no', 'f*', 't?ght', '*'];
const designationWords = [
  'EP',
  'NN',
  'P',
  'B',
  'E',
  'St',
  'ST',
  'ep',
  'PN',
  'EPDM',
  'Belt',
  'x',
  'EP400/3',
  'St1250',
  'NN-',
  'b:',
  '400/3',
  '4+2',
  '1000',
  'E,',
  'Y',
];

/** A text of a few words parted by one space or more, some of them codes of a carcass. */
export const designations: fc.Arbitrary<string> = fc
  .array(fc.oneof(fc.constantFrom(...designationWords), fc.stringMatching(/^[A-Za-z0-9/+,:-]{1,6}$/)), {
    minLength: 1,
    maxLength: 6,
  })
  .chain((words) => fc.constantFrom(' ', '  ').map((gap) => words.join(gap)));

/** A designation that can be read, of either style. */
const readable: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom('EP 400/3', '1000 EP 630/4', 'NN250/2', 'St 1250', 'E 315/3'),
    fc.constantFrom(' 4+2', ' 6/2', ' 8:3'),
    fc.constantFrom('', ' Y', ' M24'),
  )
  .map((parts) => parts.join(''));

const services = fc.array(
  fc.constantFrom('underground', 'magnet', 'food', 'none', 'metal detector', 'corrosive', 'wet'),
  { minLength: 1, maxLength: 3 },
);

/** Plausible values by the parameter's name where its kind does not say enough. */
const byName: Readonly<Record<string, fc.Arbitrary<Value>>> = {
  width: decimals(50, 2400),
  skew: fc.oneof(decimals(0, 60), fc.constantFrom(0, 22, 30, 45, 60)),
  pitch: decimals(30, 90, 1),
  plate: decimals(20, 60, 1),
  edge: decimals(0, 40, 1),
  holeGap: decimals(0, 25, 1),
  holeBack: decimals(5, 40, 1),
  perSide: fc.integer({ min: 1, max: 4 }),
  n: fc.integer({ min: 1, max: 40 }),
  i: fc.integer({ min: 1, max: 40 }),
  diameter: fc.oneof(decimals(1, 2000), fc.constantFrom(100, 160, 500, 2000, 315)),
  carcass: decimals(0.5, 25, 2),
  use: fc.oneof(decimals(1, 150, 1), fc.constantFrom(30, 60, 100)),
  lift: decimals(-200, 200),
  friction: decimals(0.01, 0.6),
  factor: decimals(1, 2),
  gravity: fc.constantFrom(1, 9.81),
  service: fc.oneof(decimals(0.5, 0.999), fc.constantFrom(0.5, 0.9, 0.95, 0.98)),
  need: fc.oneof(fc.integer({ min: 0, max: 300 }), decimals(0, 300, 1)),
  quantity: fc.oneof(fc.integer({ min: 0, max: 300 }), decimals(0, 300, 1)),
  construction: fc.oneof(designations, readable),
  roll: decimals(5000, 300000),
  joint: decimals(0, 3000),
  sag: decimals(0.005, 0.02, 4),
  stretch: decimals(0, 0.04, 4),
  share: decimals(0.5, 2),
  trough: decimals(0, 50, 1),
  surcharge: decimals(5, 30, 1),
  slope: decimals(0, 12, 1),
  turn: fc.constantFrom(1, -1),
  turn1: fc.constantFrom(1, -1),
  turn2: fc.constantFrom(1, -1),
  daysPerYear: fc.constantFrom(365, 365.25, 366),
  entering: fc.oneof(decimals(-400, 400), fc.constantFrom(-90, 0, 90, 180, 360)),
  leaving: fc.oneof(decimals(-400, 400), fc.constantFrom(-90, 0, 90, 180, 360)),
};

function plausible(definition: EngineeringFunction, name: string, parameter: Parameter): fc.Arbitrary<Value> {
  if (definition.name === 'LENGTHFACTOR') return decimals(80, 2600, 1);
  if (definition.name === 'TABLEVALUE') return fc.oneof(fc.integer({ min: 0, max: 30 }), decimals(0, 60, 1));
  if (definition.name === 'POISSONSTOCK' && name === 'mean') return fc.oneof(decimals(0, 90), decimals(0, 2, 4));
  if (definition.name === 'SERVICECHECK')
    return name === 'service' ? services.map((words) => words.join(', ')) : fc.constantFrom('yes', 'no', 'Yes', '');
  if (definition.name === 'RATEDPULLEY') {
    if (name === 'skew1') return fc.constantFrom(0, 0, 15, 22, 45);
    if (name === 'skew2') return fc.constantFrom(30, 45, 60, 90);
    if (name === 'square') return decimals(1000, 3000);
    if (name !== 'skew') return decimals(1, 1200);
  }
  const known = byName[name];
  if (known !== undefined && parameter.kind !== 'verdict') return known;
  switch (parameter.kind) {
    case 'text':
      return fc.constantFrom(
        ...(parameter.choices ?? ['word']),
        ...(parameter.choices ?? []).map((choice) => ` ${choice.toLowerCase()} `),
      );
    case 'verdict':
      return fc.constantFrom(...verdictWords);
    case 'check':
      return fc.oneof(decimals(0, 100, 1), fc.integer({ min: -3, max: 12 }), fc.constantFrom(0.1, 0.05, 0));
    case 'count':
      return fc.integer({ min: 1, max: 6 });
    default:
      return decimals(1, 3000);
  }
}

/** What nobody should enter: at and beyond the bounds, blank, a word, true, an error. */
export function odd(parameter: Parameter): fc.Arbitrary<Value> {
  const { min, above, max, below, whole } = parameter;
  // At a bound of a million the comparing spreadsheet would add up as many terms; what is beyond is refused before
  // that.
  const edges = [min, above, max, below].flatMap((bound) =>
    bound === undefined ? [] : bound >= 1e5 ? [bound + 1] : [bound, bound - 1, bound + 1],
  );
  return fc.constantFrom<Value>(
    null,
    null,
    'some words',
    true,
    -1,
    0,
    new Fault('#N/A', ''),
    ...edges,
    ...(whole === true ? [1.5, 2.25] : []),
  );
}

export interface Case {
  readonly args: readonly (Value | Matrix | undefined)[];
  /** How many of the arguments come from `odd`. */
  readonly oddities: number;
}

const asColumn = (numbers: readonly Value[]): Matrix => numbers.map((number) => [number]);
const asRow = (numbers: readonly Value[]): Matrix => [numbers];

/** Quantities and prices as two ranges, now and then with a hole, a word, a wrong size or out of order. */
const ranges: fc.Arbitrary<{ pair: readonly [Matrix, Matrix]; oddities: number }> = fc
  .tuple(
    breaks,
    fc.boolean(),
    fc.constantFrom('', '', '', '', 'hole', 'word', 'shorter', 'order', 'equal', 'negative'),
    fc.nat({ max: 5 }),
  )
  .map(([{ quantities, prices }, across, mishap, place]) => {
    const shaped = across ? asRow : asColumn;
    const at = place % quantities.length;
    const replaced = (value: Value): Value[] => quantities.map((quantity, index) => (index === at ? value : quantity));
    const changed: Readonly<Record<string, Value[]>> = {
      hole: replaced(null),
      word: replaced('none'),
      shorter: quantities.slice(1),
      order: quantities.toReversed(),
      equal: replaced(quantities[at - 1] ?? quantities[at] ?? 0),
      negative: replaced(-1),
    };
    const made = changed[mishap] ?? quantities;
    const usable = made.length === 0 ? quantities : made;
    return { pair: [shaped(usable), shaped(prices)] as const, oddities: mishap === '' ? 0 : 1 };
  });

/** Pulleys around an ellipse, in their order, as the four ranges of a belt's path, and the belt's thickness. */
const paths: fc.Arbitrary<Case> = fc
  .record({
    count: fc.integer({ min: 2, max: 7 }),
    diameters: fc.array(decimals(20, 300), { minLength: 7, maxLength: 7 }),
    left: fc.boolean(),
    across: fc.boolean(),
    thickness: fc.option(decimals(0, 20), { nil: undefined }),
  })
  .map(({ count, diameters, left, across, thickness }) => {
    const angles = Array.from({ length: count }, (_, index) => ((left ? index : -index) * 2 * Math.PI) / count);
    const columns = [
      angles.map((angle) => 4000 * Math.cos(angle)),
      angles.map((angle) => 1000 * Math.sin(angle)),
      diameters.slice(0, count),
      angles.map(() => (left ? 1 : -1)),
    ];
    return { args: [...columns.map(across ? asRow : asColumn), thickness], oddities: 0 };
  });

/** The arguments of a parameter that takes any number of them: cells, rows, columns and blocks of cells. */
function furtherArguments(cell: fc.Arbitrary<{ value: Value; odd: boolean }>): fc.Arbitrary<Case> {
  const range = fc.tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 1, max: 3 })).chain(([height, width]) => {
    const row = fc.array(cell, { minLength: width, maxLength: width });
    return fc.array(row, { minLength: height, maxLength: height });
  });
  const single = cell.map((one) => [[one]]);
  return fc
    .array(fc.oneof({ arbitrary: single, weight: 3 }, { arbitrary: range, weight: 1 }), { minLength: 1, maxLength: 9 })
    .map((given) => ({
      args: given.map((rows) => {
        const values = rows.map((row) => row.map(({ value }) => value));
        return values.length === 1 && values[0]?.length === 1 ? values[0][0] : values;
      }),
      oddities: given.flat(2).filter((one) => one.odd).length,
    }));
}

/** A whole call's arguments; `oddity` is the chance in a hundred that one of them is odd. */
export function calls(definition: EngineeringFunction, oddity = 6): fc.Arbitrary<Case> {
  if (definition.name === 'BELTPATH') return paths;
  const entries = Object.entries(definition.parameters).filter(([, { rest }]) => rest !== true);
  const [rest] = Object.entries(definition.parameters).slice(entries.length);
  const strangeOr = (name: string, parameter: Parameter) => {
    const likely = plausible(definition, name, parameter).map((value) => ({ value, odd: false }));
    const strange = odd(parameter).map((value) => ({ value, odd: true }));
    return [
      { arbitrary: likely, weight: 100 - oddity },
      { arbitrary: strange, weight: oddity },
    ];
  };
  const further: fc.Arbitrary<Case> =
    rest === undefined ? fc.constant({ args: [], oddities: 0 }) : furtherArguments(fc.oneof(...strangeOr(...rest)));
  const cells = entries.map(([name, parameter]): fc.Arbitrary<{ value: Value | undefined; odd: boolean }> => {
    const left = fc.constantFrom({ value: undefined, odd: false }, { value: null, odd: false });
    const optional = parameter.optional === true || parameter.default !== undefined;
    return fc.oneof(...strangeOr(name, parameter), ...(optional ? [{ arbitrary: left, weight: 40 }] : []));
  });
  return fc.tuple(fc.tuple(...cells), ranges, further).map(([picked, { pair, oddities }, last]) => {
    let range = 0;
    let found = 0;
    const args = entries.map(([, { kind }], index) => {
      const cell = picked[index];
      if (kind !== 'numbers') {
        if (cell?.odd === true) found += 1;
        return cell?.value;
      }
      range += 1;
      return range === 1 ? pair[0] : pair[1];
    });
    return { args: [...args, ...last.args], oddities: found + (range > 0 ? oddities : 0) + last.oddities };
  });
}
