import { ruleReferences } from './rule-references.ts';
import { describe, expect, test } from 'vitest';
import { tightenTurn } from '../../src/functions/plates.ts';
import { cautionKeys, cautions, cautionsFor, permitLines } from '../../src/job/cautions.ts';
import { release, restore } from '../../sheets/work/stored-energy.ts';
import { supersededSteps } from '../../sheets/work/superseded-steps.ts';
import { standardSteps, stepHeaders, type StepRow } from '../../sheets/work/standard-steps.ts';
import { derivedValues, shownValue, stepPlaces, tighteningOrder } from '../../src/job/step-places.ts';
import { filledSteps } from '../../src/job/filled-steps.ts';
import { notKnown, readSteps, stepFaultText, variantOf } from '../../src/job/job-steps.ts';

/** An invented joint, in mm. */
const values = {
  Belt: 'G4',
  'Plate series': 'Heron',
  'Skew hand': 'left',
  Width: 800,
  Thickness: 12,
  Skew: 30,
  'Cut length': 923.76,
  'Edge offset': 461.88,
  'Belt lost to skew': 461.88,
  'Joint takes': 310,
  'Travel needed': 480,
  'Take-up travel': 900,
  Plates: 17,
  Bolts: 34,
  'Bolt length': 35,
  'Holes per end': 34,
  'Punch size': 9,
  'Hole setback': 22,
  Pitch: 52,
  'Edge clearance': 20.4,
  'Skive depth': 2,
  'Clamped thickness': 10,
  'Strip pieces': 3,
  'Strips below': 1,
  'Strips above': 2,
  'Strip length each': 983.76,
  'Smallest pulley': 400,
  'First hours': 24,
};
const { steps } = readSteps(standardSteps);
const titles = (variant: 'square' | 'skew', given: object = values): string[] =>
  filledSteps(steps, { variant, units: 'metric', values: { ...values, ...given }, service: 'none' }).map(
    ({ title }) => title,
  );

describe('the standard steps', () => {
  test('read without a fault and use no header, place or caution that is not declared', () => {
    expect(readSteps(standardSteps).faults).toEqual([]);
    expect(steps).toHaveLength(standardSteps.length);
    for (const row of standardSteps)
      expect(Object.keys(row).filter((header) => !(stepHeaders as readonly string[]).includes(header))).toEqual([]);
  });

  test('use every place and every caution', () => {
    // Steps that people edited may name places of the texts given out before.
    const texts = [...steps, ...supersededSteps].map(({ text }) => text);
    const used = new Set(texts.flatMap((text) => [...text.matchAll(/\{([^}]*)\}/g)].map(([, name]) => name)));
    expect(stepPlaces.map(({ name }) => name).filter((name) => !used.has(name))).toEqual([]);
    const named = new Set(steps.flatMap((step) => step.cautions));
    expect(cautionKeys.filter((key) => !named.has(key))).toEqual([]);
  });

  test('say what a square and a skew joint differ in, and keep the order of the trade', () => {
    expect(titles('square').filter((title) => !titles('skew').includes(title))).toEqual([
      'Take the square line for the cut',
    ]);
    expect(titles('skew').filter((title) => !titles('square').includes(title))).toEqual(['Mark the skew']);
    for (const variant of ['square', 'skew'] as const) {
      const order = titles(variant);
      const inOrder = [
        'Read and check',
        'Isolate and try',
        'Take the tension off',
        'Mark the centre line',
        'Mark the square line',
        'Prove the square line',
        'Cut the first end',
        'Punch the holes',
        'Skive the cover',
        'Set the lower plates',
        'Join the ends',
        'Set the upper plates',
        'Tighten, first pass: snug',
        'Tighten, second pass: clamp',
        'Break and dress the bolt ends',
        'Check the joint',
        'Clear and put the guards back',
        'Test run',
        'Tighten again after the first hours',
      ].map((title) => order.indexOf(title));
      expect(inOrder).not.toContain(-1);
      expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b));
    }
  });

  test('leave skiving out of a joint that has none, and keep it when that is not known', () => {
    expect(titles('skew', { 'Skive depth': 0 })).not.toContain('Skive the cover');
    expect(titles('skew', { 'Skive depth': undefined })).toContain('Skive the cover');
  });

  test('are filled with values and units of either system', () => {
    const of = (title: string, units: 'metric' | 'us', given = values): string | undefined =>
      filledSteps(steps, { variant: 'skew', units, values: given }).find((step) => step.title === title)?.filled;
    expect(of('Mark the skew', 'metric')).toContain(
      'measure 462 mm along the edge in the direction of travel, and draw the cut from there to the marked ' +
        'corner: 924 mm from edge to edge, 30.0° from square',
    );
    expect(of('Prove the square line', 'metric')).toContain(
      'Measure 800 mm from the square line along both edges and mark it. Both diagonals of this rectangle must ' +
        'be 1131 mm.',
    );
    expect(of('Mark the skew', 'us', { ...values, 'Edge offset': 18.1842 })).toContain(
      'measure 18.18 in along the edge',
    );
    expect(of('Lay the strips below', 'metric')).toContain('along the cut: 1 of 984 mm');
    expect(of('Lay the strips above', 'metric')).toContain('along the cut: 2 of 984 mm');
  });

  test('say "not known" for what is missing, and list it', () => {
    const filled = filledSteps(steps, { variant: 'skew', units: 'metric', values: { Width: 800 } });
    const skew = filled.find(({ title }) => title === 'Mark the skew');
    expect(skew?.missing).toEqual(['Skew hand', 'Edge offset', 'Cut length', 'Skew']);
    expect(skew?.filled).toContain(`measure ${notKnown} along the edge`);
    expect(filled.find(({ title }) => title === 'Prove the square line')?.missing).toEqual([]);
    for (const { filled: text } of filled) expect(text).not.toMatch(/[{}]|NaN|undefined|null|\s{2}|\(\s*\)/);
    expect(derivedValues({ Width: Number.NaN }).Diagonal).toBeUndefined();
  });
});

describe('tightening order', () => {
  test('visits each plate once, in the order of TIGHTENTURN', () => {
    for (let plates = 1; plates <= 40; plates += 1) {
      const visited = tighteningOrder(plates)
        .split(', then ')
        .flatMap((run) => {
          const [from = 0, to = from] = run.split(' to ').map(Number);
          return Array.from({ length: Math.abs(to - from) + 1 }, (_, index) => from + (to >= from ? index : -index));
        });
      const expected = Array.from({ length: plates }, (_, turn) =>
        Array.from({ length: plates }, (_, index) => index + 1).find(
          (plate) => tightenTurn.evaluate([plates, plate]) === turn + 1,
        ),
      );
      expect(visited, `${plates} plates`).toEqual(expected);
    }
  });

  test('runs from each end inward to the middle', () => {
    expect(tighteningOrder(7)).toBe('1 to 4, then 7 to 5');
    expect(tighteningOrder(2)).toBe('1 to 2');
    expect(tighteningOrder(1)).toBe('1');
  });

  test('stands in both passes and in the one after the first hours', () => {
    const filled = filledSteps(steps, { variant: 'skew', units: 'metric', values });
    expect(
      filled.filter(({ filled: text }) => text.includes('1 to 9, then 17 to 10')).map(({ title }) => title),
    ).toEqual(['Tighten, first pass: snug', 'Tighten, second pass: clamp', 'Tighten again after the first hours']);
  });
});

describe("a user's rows", () => {
  const row = (cells: StepRow): StepRow => ({ Step: 'Look', Text: 'Look at {Belt}.', ...cells });

  test('are read in their order, blanks after the row above', () => {
    const { steps: read, faults } = readSteps([
      row({ Step: 'b', Order: 2 }),
      row({ Step: 'c' }),
      row({ Step: 'a', Order: '1' }),
      {},
      { Step: '', Text: null },
    ]);
    expect(faults).toEqual([]);
    expect(read.map(({ title }) => title)).toEqual(['a', 'b', 'c']);
    expect(read[0]).toMatchObject({
      variant: 'both',
      holdPoint: false,
      signOff: false,
      source: 'entered by the user',
      row: 3,
    });
  });

  test('take yes and no, true and false, several tools and cautions', () => {
    const {
      steps: [step],
    } = readSteps([
      row({
        'Hold point': true,
        'Sign-off': 'Yes',
        Tools: 'tape; square ;',
        Cautions: 'Pinch, lifting',
        Joint: 'Skew',
      }),
    ]);
    expect(step).toMatchObject({
      holdPoint: true,
      signOff: true,
      tools: ['tape', 'square'],
      cautions: ['pinch', 'lifting'],
      variant: 'skew',
      key: 'look, skew',
    });
  });

  test('are refused with row, column, what is given and what is allowed', () => {
    const { steps: read, faults } = readSteps([
      row({ Text: 'Cut {Cut lenght}.' }),
      row({ Step: 'x', Joint: 'mitre' }),
      row({ Step: 'y', 'Hold point': 'perhaps' }),
      row({ Step: 'z', Cautions: 'dragons', Order: 'soon' }),
      row({ Step: '', Text: 'nothing' }),
      row({ Step: 'brace', Text: 'Cut {Cut length' }),
      row({ Step: 'X' }),
      row({ Step: 'X' }),
      row({ Step: 'w', 'Only when': 'Moon' }),
    ]);
    expect(faults.map(stepFaultText)).toEqual([
      'Steps!D2, Text: there is no value with this name, so the step prints "not known" ("Cut lenght" is ' +
        'given); allowed: for example Cut length, Bolt length.',
      'Steps!C3, Joint: this is not a kind of joint, and is read as both ("mitre" is given); allowed: square, ' +
        'skew, both.',
      'Steps!F4, Hold point: this is neither yes nor no, and is read as yes ("perhaps" is given); allowed: yes, no.',
      'Steps!A5, Order: this is not a number, so the step follows the row above ("soon" is given); allowed: a number.',
      expect.stringContaining(
        'Steps!H5, Cautions: there is no caution with this name ("dragons" is given); allowed: supplier, isolation',
      ),
      'Steps!B6, Step: the title is empty, so the row is left out; allowed: a text.',
      'Steps!D7, Text: a brace has no partner ("Cut {Cut length" is given); allowed: names in braces, such as ' +
        '{Cut length}.',
      expect.stringContaining(
        'Steps!I10, Only when: there is no value with this name, so the step is always printed ("Moon" is given)',
      ),
      'Steps!B8, Step: Steps!B3 has the same title for the same kind of joint ("X" is given); allowed: a ' +
        'different title.',
      'Steps!B9, Step: Steps!B3 has the same title for the same kind of joint ("X" is given); allowed: a ' +
        'different title.',
    ]);
    expect(read.map(({ title }) => title)).not.toContain('');
    expect(read.find(({ title }) => title === 'y')?.holdPoint).toBe(true);
    const [first] = filledSteps(read, { variant: 'square', units: 'metric', values: { 'Cut lenght': 5 } });
    expect(first?.filled).toBe('Cut not known.');
  });

  test('may name places of their own', () => {
    const places = [...stepPlaces, { name: 'Gate', kind: 'text' as const, doc: 'where the crew comes in' }];
    const { steps: read, faults } = readSteps([row({ Text: 'Come in by {Gate}.' })], places);
    expect(faults).toEqual([]);
    expect(
      filledSteps(read, { variant: 'square', units: 'metric', values: { Gate: 'north' }, places })[0]?.filled,
    ).toBe('Come in by north.');
  });
});

describe('cautions', () => {
  const named = new Set(steps.flatMap((step) => step.cautions));
  const keys = (service: string | undefined, of = named): string[] =>
    cautionsFor(service, of).map(({ caution }) => caution.key);

  test('of flame-resistant belt are said only where the service asks, or is not known', () => {
    for (const service of ['underground', 'metal detector, Fire-rated']) expect(keys(service)).toEqual(cautionKeys);
    for (const service of ['none', 'corrosive, magnet'])
      expect(keys(service)).toEqual(cautionKeys.filter((key) => key !== 'fire'));
    for (const service of ['', undefined])
      expect(cautionsFor(service, named).find(({ caution }) => caution.key === 'fire')?.remark).toContain(
        'underground or fire-rated',
      );
  });

  test('of hot work follow from what a step does, whatever the service and whether the step names them', () => {
    const row = (cells: StepRow): StepRow => ({ Step: 'Dress', Text: 'Dress the ends.', ...cells });
    for (const service of ['none', 'underground', undefined]) {
      for (const cells of [
        { Tools: 'Grinder' },
        { Tools: 'hammer; cutting disc' },
        { Text: 'Grind what stands out.' },
        { Text: 'Cut it with an oxy-fuel torch.' },
        { Cautions: 'hot work' },
      ]) {
        const { steps: own } = readSteps([row(cells)]);
        expect(own[0]?.cautions).toEqual(['hot work']);
        expect(keys(service, new Set(own[0]?.cautions))).toContain('hot work');
        expect(
          filledSteps(own, { variant: 'skew', units: 'metric', values, service })[0]?.notes.map(({ key }) => key),
        ).toEqual(['hot work']);
      }
      const { steps: cold } = readSteps([row({ Tools: 'belt knife; hammer', Text: 'Cut along the line.' })]);
      expect(keys(service, new Set(cold[0]?.cautions))).not.toContain('hot work');
    }
    expect(permitLines(cautionsFor('none', named))).toContain('Hot-work permit number');
    expect(permitLines(cautionsFor('none', new Set()))).not.toContain('Hot-work permit number');
  });

  test('and steps say one order for stored energy, and its reverse', () => {
    const text = (title: string): string => steps.find((step) => step.title === title)?.text ?? '';
    const caution = cautions.find(({ key }) => key === 'stored energy')?.text ?? '';
    const places = (whole: string, clauses: readonly string[]): number[] =>
      clauses.map((clause) => whole.toLowerCase().indexOf(clause.toLowerCase()));
    const opened = Object.values(release);
    const closed = Object.values(restore);
    const [first, second] = [
      `${text('Isolate and try')} ${text('Take the tension off')}`,
      text('Clear and put the guards back'),
    ];
    for (const [whole, clauses] of [
      [caution, [...opened, ...closed]],
      [first, opened],
      [second, closed.slice(1)],
    ] as const) {
      expect(places(whole, clauses)).not.toContain(-1);
      expect(places(whole, clauses)).toEqual(places(whole, clauses).toSorted((a, b) => a - b));
    }
    const order = steps.map(({ title }) => title);
    expect(order.indexOf('Take the tension off')).toBe(order.indexOf('Isolate and try') + 1);
    expect(steps.find(({ title }) => title === 'Tighten again after the first hours')?.cautions).toEqual(
      expect.arrayContaining(['isolation', 'stored energy', 'pinch', 'start-up']),
    );
  });

  test('name only rules that are told of, or say that they have none', () => {
    for (const { key, rules } of cautions) {
      const told =
        ruleReferences.some(({ reference }) => rules.includes(reference)) || rules === 'common practice, no source';
      expect(told, `${key}: ${rules}`).toBe(true);
    }
    const all = cautions.map(({ rules }) => rules).join('; ');
    expect(
      ruleReferences
        .filter(({ reference }) => !all.includes(reference) && !/^30 CFR (?:57|75\.1725)/.test(reference))
        .map(({ reference }) => reference),
    ).toEqual([]);
  });
});

test('a joint is square at a skew of 0 and neither when it is not known', () => {
  expect([0, 22, undefined, Number.NaN].map((skew) => variantOf(skew))).toEqual([
    'square',
    'skew',
    undefined,
    undefined,
  ]);
  expect(shownValue(-0.001, { name: '', kind: 'length', doc: '', digits: { metric: 1, us: 1 } }, 'metric')).toBe(
    '0.0 mm',
  );
});
